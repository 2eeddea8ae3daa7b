// The check some weeks after closing: planned by closing, ended by opening again.
import { checkDay, isCheckedAfter } from '@backsight/domain/callbacks/after';
import type { CallbackRow } from '@backsight/store/callbacks';
import { afterRules, answerCheck, assessmentOf, saveCheck } from '@backsight/store/callbacks/after';
import { localDay } from '../../firm/steps/localDay.ts';
import type { Work } from '../../run.ts';
import { actorId } from './callback.ts';

/** Whoever looks into it, else whoever acts, asks on that day; answers the day, or null where nothing is asked. */
export async function planCheck(work: Work, { id, kind }: CallbackRow, on?: string): Promise<string | null> {
  if (!isCheckedAfter(kind)) return null;
  const { today } = await localDay(work.tx, work.now);
  const dueOn = on ?? checkDay(today, await afterRules(work.tx));
  const personId = (await assessmentOf(work.tx, id))?.assigneeId ?? actorId(work.actor)!;
  await saveCheck(work.tx, { id: work.newId(), callbackId: id, dueOn, personId, at: work.now });
  return dueOn;
}

/** Nothing is asked after what is open again. */
export const endCheck = (work: Work, id: string): Promise<void> =>
  answerCheck(work.tx, id, { outcome: 'reopened', textId: null, repeatId: null, actorId: actorId(work.actor), at: work.now });

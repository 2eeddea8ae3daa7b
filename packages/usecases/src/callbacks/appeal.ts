// An appeal against a decision: taken in by the office for the complainant, and decided by an owner.
import { decideAppeal, type AppealResult } from '@backsight/domain/callbacks/after';
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import type { CallbackRow } from '@backsight/store/callbacks';
import { appealsOf, decideOnAppeal, ownersFor } from '@backsight/store/callbacks/appeals';
import { keepText } from '@backsight/store/text';
import { localDay } from '../firm/steps/localDay.ts';
import type { Act, Work } from '../run.ts';
import { actorId, record, withCallback, type Done } from './steps/callback.ts';
import { takeAppeal } from './steps/takeAppeal.ts';

export const appealForThem: Act<{ id: string; words: string }, Done> = {
  operation: 'callbacks.appeal',
  run: (work, { id, words }) => withCallback(work, id, (callback) => takeAppeal(work, callback, { way: 'office', words })),
};

export type DecideInput = { id: string; result: AppealResult; words: string; reviewer: string };

/** `words` stand in the letter of the result. Refusals: those of `decideAppeal`. */
export const decideOnAnAppeal: Act<DecideInput, Done> = {
  operation: 'callbacks.decide-appeal',
  run: (work, input) => withCallback(work, input.id, (callback) => decide(work, callback, input)),
};

async function decide(work: Work, callback: CallbackRow, { result, words, reviewer }: DecideInput): Promise<Outcome<Done>> {
  const { today } = await localDay(work.tx, work.now);
  const open = (await appealsOf(work.tx, callback.id)).find((one) => one.result === null);
  const owners = await ownersFor(work.tx, callback.id, today);
  const me = actorId(work.actor)!;
  const by = owners.find(({ id }) => id === me) ?? { id: me, name: '', involved: true };
  const decided = decideAppeal({ open: open !== undefined, by, owners, state: callback.state }, { result, reviewer });
  if (!decided.ok) return decided;
  const { involved, state } = decided.value;
  const resultTextId = await keepText(work.tx, work.newId(), words, work.now);
  const named = involved ? reviewer.trim() : '';
  await decideOnAppeal(work.tx, open!.id, { result, resultTextId, decidedBy: me, involved, reviewer: named, at: work.now });
  const event = { kind: 'appeal_decided', state, details: { appealId: open!.id, result, involved } };
  const noted = await record(work, callback, event, decided.warnings);
  return noted.ok ? accept(noted.value, decided.warnings) : noted;
}

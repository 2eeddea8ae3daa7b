// Asks after closing whether it held, and writes down what came of it.
import { decideCheck, type CheckAnswer } from '@backsight/domain/callbacks/after';
import { moveTo } from '@backsight/domain/callbacks/state';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { CallbackRow } from '@backsight/store/callbacks';
import { answerCheck, callbackByNumber, checksOf } from '@backsight/store/callbacks/after';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { keepText } from '@backsight/store/text';
import { localDay } from '../firm/steps/localDay.ts';
import type { Act, Work } from '../run.ts';
import { actorId, isOwner, record, rolesOf, withCallback, type Done } from './steps/callback.ts';
import { planCheck } from './steps/planCheck.ts';

export type CheckInput = Omit<CheckAnswer, 'repeatId'> & { id: string; repeatNumber?: number; words?: string };

/** It opens again when it came back and no newer callback says so. Refusals: those of `decideCheck`, repeat-elsewhere. */
export const answerAfterCheck: Act<CheckInput, Done> = {
  operation: 'callbacks.check',
  run: (work, input) => withCallback(work, input.id, (callback) => answer(work, callback, input)),
};

async function answer(work: Work, callback: CallbackRow, { outcome, againOn, repeatNumber, words }: CheckInput): Promise<Outcome<Done>> {
  const { id, state } = callback;
  const repeat = repeatNumber === undefined ? accept(null) : await repeatOf(work, callback, repeatNumber);
  if (!repeat.ok) return repeat;
  const [open] = await checksOf(work.tx, id);
  const { today } = await localDay(work.tx, work.now);
  const given = { outcome, ...(againOn === undefined ? {} : { againOn }), ...(repeat.value === null ? {} : { repeatId: repeat.value }) };
  const decided = decideCheck({ open: open?.outcome === null, state, today, id }, given);
  if (!decided.ok) return decided;
  const textId = words === undefined ? null : await keepText(work.tx, work.newId(), words, work.now);
  await answerCheck(work.tx, id, { outcome, textId, repeatId: repeat.value, actorId: actorId(work.actor), at: work.now });
  if (againOn !== undefined) await planCheck(work, callback, againOn);
  const said = words === undefined ? {} : { words };
  const details = { outcome, ...(repeatNumber === undefined ? {} : { repeatNumber }) };
  const noted = await record(work, callback, { kind: 'checked', state, details, ...said });
  if (!noted.ok || !decided.value.reopens) return noted;
  const next = moveTo(callback, 'reopen');
  return next.ok ? record(work, { ...callback, version: callback.version + 1 }, { kind: 'reopened', state: next.value, ...said }) : next;
}

/** The newer callback about the same property that says that it came back. */
async function repeatOf(work: Work, callback: CallbackRow, number: number): Promise<Outcome<string | null>> {
  const found = await callbackByNumber(work.tx, number);
  if (!found || (found.ownerOnly && !isOwner(rolesOf(work.actor)))) return refuse('not-found', { thing: 'callback' }, 'repeatNumber');
  const job = (await findJobForCallback(work.tx, callback.jobId))!;
  return found.propertyId === job.propertyId ? accept(found.id) : refuse('repeat-elsewhere', {}, 'repeatNumber');
}

// Waiting for the client: the clocks of visit and decision stand still, with the reason, and go on when somebody says so.
import { dueAfterPause, mayPause } from '@backsight/domain/callbacks/pause';
import { refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { CallbackRow } from '@backsight/store/callbacks';
import { endPause, moveDue, pausesOf, runningClocks, savePause, type RunningRow } from '@backsight/store/callbacks/clocks';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import { keepText } from '@backsight/store/text';
import { calendarOf } from '../firm/steps/calendar.ts';
import type { Act, Work } from '../run.ts';
import { actorId, record, withCallback, type Done } from './steps/callback.ts';

const inIso = ({ clock, startedAt, dueAt }: RunningRow) => ({ clock, startedAt: startedAt.toISOString(), dueAt: dueAt.toISOString() });

/** Refusals: callback-state, pause-open-already, nothing-stands-still. */
export const pauseCallback: Act<{ id: string; words: string }, Done> = {
  operation: 'callbacks.pause',
  run: (work, { id, words }) => withCallback(work, id, (callback) => pause(work, callback, words)),
};

async function pause(work: Work, callback: CallbackRow, words: string): Promise<Outcome<Done>> {
  const clocks = (await runningClocks(work.tx, callback.id)).map(inIso);
  const paused = (await pausesOf(work.tx, callback.id)).some(({ untilAt }) => untilAt === null);
  const may = mayPause({ state: callback.state, paused, clocks }, work.now.toISOString());
  if (!may.ok) return may;
  const textId = await keepText(work.tx, work.newId(), words, work.now);
  const fromBy = actorId(work.actor)!;
  await savePause(work.tx, { id: work.newId(), callbackId: callback.id, textId, fromAt: work.now, fromBy });
  return record(work, callback, { kind: 'paused', state: callback.state, details: { clocks: may.value }, textId });
}

/** Each clock that stood still is due later by exactly the office time that passed. Refusal: pause-not-open. */
export const resumeCallback: Act<{ id: string; words?: string }, Done> = {
  operation: 'callbacks.resume',
  run: (work, { id, words }) => withCallback(work, id, (callback) => resume(work, callback, words)),
};

async function resume(work: Work, callback: CallbackRow, words?: string): Promise<Outcome<Done>> {
  const open = (await pausesOf(work.tx, callback.id)).find(({ untilAt }) => untilAt === null);
  if (!open) return refuse('pause-not-open');
  const job = (await findJobForCallback(work.tx, callback.jobId))!;
  const running = await runningClocks(work.tx, callback.id);
  const span = { from: open.fromAt.toISOString(), to: work.now.toISOString() };
  const moved = dueAfterPause(running.map(inIso), span, await calendarOf(work.tx, job.officeId, work.now));
  for (const { clock, dueAt } of moved) await moveDue(work.tx, running.find((one) => one.clock === clock)!.id, new Date(dueAt));
  await endPause(work.tx, callback.id, work.now, actorId(work.actor)!);
  const details = Object.fromEntries(moved.map(({ clock, dueAt }) => [`${clock}DueAt`, dueAt]));
  return record(work, callback, { kind: 'resumed', state: callback.state, details, ...(words === undefined ? {} : { words }) });
}

// What an event of a callback does besides: clocks are met, dropped and started, and alerts of danger begin or end.
import { movesOf } from '@backsight/domain/callbacks/clocks';
import { maySlow } from '@backsight/domain/callbacks/pause';
import type { State } from '@backsight/domain/callbacks/words';
import type { CallbackRow, Changed } from '@backsight/store/callbacks';
import { dropClocks, endPause, meetClocks, runningClocks } from '@backsight/store/callbacks/clocks';
import { answerChain, endChain } from '@backsight/store/callbacks/danger';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import type { Details, Work } from '../../run.ts';
import { calendarOf } from '../../firm/steps/calendar.ts';
import { startDanger } from './danger.ts';
import { startClocks } from './runClocks.ts';

type Event = { kind: string; state: State; details?: Details; changed?: Changed };

export async function followEvent(work: Work, callback: CallbackRow, event: Event): Promise<void> {
  const { id, remedySought, receivedAt } = callback;
  const by = work.actor.kind === 'person' ? work.actor.id : null;
  const told = { kind: event.kind, from: callback.state, to: event.state, ...(event.details ? { details: event.details } : {}) };
  const { meets, drops, starts } = movesOf(callback.kind, told, remedySought);
  if (meets.length > 0) await meetClocks(work.tx, id, meets, work.now, by);
  if (drops.length > 0) await dropClocks(work.tx, id, drops, work.now);
  if (starts.length > 0) {
    const job = (await findJobForCallback(work.tx, callback.jobId))!;
    const calendar = await calendarOf(work.tx, job.officeId, work.now);
    const kind = event.changed?.kind ?? callback.kind;
    await startClocks(work, { callbackId: id, kind, receivedAt, clocks: starts, startedAt: work.now, calendar });
  }
  if (by !== null && [...meets, ...drops].some(maySlow)) await endIdlePause(work, id, by);
  await followDanger(work, callback, event, by, meets.includes('acknowledge'));
}

/** Nothing stands still any more that could go on. */
async function endIdlePause(work: Work, id: string, by: string): Promise<void> {
  const running = await runningClocks(work.tx, id);
  if (!running.some(({ clock }) => maySlow(clock))) await endPause(work.tx, id, work.now, by);
}

/** Whoever speaks with the caller has it, pressed or not. */
async function followDanger(work: Work, callback: CallbackRow, event: Event, by: string | null, spoken: boolean): Promise<void> {
  if (event.changed?.safety === false) await endChain(work.tx, callback.id, work.now);
  if (event.changed?.safety === true && !callback.safety) {
    const job = (await findJobForCallback(work.tx, callback.jobId))!;
    await startDanger(work, callback, job);
  } else if (spoken && by !== null) await answerChain(work.tx, callback.id, work.now, by);
}

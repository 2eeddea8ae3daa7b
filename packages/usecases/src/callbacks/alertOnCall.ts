// The clock alerts the next person of every danger that nobody has yet.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { lockCallback } from '@backsight/store/callbacks';
import { chainsOf, chainsWaiting } from '@backsight/store/callbacks/danger';
import { findJobForCallback } from '@backsight/store/callbacks/job';
import type { Database } from '@backsight/store/database';
import type { Act, Runner, Work } from '../run.ts';
import { alertMinutes, alertNext } from './steps/danger.ts';

const MINUTE = 60_000;

const alertOne: Act<{ callbackId: string }, { alerted: boolean }> = { operation: 'callbacks.alert-on-call', run: alert };

/** Looks again under the lock of the callback: it may have been answered meanwhile, or the next one alerted by another. */
async function alert(work: Work, { callbackId }: { callbackId: string }): Promise<Outcome<{ alerted: boolean }>> {
  const callback = await lockCallback(work.tx, callbackId);
  const chain = (await chainsOf(work.tx, callbackId))[0];
  if (!callback || !chain) return refuse('not-found', { thing: 'callback' });
  const last = Date.parse(chain.alerts.at(-1)?.at ?? '1970-01-01T00:00:00Z');
  const due = last + (await alertMinutes(work.tx, work.now)) * MINUTE <= work.now.getTime();
  const job = (await findJobForCallback(work.tx, callback.jobId))!;
  const personId = chain.answeredAt === null && chain.endedAt === null && due ? await alertNext(work, chain, callback, job) : null;
  await work.did('callback', callbackId, { event: 'alerted', personId, n: chain.alerts.length + (personId ? 1 : 0) });
  return accept({ alerted: personId !== null });
}

/** Answers for how many the next person was looked for. */
export async function alertOnCall(parts: { database: Database; runner: Runner; clock: () => Date }): Promise<number> {
  const now = parts.clock();
  const before = new Date(now.getTime() - (await alertMinutes(parts.database.read, now)) * MINUTE);
  const waiting = await chainsWaiting(parts.database.read, before);
  for (const { callbackId } of waiting) await parts.runner.run(alertOne, { callbackId }, { actor: { kind: 'service' } });
  return waiting.length;
}

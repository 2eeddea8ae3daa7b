// What a plan must keep of a visit: the window promised to the client, and whether it stays as it is.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findKept, setLock, setPromise } from '@backsight/store/schedule/moveVisits';
import type { Reader } from '@backsight/store/database';
import { findVisit, type VisitRow } from '@backsight/store/schedule/visits';
import type { Act, Work } from '../run.ts';

type Kept = { id: string; version: number };

export type PromiseInput = Kept & { window: { from: string; until: string } | null };

/** A plan may move the start within the window; without one the very start is promised. */
export const promiseWindow: Act<PromiseInput, Kept> = { operation: 'schedule.promise', run: promise };

async function promise(work: Work, { id, version, window }: PromiseInput): Promise<Outcome<Kept>> {
  const visit = await open(work, id);
  if (!visit.ok) return visit;
  const span = window && { from: new Date(window.from), until: new Date(window.until) };
  if (span && (span.from > visit.value.startsAt || span.until < visit.value.startsAt)) return refuse('visit-promise', {}, 'window');
  if (!(await setPromise(work.tx, id, version, span))) return refuse('changed-meanwhile');
  await work.did('visit', id, { promisedFrom: span?.from.toISOString() ?? null, promisedUntil: span?.until.toISOString() ?? null });
  return accept({ id, version: version + 1 });
}

export type LockInput = Kept & { because: string | null };

/** A locked visit keeps its start and crew in every plan; people may still move it by hand. */
export const lockVisit: Act<LockInput, Kept> = { operation: 'schedule.lock', run: lock };

async function lock(work: Work, { id, version, because }: LockInput): Promise<Outcome<Kept>> {
  const visit = await open(work, id);
  if (!visit.ok) return visit;
  if (work.actor.kind !== 'person') return refuse('not-allowed');
  const by = because === null ? null : { at: work.now, by: work.actor.id, because };
  if (!(await setLock(work.tx, id, version, by))) return refuse('changed-meanwhile');
  await work.did('visit', id, { locked: because !== null });
  return accept({ id, version: version + 1 });
}

async function open(work: Work, id: string): Promise<Outcome<VisitRow>> {
  const visit = await findVisit(work.tx, id);
  if (!visit) return refuse('not-found', { thing: 'visit' });
  return visit.state === 'held' || visit.state === 'booked'
    ? accept(visit)
    : refuse('visit-is', { state: visit.state.replaceAll('_', ' ') });
}

/** What a visit must keep now, and who said so. */
export async function readKept(reader: Reader, id: string) {
  const kept = await findKept(reader, id);
  if (!kept) return refuse('not-found', { thing: 'visit' });
  const { startsAt, promisedFrom, promisedUntil, lockedAt, lockedBy, lockedBecause, ...visit } = kept;
  return accept({
    ...visit,
    startsAt: startsAt.toISOString(),
    window: promisedFrom && promisedUntil ? { from: promisedFrom.toISOString(), until: promisedUntil.toISOString() } : null,
    lock: lockedAt ? { at: lockedAt.toISOString(), by: lockedBy ?? '', because: lockedBecause ?? '' } : null,
  });
}

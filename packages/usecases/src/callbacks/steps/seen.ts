// Whether somebody else changed a callback since whoever acts looked at it.
import { refuse, type Refusal } from '@backsight/domain/shared/outcome';
import { eventsSince } from '@backsight/store/callbacks/since';
import type { Work } from '../../run.ts';
import { CONFIDENTIAL } from './confidential.ts';

/**
 * Names the newest event of somebody else since the version that was looked at, of those that `judges` may see; null where there is none.
 * What somebody did a moment before stands in the own page's way no longer than its reading takes, so it never counts.
 */
export async function changedSince(work: Work, callback: { id: string; version: number }, judges: boolean): Promise<Refusal | null> {
  const { seen, actor } = work;
  if (seen === undefined || seen >= callback.version) return null;
  const self = actor.kind === 'person' ? actor.id : null;
  const later = (await eventsSince(work.tx, callback.id, seen)).filter(
    ({ kind, actorId }) => (actorId === null || actorId !== self) && (judges || !CONFIDENTIAL.includes(kind)),
  );
  const last = later.at(-1);
  return last ? refuse('callback-changed', { who: last.actor ?? 'The service', what: last.kind.replaceAll('_', ' ') }) : null;
}

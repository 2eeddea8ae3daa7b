// Whether a callback was changed since whoever acts looked at it.
import { refuse, type Refusal } from '@backsight/domain/shared/outcome';
import { eventsOf } from '@backsight/store/callbacks';
import type { Work } from '../../run.ts';
import { CONFIDENTIAL } from './confidential.ts';

/** Names the newest event since the version that was looked at, of those that `judges` may see; null where there is none. */
export async function changedSince(work: Work, callback: { id: string; version: number }, judges: boolean): Promise<Refusal | null> {
  const { seen } = work;
  if (seen === undefined || seen >= callback.version) return null;
  const later = (await eventsOf(work.tx, callback.id)).filter(({ seq, kind }) => seq > seen && (judges || !CONFIDENTIAL.includes(kind)));
  const last = later.at(-1);
  return last ? refuse('callback-changed', { who: last.actor ?? 'The service', what: last.kind.replaceAll('_', ' ') }) : null;
}

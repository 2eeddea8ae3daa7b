// Disposes of one thing that is due, with what goes with it.
import { together, type DueUnit } from '@backsight/domain/personal/retention';
import * as store from '@backsight/store/personal/retention';
import type { Work } from '../../run.ts';

/** One unit with what goes with it, and its line in the audit trail. The database refuses what is held or not over. */
export async function disposeUnit(work: Work, { kind, id }: DueUnit, because: 'retention' | 'asked'): Promise<store.Gone> {
  const gone: store.Gone = { rows: 0, words: 0, files: 0 };
  const actorId = work.actor.kind === 'person' ? work.actor.id : '';
  for (const one of together(kind)) {
    if (one !== kind && ((await store.isDisposed(work.tx, one, id)) || !(await store.keepUntil(work.tx, one, id)))) continue;
    const part = await store.dispose(work.tx, { id: work.newId(), kind: one, thingId: id, because, actorId, at: work.now });
    for (const key of ['rows', 'words', 'files'] as const) gone[key] += part[key];
  }
  const thing = { job: 'job', mail: 'job', callback: 'job', inquiry: 'inquiry', staff: 'person' }[kind];
  await work.did(thing, id, { disposedOf: kind, because, ...gone });
  return gone;
}

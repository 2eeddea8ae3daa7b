// Corrective actions whose revision is in force are done, without anybody saying so.
import { endAction, readyActions } from '@backsight/store/callbacks/actions';
import type { Work } from '../../run.ts';

/** Ends every open action whose revision is in force now; answers how many. */
export async function finishActions(work: Work): Promise<number> {
  const ready = await readyActions(work.tx, work.now);
  for (const { id, revisionId } of ready) {
    await endAction(work.tx, id, 'done', work.now);
    await work.did('corrective-action', id, { event: 'done', revisionId });
  }
  return ready.length;
}

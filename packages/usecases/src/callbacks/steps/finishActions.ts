// Corrective actions whose revision is in force are done, without anybody saying so.
import { readyActions } from '@backsight/store/callbacks/actions';
import type { Work } from '../../run.ts';
import { recordAction } from './action.ts';

/** Ends every open action whose revision is in force now; answers how many. */
export async function finishActions(work: Work): Promise<number> {
  const ready = await readyActions(work.tx, work.now);
  for (const { id, revisionId, version } of ready)
    await recordAction(
      work,
      { id, version },
      { kind: 'done', details: { revisionId }, audit: { revisionId } },
      { state: 'done', doneAt: work.now },
    );
  return ready.length;
}

// Takes hold of a remedy and its callback for one act.
import { refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findRemedy, type CallbackRow, type RemedyRow } from '@backsight/store/callbacks';
import type { Work } from '../../run.ts';
import { withCallback } from './callback.ts';

/** Runs an act on a remedy and its locked callback. */
export async function withRemedy<T>(
  work: Work,
  remedyId: string,
  act: (remedy: RemedyRow, callback: CallbackRow) => Promise<Outcome<T>>,
): Promise<Outcome<T>> {
  const found = await findRemedy(work.tx, remedyId);
  if (!found) return refuse('not-found', { thing: 'remedy' });
  return withCallback(work, found.callbackId, async (callback) => act((await findRemedy(work.tx, remedyId))!, callback));
}

// Corrective actions, open ones first.
import { listActions } from '@backsight/store/callbacks/actions';
import type { Reader } from '@backsight/store/database';

export const readActions = async (reader: Reader) =>
  (await listActions(reader)).map((a) => ({ ...a, inForceFrom: a.inForceFrom?.toISOString() ?? null, recordedAt: a.recordedAt.toISOString(), doneAt: a.doneAt?.toISOString() ?? null }));

// Corrective actions, open ones first.
import type { Role } from '@backsight/domain/people/roles';
import { listActions } from '@backsight/store/callbacks/actions';
import type { Reader } from '@backsight/store/database';
import { isOwner } from './steps/callback.ts';

/** All of them, or those that one revision comes from. Callbacks that only the owner sees are left out for others. */
export const readActions = async (reader: Reader, { revisionId, roles }: { revisionId: string | null; roles: readonly Role[] }) =>
  (await listActions(reader, revisionId)).map((a) => ({
    ...a,
    inForceFrom: a.inForceFrom?.toISOString() ?? null,
    recordedAt: a.recordedAt.toISOString(),
    doneAt: a.doneAt?.toISOString() ?? null,
    callbacks: a.callbacks.filter(({ ownerOnly }) => !ownerOnly || isOwner(roles)).map(({ ownerOnly: _, ...c }) => c),
  }));

// One act from a corrective action to the draft of the revision that it brings.
import { mayLink } from '@backsight/domain/callbacks/action';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { linkActionRevision, lockAction } from '@backsight/store/callbacks/actions';
import { startDraft } from '../procedures/steps/startDraft.ts';
import type { Act, Work } from '../run.ts';

/** `id` is the action's, `revisionId` the new draft's. The reason goes to every phone: no client, address or amount. */
export type DraftForActionInput = { id: string; revisionId: string; procedureId: string; reason: string };

export const draftForAction: Act<DraftForActionInput, { id: string; revisionId: string; number: number }> = {
  operation: 'callbacks.draft-revision',
  run: draft,
};

async function draft(work: Work, input: DraftForActionInput): Promise<Outcome<{ id: string; revisionId: string; number: number }>> {
  const { actor } = work;
  if (actor.kind !== 'person') return refuse('not-allowed');
  const action = await lockAction(work.tx, input.id);
  if (!action) return refuse('not-found', { thing: 'corrective action' });
  const may = mayLink(action);
  if (!may.ok) return may;
  const started = await startDraft(work, {
    id: input.revisionId,
    procedureId: input.procedureId,
    reason: input.reason,
    authorId: actor.id,
    retires: false,
  });
  if (!started.ok) return started;
  await linkActionRevision(work.tx, input.id, input.revisionId);
  await work.did('corrective-action', input.id, { event: 'linked', revisionId: input.revisionId });
  return accept({ id: input.id, revisionId: input.revisionId, number: started.value.number });
}

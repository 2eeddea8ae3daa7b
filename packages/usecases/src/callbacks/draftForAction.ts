// One act from a corrective action to the draft of the revision that it brings.
import { mayLink } from '@backsight/domain/callbacks/action';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { startDraft } from '../procedures/steps/startDraft.ts';
import type { Act, Work } from '../run.ts';
import { namesNone, recordAction, withAction } from './steps/action.ts';

/** `id` is the action's, `revisionId` the new draft's. The reason goes to every phone: no client, address or amount. */
export type DraftForActionInput = { id: string; revisionId: string; procedureId: string; reason: string };

export const draftForAction: Act<DraftForActionInput, { id: string; revisionId: string; number: number }> = {
  operation: 'callbacks.draft-revision',
  run: draft,
};

async function draft(work: Work, input: DraftForActionInput): Promise<Outcome<{ id: string; revisionId: string; number: number }>> {
  const { actor } = work;
  if (actor.kind !== 'person') return refuse('not-allowed');
  return withAction(work, input.id, async (action) => {
    const may = mayLink(action);
    if (!may.ok) return may;
    const clean = await namesNone(
      work,
      action.callbacks.map(({ id }) => id),
      { reason: input.reason },
    );
    if (!clean.ok) return clean;
    const { revisionId, procedureId, reason } = input;
    const started = await startDraft(work, { id: revisionId, procedureId, reason, authorId: actor.id, retires: false });
    if (!started.ok) return started;
    await recordAction(work, action, { kind: 'linked', details: { revisionId }, audit: { revisionId } }, { revisionId });
    return accept({ id: input.id, revisionId, number: started.value.number });
  });
}

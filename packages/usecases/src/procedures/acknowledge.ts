// A person says: I have read this revision and will work by it.
import { acknowledge } from '@backsight/domain/procedures/revise';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { acknowledgementsOf, findRevision } from '@backsight/store/procedures/book';
import { saveAcknowledgement } from '@backsight/store/procedures/change';
import type { Act } from '../run.ts';

/** `happenedAt`: ISO instant, when it was said offline; null = now. */
export type AcknowledgeInput = { id: string; where: 'ahead' | 'at_the_start'; happenedAt: string | null };

export const acknowledgeRevision: Act<AcknowledgeInput, { id: string; happenedAt: string }> = {
  operation: 'procedures.acknowledge',
  run: async (work, { id, where, happenedAt }) => {
    const { actor, now } = work;
    if (actor.kind !== 'person') return refuse('not-allowed');
    const revision = await findRevision(work.tx, id);
    if (!revision) return refuse('not-found', { thing: 'revision' });
    const already = (await acknowledgementsOf(work.tx, id, now)).some((one) => one.personId === actor.id && one.happenedAt !== null);
    const at = happenedAt ?? now.toISOString();
    const decided = acknowledge({ revision, already, now: now.toISOString() }, { happenedAt: at });
    if (!decided.ok) return decided;
    await saveAcknowledgement(work.tx, { revisionId: id, personId: actor.id, where, happenedAt: new Date(at), recordedAt: now });
    await work.did('procedure-revision', id, { event: 'acknowledged', where });
    return accept({ id, happenedAt: at });
  },
};

// A new procedure for a system of the house, begun with the draft of its first revision; it counts once somebody else has approved that.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { lockProcedure } from '@backsight/store/procedures/book';
import { placeBefore, saveProcedures } from '@backsight/store/procedures/save';
import type { Act, Work } from '../run.ts';
import { startDraft } from './steps/startDraft.ts';

/** `beforeId`: the procedure before which it stands in the book; null = at the end. `revisionId` is the draft's. */
export type NewProcedureInput = {
  id: string;
  key: string;
  title: string;
  system: string;
  beforeId: string | null;
  revisionId: string;
  reason: string;
};
type Begun = { id: string; revisionId: string };

export const newProcedure: Act<NewProcedureInput, Begun> = { operation: 'procedures.new', run: begin };

async function begin(work: Work, { id, key, title, system, beforeId, revisionId, reason }: NewProcedureInput): Promise<Outcome<Begun>> {
  if (work.actor.kind !== 'person') return refuse('not-allowed');
  if (beforeId !== null && !(await lockProcedure(work.tx, beforeId))) return refuse('not-found', { thing: 'procedure' }, 'beforeId');
  await saveProcedures(work.tx, [{ id, key, title, system }]);
  if (beforeId !== null) await placeBefore(work.tx, id, beforeId);
  await work.did('procedure', id, { event: 'begun', key, system });
  const drafted = await startDraft(work, { id: revisionId, procedureId: id, reason, retires: false, authorId: work.actor.id });
  return drafted.ok ? accept({ id, revisionId }) : drafted;
}

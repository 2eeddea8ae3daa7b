// Starts a draft from the newest approved revision of a procedure.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { draft } from '@backsight/domain/procedures/revise';
import { lockProcedure, revisionsOf, stepsOf } from '@backsight/store/procedures/book';
import { saveDrafts, saveSteps } from '@backsight/store/procedures/save';
import type { Work } from '../../run.ts';
import { newestOf } from './facts.ts';

/** Saves the draft with the steps it starts from. `id` is the new revision's. Refusals: not-found, draft-exists, revision-looks-personal. */
export async function startDraft(
  work: Work,
  input: { id: string; procedureId: string; reason: string; authorId: string },
): Promise<Outcome<{ id: string; number: number }>> {
  if (!(await lockProcedure(work.tx, input.procedureId))) return refuse('not-found', { thing: 'procedure' });
  const revisions = await revisionsOf(work.tx, input.procedureId);
  const decided = draft(
    { drafts: revisions.filter(({ state }) => state === 'draft'), highestNumber: Math.max(0, ...revisions.map(({ number }) => number)) },
    input,
  );
  if (!decided.ok) return decided;
  const basedOnId = newestOf(revisions)?.id ?? null;
  await saveDrafts(work.tx, [{ ...input, number: decided.value, basedOnId, recordedAt: work.now }]);
  await saveSteps(work.tx, [{ revisionId: input.id, steps: basedOnId === null ? [] : await stepsOf(work.tx, basedOnId) }]);
  await work.did('procedure-revision', input.id, { event: 'drafted', procedureId: input.procedureId, number: decided.value, basedOnId });
  return accept({ id: input.id, number: decided.value });
}

// Starts a draft from the newest approved revision of a procedure, or from nothing; or one that retires the procedure.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { draft } from '@backsight/domain/procedures/revise';
import type { Step } from '@backsight/domain/procedures/step';
import { lockProcedure, revisionsOf, stepsOf, type RevisionRow } from '@backsight/store/procedures/book';
import { saveDrafts, saveSteps } from '@backsight/store/procedures/save';
import type { Work } from '../../run.ts';
import { newestOf } from './facts.ts';

export type DraftToStart = { id: string; procedureId: string; reason: string; authorId: string; retires: boolean };

/** A procedure that was retired is taken up again with the steps that it had before. */
async function stepsToStartFrom(work: Work, newest: RevisionRow | undefined): Promise<Step[]> {
  const from = newest?.retires ? newest.basedOnId : (newest?.id ?? null);
  return from === null ? [] : stepsOf(work.tx, from);
}

/**
 * Saves the draft with the steps it starts from. `id` is the new revision's. Refusals: not-found, draft-exists, nothing-to-retire,
 * revision-looks-personal.
 */
export async function startDraft(work: Work, input: DraftToStart): Promise<Outcome<{ id: string; number: number }>> {
  if (!(await lockProcedure(work.tx, input.procedureId))) return refuse('not-found', { thing: 'procedure' });
  const revisions = await revisionsOf(work.tx, input.procedureId);
  const basedOnId = newestOf(revisions)?.id ?? null;
  const newest = revisions.find(({ id }) => id === basedOnId);
  const decided = draft(
    {
      drafts: revisions.filter(({ state }) => state === 'draft'),
      highestNumber: Math.max(0, ...revisions.map(({ number }) => number)),
      newest: newest ?? null,
    },
    input,
  );
  if (!decided.ok) return decided;
  await saveDrafts(work.tx, [{ ...input, number: decided.value, basedOnId, recordedAt: work.now }]);
  if (!input.retires) await saveSteps(work.tx, [{ revisionId: input.id, steps: await stepsToStartFrom(work, newest) }]);
  const { procedureId, retires } = input;
  await work.did('procedure-revision', input.id, { event: 'drafted', procedureId, number: decided.value, basedOnId, retires });
  return accept({ id: input.id, number: decided.value });
}

// What decisions about a revision have to know.
import { draftProblems } from '@backsight/domain/procedures/draftProblems';
import type { Newest, Revision } from '@backsight/domain/procedures/revise';
import type { Step } from '@backsight/domain/procedures/step';
import type { Reader, Tx } from '@backsight/store/database';
import { findInForce } from '@backsight/store/procedures';
import { findRevision, lockProcedure, revisionsOf, stepsOf, type RevisionRow } from '@backsight/store/procedures/book';

export const revisionFacts = (row: RevisionRow): Revision => ({
  id: row.id,
  number: row.number,
  state: row.state,
  authorId: row.authorId,
  basedOnId: row.basedOnId,
  inForceFrom: row.inForceFrom?.toISOString() ?? null,
});

/** The approved revision that comes into force last. */
export const newestOf = (revisions: readonly RevisionRow[]): Newest | null => {
  const approved = revisions.filter(({ state, inForceFrom }) => state === 'approved' && inForceFrom !== null);
  const [newest] = approved.toSorted((a, b) => b.inForceFrom!.getTime() - a.inForceFrom!.getTime());
  return newest ? { id: newest.id, number: newest.number, inForceFrom: newest.inForceFrom!.toISOString() } : null;
};

/** Locks the procedure of a revision, then reads the revision and its neighbors; null when there is no such revision. */
export async function lockRevision(tx: Tx, id: string): Promise<{ row: RevisionRow; newest: Newest | null } | null> {
  const seen = await findRevision(tx, id);
  if (!seen || !(await lockProcedure(tx, seen.procedureId))) return null;
  const row = await findRevision(tx, id);
  return row ? { row, newest: newestOf(await revisionsOf(tx, row.procedureId)) } : null;
}

/** Steps of the revision that a draft is based on and of the other procedures in force, and what stands in the way of approval. */
export async function draftContext(
  reader: Reader,
  row: RevisionRow,
  steps: readonly Step[],
  at: Date,
): Promise<{ base: Step[]; problems: string[] }> {
  const base = row.basedOnId === null ? [] : await stepsOf(reader, row.basedOnId);
  const elsewhere = (await findInForce(reader, at))
    .filter(({ procedureId }) => procedureId !== row.procedureId)
    .flatMap((one) => one.steps);
  const { questions, retires } = row;
  return { base, problems: draftProblems({ base, steps, questions, retires, elsewhere }) };
}

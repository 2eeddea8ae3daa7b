// Changes drafts, takes revisions back before they are in force, and keeps acknowledgements.
import type { Marked, Question } from '@backsight/domain/procedures/questions';
import { execute, type Tx } from '../database.ts';
import { json } from './save.ts';

/** Changes a draft if it still has the version that was seen; answers whether it had. */
export const updateDraft = async (
  tx: Tx,
  id: string,
  version: number,
  { questions, ...edit }: { reason: string; basedOnId: string | null; questions?: readonly Question[] },
): Promise<boolean> =>
  (
    await tx.db.procedureRevision.updateMany({
      where: { id, version, state: 'draft' },
      data: { ...edit, ...(questions ? { questions: json(questions) } : {}), version: { increment: 1 } },
    })
  ).count === 1;

export const removeSteps = async (tx: Tx, revisionId: string): Promise<void> =>
  void (await tx.db.revisionStep.deleteMany({ where: { revisionId } }));

/** Removes a procedure that has neither revisions nor step keys: one whose first draft was discarded. */
export const removeEmptyProcedure = (tx: Tx, id: string): Promise<void> =>
  execute(
    tx,
    'DELETE FROM procedure p WHERE p.id = $1::uuid AND NOT EXISTS (SELECT FROM procedure_revision r WHERE r.procedure_id = p.id) AND NOT EXISTS (SELECT FROM step_key k WHERE k.procedure_id = p.id)',
    id,
  );

/** Removes a draft with its steps; answers whether it still had the version. Its step keys stay taken. */
export async function removeDraft(tx: Tx, id: string, version: number): Promise<boolean> {
  await removeSteps(tx, id);
  return (await tx.db.procedureRevision.deleteMany({ where: { id, version, state: 'draft' } })).count === 1;
}

/** Takes back a revision that is not in force yet: its period goes, and the one before has no end again. */
export async function takeBack(tx: Tx, revision: { id: string; procedureId: string }, at: Date, newPeriodId: string): Promise<void> {
  await execute(
    tx,
    'DELETE FROM in_force_period WHERE revision_id = $1::uuid AND from_at > $2::timestamptz',
    revision.id,
    at.toISOString(),
  );
  const [before] = await tx.rows<{ id: string; revisionId: string; fromAt: Date }>(
    `SELECT id::text AS id, revision_id::text AS "revisionId", from_at AS "fromAt" FROM in_force_period WHERE procedure_id = $1::uuid AND until_at > $2::timestamptz ORDER BY from_at DESC LIMIT 1`,
    [revision.procedureId, at.toISOString()],
  );
  if (before) {
    await tx.db.inForcePeriod.delete({ where: { id: before.id } });
    await tx.db.inForcePeriod.create({
      data: { id: newPeriodId, procedureId: revision.procedureId, revisionId: before.revisionId, fromAt: before.fromAt },
    });
  }
  await tx.db.procedureRevision.update({
    where: { id: revision.id },
    data: { state: 'withdrawn', recordedAt: at, version: { increment: 1 } },
  });
}

/** Constraint: acknowledgement_pkey. */
export const saveAcknowledgement = (
  tx: Tx,
  a: { revisionId: string; personId: string; where: 'ahead' | 'at_the_start'; happenedAt: Date; recordedAt: Date },
): Promise<void> => tx.db.acknowledgement.create({ data: a });

/** Keeps a round of answers, right and wrong. */
export const saveAnswers = async (
  tx: Tx,
  round: { revisionId: string; personId: string; happenedAt: Date; recordedAt: Date; newId: () => string },
  answers: readonly Marked[],
): Promise<void> => {
  const { newId, ...at } = round;
  await tx.db.revisionAnswer.createMany({ data: answers.map((answer) => ({ id: newId(), ...at, ...answer })) });
};

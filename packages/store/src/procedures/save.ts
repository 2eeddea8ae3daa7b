// Writes procedures, step keys, revisions with their steps, and the periods in which they are in force.
import type { Question } from '@backsight/domain/procedures/questions';
import type { Procedure, Step } from '@backsight/domain/procedures/step';
import type { Prisma } from '../generated/client.ts';
import { execute, type Tx } from '../database.ts';

/** Adds procedures after those that are there, in the order given. Constraint: procedure_key_key. */
export async function saveProcedures(tx: Tx, procedures: readonly (Omit<Procedure, 'steps'> & { id: string })[]): Promise<void> {
  const [last] = await tx.rows<{ position: number }>('SELECT coalesce(max(position), 0)::int AS position FROM procedure');
  const data = procedures.map(({ id, key, title, system }, index) => ({
    id,
    key,
    title,
    system,
    position: (last?.position ?? 0) + index + 1,
  }));
  await tx.db.procedure.createMany({ data });
}

/** Moves a procedure before another in the order of the book. */
export const placeBefore = async (tx: Tx, id: string, beforeId: string): Promise<void> => {
  await execute(
    tx,
    `WITH at AS (SELECT position FROM procedure WHERE id = $2::uuid)
     UPDATE procedure p SET position = CASE WHEN p.id = $1::uuid THEN at.position ELSE p.position + 1 END FROM at WHERE p.id = $1::uuid OR p.position >= at.position`,
    id,
    beforeId,
  );
};

/** Names new step keys for ever. A key that is there already stays as it is. */
export async function saveStepKeys(
  tx: Tx,
  keys: readonly { key: string; procedureId: string; derivedFrom: string | null }[],
): Promise<void> {
  if (keys.length > 0) await tx.db.stepKey.createMany({ data: [...keys], skipDuplicates: true });
}

/** Questions as the column takes them. */
export const json = (questions: readonly Question[]) => questions as unknown as Prisma.InputJsonArray;

export type NewDraft = {
  id: string;
  procedureId: string;
  number: number;
  reason: string;
  basedOnId: string | null;
  authorId: string;
  /** Whether inspectors are asked to acknowledge it once it is approved. */
  asks?: boolean;
  /** Ends the procedure: such a revision holds no steps. */
  retires?: boolean;
  questions?: readonly Question[];
  recordedAt: Date;
};

export const saveDrafts = async (tx: Tx, drafts: readonly NewDraft[]): Promise<void> => {
  await tx.db.procedureRevision.createMany({
    data: drafts.map(({ questions = [], ...draft }) => ({
      asks: true,
      retires: false,
      ...draft,
      questions: json(questions),
      state: 'draft',
    })),
  });
};

/** Adds the steps of drafts, in their order. The step keys must be there. */
export async function saveSteps(tx: Tx, drafts: readonly { revisionId: string; steps: readonly Step[] }[]): Promise<void> {
  const data = drafts.flatMap(({ revisionId, steps }) =>
    steps.map((step, position) => ({ revisionId, stepKey: step.key, position, body: step as unknown as Prisma.InputJsonObject })),
  );
  if (data.length > 0) await tx.db.revisionStep.createMany({ data });
}

/** `graceTextId`: kept words of an owner's reason for less time to acknowledge than the firm gives. */
export type Approval = { approverId: string; approvedAt: Date; inForceFrom: Date; acknowledgeBy: Date; graceTextId?: string | null };

/** Approves drafts; a version, when given, must still be the one that was seen. Answers how many were approved. */
export async function approveDrafts(tx: Tx, ids: readonly string[], approval: Approval, version?: number): Promise<number> {
  const where = { id: { in: [...ids] }, state: 'draft', ...(version === undefined ? {} : { version }) };
  const { count } = await tx.db.procedureRevision.updateMany({
    where,
    data: { ...approval, state: 'approved', version: { increment: 1 } },
  });
  return count;
}

/** Opens periods without an end. Constraint: one_revision_in_force. */
export const openPeriods = async (
  tx: Tx,
  periods: readonly { id: string; procedureId: string; revisionId: string; fromAt: Date }[],
): Promise<void> => {
  await tx.db.inForcePeriod.createMany({ data: [...periods] });
};

/** Ends the open period of a procedure, if there is one. */
export const closePeriod = async (tx: Tx, procedureId: string, untilAt: Date): Promise<void> => {
  await execute(
    tx,
    'UPDATE in_force_period SET until_at = $2::timestamptz WHERE procedure_id = $1::uuid AND until_at IS NULL',
    procedureId,
    untilAt.toISOString(),
  );
};

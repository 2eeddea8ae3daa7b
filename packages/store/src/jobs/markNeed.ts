// Settles or reopens one thing on a job's still-to-get list from within another area's act.
import type { NeedKind, NeedState } from '@backsight/domain/jobs/words';
import type { Prisma } from '../generated/client.ts';
import type { Tx } from '../database.ts';

/** Settles a need that is not settled yet; stays quiet when the job has no such need. */
export async function settleNeed(tx: Tx, jobId: string, kind: NeedKind, at: Date, by: string | null): Promise<void> {
  await tx.db.jobNeed.updateMany({
    where: { jobId, kind, state: { in: ['open', 'asked', 'refused'] } },
    data: { state: 'settled', settledAt: at, settledBy: by },
  });
}

/** Opens a need, also one that was settled before. A need that is there keeps the time by which it is due. */
export async function openNeed(
  tx: Tx,
  n: { id: string; jobId: string; kind: NeedKind; dueAt: Date; details: Prisma.InputJsonObject; at: Date },
): Promise<void> {
  const { id, jobId, kind, dueAt, details, at } = n;
  await tx.db.jobNeed.upsert({
    where: { jobId_kind: { jobId, kind } },
    create: { id, jobId, kind, state: 'open', dueAt, details, recordedAt: at },
    update: { state: 'open', details, settledAt: null, settledBy: null },
  });
}

/** Puts a thing on the list that was not on it, or opens it again with another time and reason. */
export const addNeed = async (
  tx: Tx,
  n: { id: string; jobId: string; kind: NeedKind; dueAt: Date; details: Prisma.InputJsonObject; at: Date },
): Promise<void> => {
  await openNeed(tx, n);
  await tx.db.jobNeed.updateMany({ where: { jobId: n.jobId, kind: n.kind }, data: { dueAt: n.dueAt } });
};

/** Opens needs of a job again that it has, for another visit or time: all of the kinds, or those in some states. */
export async function reopenNeeds(
  tx: Tx,
  jobId: string,
  kinds: readonly NeedKind[],
  at: Date,
  states: readonly NeedState[] | null = null,
): Promise<void> {
  await tx.db.jobNeed.updateMany({
    where: { jobId, kind: { in: [...kinds] }, ...(states === null ? {} : { state: { in: [...states] } }) },
    data: { state: 'open', settledAt: null, settledBy: null, recordedAt: at },
  });
}

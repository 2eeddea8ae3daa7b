// Settles or reopens one thing on a job's still-to-get list from within another area's act.
import type { Prisma } from '../generated/client.ts';
import type { Tx } from '../database.ts';

type Kind = 'signature' | 'payment' | 'client_address';

/** Settles a need that is not settled yet; stays quiet when the job has no such need. */
export async function settleNeed(tx: Tx, jobId: string, kind: Kind, at: Date, by: string | null): Promise<void> {
  await tx.db.jobNeed.updateMany({
    where: { jobId, kind, state: { in: ['open', 'asked', 'refused'] } },
    data: { state: 'settled', settledAt: at, settledBy: by },
  });
}

/** Opens a need, also one that was settled before. A need that is there keeps the time by which it is due. */
export async function openNeed(
  tx: Tx,
  n: { id: string; jobId: string; kind: Kind; dueAt: Date; details: Prisma.InputJsonObject; at: Date },
): Promise<void> {
  const { id, jobId, kind, dueAt, details, at } = n;
  await tx.db.jobNeed.upsert({
    where: { jobId_kind: { jobId, kind } },
    create: { id, jobId, kind, state: 'open', dueAt, details, recordedAt: at },
    update: { state: 'open', details, settledAt: null, settledBy: null },
  });
}

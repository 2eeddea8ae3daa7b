// Keeps the still-to-get list of a job true to its ledger.
import { invoicesOfJob } from '@backsight/store/fees';
import { openNeed, settleNeed } from '@backsight/store/jobs/markNeed';
import type { Work } from '../../run.ts';

/** Settles the need 'payment' once every invoice of the job is paid in full; opens it again when one no longer is. */
export async function settleWhenPaid(work: Work, jobId: string, reopen = false): Promise<void> {
  const invoices = (await invoicesOfJob(work.tx, jobId)).filter(({ state }) => state !== 'withdrawn');
  const by = work.actor.kind === 'person' ? work.actor.id : null;
  if (invoices.every(({ totalCents, paidCents }) => paidCents >= totalCents)) await settleNeed(work.tx, jobId, 'payment', work.now, by);
  else if (reopen)
    await openNeed(work.tx, {
      id: work.newId(),
      jobId,
      kind: 'payment',
      dueAt: work.now,
      details: { why: 'A payment came back.' },
      at: work.now,
    });
}

// Keeps the still-to-get list of a job true to its ledger.
import { stateOf } from '@backsight/domain/fees/invoice';
import { findInvoice, invoicesOfJob, setInvoiceState } from '@backsight/store/fees';
import { openNeed, settleNeed } from '@backsight/store/jobs/markNeed';
import type { Work } from '../../run.ts';

/** After something was posted to an invoice: its state follows the ledger, and so does the still-to-get list. Answers what is open, in cents. */
export async function settleInvoice(work: Work, invoiceId: string): Promise<number> {
  const invoice = (await findInvoice(work.tx, invoiceId))!;
  const stands = invoice.state !== 'withdrawn';
  if (stands) await setInvoiceState(work.tx, invoice.id, stateOf(invoice.balanceCents));
  await settleWhenPaid(work, invoice.jobId, stands && invoice.state === 'paid');
  return Math.max(0, invoice.balanceCents);
}

/** Settles the need 'payment' once every invoice of the job is paid in full; opens it again when one no longer is. */
export async function settleWhenPaid(work: Work, jobId: string, reopen = false): Promise<void> {
  const invoices = (await invoicesOfJob(work.tx, jobId)).filter(({ state }) => state !== 'withdrawn');
  const by = work.actor.kind === 'person' ? work.actor.id : null;
  if (invoices.every(({ balanceCents }) => balanceCents <= 0)) await settleNeed(work.tx, jobId, 'payment', work.now, by);
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

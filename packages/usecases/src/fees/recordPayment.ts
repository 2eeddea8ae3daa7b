// Records money that came in for an invoice, whole or in part.
import { DateTime } from 'luxon';
import { decidePayment, isDeposit, METHODS, type PaymentCommand } from '@backsight/domain/fees/invoice';
import { depositLines, paymentLines } from '@backsight/domain/fees/ledger';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findInvoice, lockInvoice, savePayment, type InvoiceRow } from '@backsight/store/fees';
import { findJobForInvoice, type JobForInvoice } from '@backsight/store/fees/job';
import type { Act, Work } from '../run.ts';
import { postEntry } from './steps/post.ts';
import { sendReceipt } from './steps/sendReceipt.ts';
import { settleInvoice } from './steps/settle.ts';

export type PaymentInput = PaymentCommand & { id: string; invoiceId: string };
export type PaymentReply = { id: string; openCents: number };

export const recordPayment: Act<PaymentInput, PaymentReply> = { operation: 'fees.payment', run: record };

async function record(work: Work, input: PaymentInput): Promise<Outcome<PaymentReply>> {
  await lockInvoice(work.tx, input.invoiceId);
  const invoice = await findInvoice(work.tx, input.invoiceId);
  if (!invoice) return refuse('not-found', { thing: 'invoice' });
  const job = await findJobForInvoice(work.tx, invoice.jobId);
  if (!job) throw new Error('an invoice without a job');
  const inZone = (at: Date) => DateTime.fromJSDate(at, { zone: job.zone }).toISODate()!;
  const decided = decidePayment({ ...invoice, issuedOn: invoice.issuedAt && inZone(invoice.issuedAt) }, input, inZone(work.now));
  if (!decided.ok) return decided;
  const entryId = await enter(work, input, invoice, job);
  const recordedBy = work.actor.kind === 'person' ? work.actor.id : null;
  const { id, invoiceId, method, cents, receivedOn } = input;
  await savePayment(work.tx, {
    id,
    invoiceId,
    method,
    cents,
    receivedOn,
    reference: input.reference.trim(),
    entryId,
    recordedBy,
    at: work.now,
  });
  await settleInvoice(work, invoiceId);
  await sendReceipt(work, invoice, { ...input, openCents: decided.value.openCents });
  await work.did('payment', id, { invoiceId, cents, method, openCents: decided.value.openCents });
  return accept({ id, openCents: decided.value.openCents });
}

function enter(work: Work, input: PaymentInput, invoice: InvoiceRow, job: JobForInvoice): Promise<string> {
  const about = { partyId: invoice.payerId, jobId: invoice.jobId };
  const held = isDeposit(job.terms, job.visited);
  return postEntry(work, {
    kind: held ? 'deposit' : 'payment',
    happenedOn: input.receivedOn,
    memo: `Payment of invoice ${invoice.number} by ${METHODS[input.method]}`,
    lines: held ? depositLines(input.cents, about) : paymentLines(input.cents, about),
  });
}

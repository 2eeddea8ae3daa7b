// Takes a payment back that did not last: a returned check, a disputed card, a slip of the pen. The invoice opens again, unless it was withdrawn.
import { DateTime } from 'luxon';
import { mayReverse, REVERSAL_REASONS, stateOf, type ReversalReason } from '@backsight/domain/fees/invoice';
import { paymentReversalLines } from '@backsight/domain/fees/ledger';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findInvoice, findPayment, heldFor, linesOf, lockInvoice, setInvoiceState } from '@backsight/store/fees';
import { findJobForInvoice } from '@backsight/store/fees/job';
import type { Act, Work } from '../run.ts';
import { postEntry } from './steps/post.ts';
import { settleWhenPaid } from './steps/settle.ts';

export type ReversalInput = { paymentId: string; reason: ReversalReason };
export type ReversalReply = { id: string; openCents: number };

export const reversePayment: Act<ReversalInput, ReversalReply> = { operation: 'fees.reverse', run: reverse };

async function reverse(work: Work, input: ReversalInput): Promise<Outcome<ReversalReply>> {
  const seen = await findPayment(work.tx, input.paymentId);
  if (!seen) return refuse('not-found', { thing: 'payment' });
  await lockInvoice(work.tx, seen.invoiceId);
  const payment = (await findPayment(work.tx, input.paymentId))!;
  if (payment.reversedOn !== null) return refuse('payment-reversed');
  const invoice = (await findInvoice(work.tx, payment.invoiceId))!;
  const allowed = mayReverse(invoice, input.reason);
  if (!allowed.ok) return allowed;
  const job = (await findJobForInvoice(work.tx, invoice.jobId))!;
  const lines = paymentReversalLines(await linesOf(work.tx, payment.entryId), await heldFor(work.tx, invoice.jobId));
  const happenedOn = DateTime.fromJSDate(work.now, { zone: job.zone }).toISODate()!;
  const id = await postEntry(work, {
    kind: 'reversal',
    happenedOn,
    memo: REVERSAL_REASONS[input.reason],
    lines,
    reversesId: payment.entryId,
  });
  const stands = invoice.state !== 'withdrawn';
  const openCents = stands ? invoice.totalCents - invoice.paidCents + payment.cents : 0;
  if (stands) await setInvoiceState(work.tx, invoice.id, stateOf(invoice.totalCents, invoice.totalCents - openCents));
  await settleWhenPaid(work, invoice.jobId, stands);
  await work.did('payment', payment.id, { reversedBy: id, reason: input.reason, cents: payment.cents, invoiceId: invoice.id });
  return accept({ id, openCents });
}

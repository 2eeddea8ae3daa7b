// A payment comes back, or is given back whole: the invoice opens again, and a charge may be asked for it. The payment stays on file.
import { DateTime } from 'luxon';
import { cameBack, mayReverse, REVERSAL_REASONS, type ReversalReason } from '@backsight/domain/fees/invoice';
import { paymentReversalLines } from '@backsight/domain/fees/ledger';
import { returnedFeeLines } from '@backsight/domain/fees/changes';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findInvoice, findPayment, heldFor, linesOf, lockInvoice, type InvoiceRow } from '@backsight/store/fees';
import { findJobForInvoice } from '@backsight/store/fees/job';
import { findMoneyRules } from '@backsight/store/fees/rules';
import type { Act, Work } from '../run.ts';
import { addAct } from './steps/addAct.ts';
import { postEntry } from './steps/post.ts';
import { settleInvoice } from './steps/settle.ts';

/** `charge`: ask for the firm's charge for a returned payment, where it has one. */
export type ReversalInput = { paymentId: string; reason: ReversalReason; charge?: boolean };
export type ReversalReply = { id: string; openCents: number; chargedCents: number };

export const reversePayment: Act<ReversalInput, ReversalReply> = { operation: 'fees.reverse', run: reverse };

async function reverse(work: Work, input: ReversalInput): Promise<Outcome<ReversalReply>> {
  const seen = await findPayment(work.tx, input.paymentId);
  if (!seen) return refuse('not-found', { thing: 'payment' });
  await lockInvoice(work.tx, seen.invoiceId);
  const payment = (await findPayment(work.tx, input.paymentId))!;
  if (payment.reversedOn !== null) return refuse('payment-reversed');
  const invoice = (await findInvoice(work.tx, payment.invoiceId))!;
  const allowed = mayReverse(invoice, { reason: input.reason, cents: payment.cents });
  if (!allowed.ok) return allowed;
  const job = (await findJobForInvoice(work.tx, invoice.jobId))!;
  const held = await heldFor(work.tx, invoice.jobId, invoice.payerId);
  const happenedOn = DateTime.fromJSDate(work.now, { zone: job.zone }).toISODate()!;
  const id = await postEntry(work, {
    kind: 'reversal',
    happenedOn,
    memo: `Payment of invoice ${invoice.number}: ${REVERSAL_REASONS[input.reason]}`,
    lines: paymentReversalLines(await linesOf(work.tx, payment.entryId), held),
    reversesId: payment.entryId,
  });
  const chargedCents = input.charge ? await charge(work, invoice, input.reason, happenedOn) : 0;
  const openCents = await settleInvoice(work, invoice.id);
  await work.did('payment', payment.id, {
    reversedBy: id,
    reason: input.reason,
    cents: payment.cents,
    chargedCents,
    invoiceId: invoice.id,
  });
  return accept({ id, openCents, chargedCents });
}

async function charge(work: Work, invoice: InvoiceRow, reason: ReversalReason, happenedOn: string): Promise<number> {
  const { returnedFeeCents: cents } = await findMoneyRules(work.tx);
  if (cents === 0 || !cameBack(reason) || invoice.state === 'withdrawn') return 0;
  const about = { partyId: invoice.payerId, jobId: invoice.jobId };
  await addAct(work, invoice, {
    id: work.newId(),
    kind: 'returned_fee',
    cents,
    reason: REVERSAL_REASONS[reason],
    happenedOn,
    lines: returnedFeeLines(cents, about),
  });
  return cents;
}

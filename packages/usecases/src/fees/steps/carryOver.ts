// Brings the invoices of a job down to its fee: what was asked for is withdrawn, the smaller fee is invoiced, and what was paid goes with it.
import { DateTime } from 'luxon';
import { stateOf } from '@backsight/domain/fees/invoice';
import { paymentLines, paymentReversalLines } from '@backsight/domain/fees/ledger';
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import {
  findInvoice,
  heldFor,
  invoicesOfJob,
  linesOf,
  paymentsOf,
  savePayment,
  setInvoiceState,
  type InvoiceRow,
  type PaymentRow,
} from '@backsight/store/fees';
import { findJobForInvoice } from '@backsight/store/fees/job';
import type { Work } from '../../run.ts';
import { issueInvoice } from './issueInvoice.ts';
import { postEntry } from './post.ts';
import { settleWhenPaid } from './settle.ts';
import { withdrawInvoices } from './withdrawInvoices.ts';

/** In cents: what is still to be given back to whoever paid. */
export type CarriedOver = { toGiveBackCents: number };

/**
 * Lets the invoices say the fee as its lines are now. A fee that grew is invoiced as usual; one that shrank is invoiced anew, its payments are
 * carried over to the new invoice as far as it goes, and the rest stands on the withdrawn one as to be given back.
 */
export async function invoiceTheFee(work: Work, jobId: string): Promise<Outcome<CarriedOver>> {
  const job = (await findJobForInvoice(work.tx, jobId))!;
  const fee = job.lines.reduce((sum, { cents }) => sum + cents, 0);
  const standing = (await invoicesOfJob(work.tx, jobId)).filter(({ state }) => state !== 'withdrawn');
  const asked = standing.reduce((sum, { totalCents, taxCents }) => sum + totalCents - taxCents, 0);
  if (asked === fee) return accept({ toGiveBackCents: 0 });
  if (fee > asked) {
    const issued = await issueInvoice(work, jobId);
    return issued.ok ? accept({ toGiveBackCents: 0 }) : issued;
  }
  await withdrawInvoices(work, jobId, job.zone);
  const issued = fee > 0 ? await issueInvoice(work, jobId) : null;
  if (issued && !issued.ok) return issued;
  const paid = standing.reduce((sum, { paidCents }) => sum + paidCents, 0);
  let carried = 0;
  for (const { invoiceId, payerId } of issued?.value.all ?? []) {
    const own = standing.filter((one) => one.payerId === payerId);
    carried += await carry(work, issued!.value.all.length === 1 ? standing : own, invoiceId, job.zone);
  }
  await settleWhenPaid(work, jobId);
  return accept({ toGiveBackCents: paid - carried });
}

/** Payments go to the new invoice as far as it goes and as far as they were not given back. Answers how many cents went. */
async function carry(work: Work, from: readonly InvoiceRow[], toId: string, zone: string): Promise<number> {
  const today = DateTime.fromJSDate(work.now, { zone }).toISODate()!;
  const need = (await findInvoice(work.tx, toId))!.balanceCents;
  let left = need;
  for (const invoice of from) {
    let net = invoice.paidCents;
    for (const payment of (await paymentsOf(work.tx, invoice.id)).filter(({ reversedOn }) => reversedOn === null)) {
      const taken = Math.min(left, net, payment.cents);
      if (taken <= 0) break;
      await split(work, payment, { invoice, toId, taken, today });
      left -= taken;
      net -= taken;
    }
  }
  await setInvoiceState(work.tx, toId, stateOf(left));
  return need - left;
}

type Split = { invoice: InvoiceRow; toId: string; taken: number; today: string };

/** One payment becomes two: the part that pays the new invoice, and the part that stays on the withdrawn one. */
async function split(work: Work, payment: PaymentRow, { invoice, toId, taken, today }: Split): Promise<void> {
  const lines = paymentReversalLines(await linesOf(work.tx, payment.entryId), await heldFor(work.tx, invoice.jobId, invoice.payerId));
  const memo = `Payment of invoice ${invoice.number} carried over`;
  await postEntry(work, { kind: 'reversal', happenedOn: today, memo, lines, reversesId: payment.entryId });
  const to = (await findInvoice(work.tx, toId))!;
  for (const [at, cents] of [
    [to, taken],
    [invoice, payment.cents - taken],
  ] as const) {
    if (cents === 0) continue;
    const about = { partyId: at.payerId, jobId: invoice.jobId };
    const entryId = await postEntry(work, { kind: 'payment', happenedOn: today, memo, lines: paymentLines(cents, about) });
    const { method, reference, receivedOn } = payment;
    const recordedBy = work.actor.kind === 'person' ? work.actor.id : null;
    await savePayment(work.tx, {
      id: work.newId(),
      invoiceId: at.id,
      method,
      reference,
      cents,
      receivedOn,
      entryId,
      recordedBy,
      at: work.now,
    });
  }
  await work.did('payment', payment.id, { carriedOverTo: toId, cents: taken, leftCents: payment.cents - taken });
}

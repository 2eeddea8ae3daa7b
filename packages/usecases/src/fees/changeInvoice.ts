// Credit notes, write-offs and refunds; and taking a write-off or a charge for a returned payment back.
import { DateTime } from 'luxon';
import { creditLines, decideCreditNote, decideRefund, decideWriteOff, refundLines, writeOffLines } from '@backsight/domain/fees/changes';
import { limitFor } from '@backsight/domain/fees/limits';
import type { Method } from '@backsight/domain/fees/invoice';
import { reversalLines, type About } from '@backsight/domain/fees/ledger';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { findInvoice, heldFor, linesOf, lockInvoice, type InvoiceRow } from '@backsight/store/fees';
import { findInvoiceAct } from '@backsight/store/fees/acts';
import { openWithoutClearance } from '@backsight/store/callbacks/cleared';
import { findJobForInvoice } from '@backsight/store/fees/job';
import { listLimits } from '@backsight/store/firm/authority';
import type { Act, Work } from '../run.ts';
import { addAct, type ActToAdd } from './steps/addAct.ts';
import { postEntry } from './steps/post.ts';
import { settleInvoice } from './steps/settle.ts';

type Input = { id: string; invoiceId: string; cents: number; reason: string };
export type ChangeReply = { id: string; number: number | null; openCents: number };
type Opened = { invoice: InvoiceRow; today: string; about: About };
type Decided = Omit<ActToAdd, 'id' | 'cents' | 'reason' | 'happenedOn'>;

/** Locks the invoice, lets the rule decide, writes the act with its entry. */
async function change(work: Work, input: Input, decide: (opened: Opened) => Promise<Outcome<Decided>>): Promise<Outcome<ChangeReply>> {
  await lockInvoice(work.tx, input.invoiceId);
  const invoice = await findInvoice(work.tx, input.invoiceId);
  if (!invoice) return refuse('not-found', { thing: 'invoice' });
  const { zone } = (await findJobForInvoice(work.tx, invoice.jobId))!;
  const today = DateTime.fromJSDate(work.now, { zone }).toISODate()!;
  const decided = await decide({ invoice, today, about: { partyId: invoice.payerId, jobId: invoice.jobId } });
  if (!decided.ok) return decided;
  const { id, cents, reason } = input;
  const number = await addAct(work, invoice, { ...decided.value, id, cents, reason, happenedOn: today });
  const openCents = await settleInvoice(work, invoice.id);
  await work.did('invoice', invoice.id, { act: decided.value.kind, actId: id, number, cents, openCents });
  return accept({ id, number, openCents });
}

/** Refusals: invoice-not-changed, credit-above-invoice. */
export const writeCreditNote: Act<Input, ChangeReply> = {
  operation: 'fees.credit_note',
  run: (work, input) =>
    change(work, input, async ({ invoice, about }) => {
      const decided = decideCreditNote(invoice, input);
      if (!decided.ok) return decided;
      const { taxCents } = decided.value;
      return accept({ kind: 'credit_note', taxCents, lines: creditLines(input.cents, taxCents, about) });
    }),
};

/** As far as the approval limit of the one who acts goes. Refusals: invoice-not-changed, more-than-open, write-off-limit. */
export const writeOff: Act<Input, ChangeReply> = {
  operation: 'fees.write_off',
  run: (work, input) =>
    change(work, input, async ({ invoice, about }) => {
      const roles = work.actor.kind === 'person' ? work.actor.roles : [];
      const limitCents = limitFor(roles, await listLimits(work.tx));
      const decided = decideWriteOff(invoice, { cents: input.cents, limitCents });
      return decided.ok ? accept({ kind: 'write_off', lines: writeOffLines(input.cents, about) }) : decided;
    }),
};

/** While a callback about the job is open, money goes back under its clearance. Refusals: refund-above-paid, payment-reference, refund-while-callback. */
export const refundPayment: Act<Input & { method: Method; reference: string }, ChangeReply> = {
  operation: 'fees.refund',
  run: (work, input) =>
    change(work, input, async ({ invoice, about }) => {
      const { cents, method, reference } = input;
      const decided = decideRefund(invoice, input);
      if (!decided.ok) return decided;
      if (await openWithoutClearance(work.tx, invoice.jobId)) return refuse('refund-while-callback');
      const held = await heldFor(work.tx, invoice.jobId, invoice.payerId);
      return accept({ kind: 'refund', method, reference, lines: refundLines(cents, held, about) });
    }),
};

/** Takes a write-off or a charge back, because somebody pays after all or it is let go. Refusals: write-off-none, returned-fee-none. */
export const takeBackAct: Act<{ actId: string }, { id: string; openCents: number }> = {
  operation: 'fees.take_back',
  run: async (work, { actId }) => {
    const seen = await findInvoiceAct(work.tx, actId);
    if (!seen) return refuse('not-found', { thing: 'entry of the invoice' });
    await lockInvoice(work.tx, seen.invoiceId);
    const act = (await findInvoiceAct(work.tx, actId))!;
    const ofKind = act.kind === 'write_off' || act.kind === 'returned_fee';
    if (!ofKind || act.takenBackOn !== null) return refuse(act.kind === 'returned_fee' ? 'returned-fee-none' : 'write-off-none');
    const invoice = (await findInvoice(work.tx, act.invoiceId))!;
    const { zone } = (await findJobForInvoice(work.tx, invoice.jobId))!;
    const id = await postEntry(work, {
      kind: 'reversal',
      happenedOn: DateTime.fromJSDate(work.now, { zone }).toISODate()!,
      memo: `${act.kind === 'write_off' ? 'Write-off' : 'Charge'} taken back, invoice ${invoice.number}`,
      lines: reversalLines(await linesOf(work.tx, act.entryId)),
      reversesId: act.entryId,
    });
    const openCents = await settleInvoice(work, invoice.id);
    await work.did('invoice', invoice.id, { takenBack: act.kind, actId, cents: act.cents, openCents });
    return accept({ id, openCents });
  },
};

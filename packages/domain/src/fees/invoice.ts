// Decisions about invoices and payments. What is open on an invoice is always worked out from the ledger.
import { CLOSING_DAYS } from '../shared/terms.ts';
import { shiftDay } from '../shared/calendar.ts';
import { formatUsd } from '../shared/money.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { Terms } from '../jobs/words.ts';

export const METHODS = { cash: 'cash', check: 'check', card: 'card', bank: 'bank transfer' } as const;
export type Method = keyof typeof METHODS;
/** Why a payment came back. */
export const REVERSAL_REASONS = {
  returned_check: 'the check came back',
  card_dispute: 'the card payment was disputed',
  recorded_by_mistake: 'recorded by mistake',
  given_back: 'given back to the payer',
} as const;
export type ReversalReason = keyof typeof REVERSAL_REASONS;

export type JobToInvoice = {
  terms: Terms;
  /** Day of the first visit that is not cancelled, if there is one. */
  visitOn: string | null;
  payers: readonly { partyId: string; name: string }[];
  clients: readonly { partyId: string; name: string }[];
  lines: readonly { label: string; cents: number }[];
  /** Invoices of the job that were issued and not withdrawn. */
  invoices: readonly OpenInvoice[];
};
export type OpenInvoice = { id: string; number: number; totalCents: number; paidCents: number; payerId: string };

export type InvoiceToIssue = {
  payerId: string;
  totalCents: number;
  dueOn: string;
  lines: { label: string; cents: number }[];
  withdraw: readonly OpenInvoice[];
};

/** One party pays: the payer if one is named, else the first client. */
export function payerOf(job: Pick<JobToInvoice, 'payers' | 'clients'>): Outcome<string> {
  if (job.payers.length > 1) return refuse('several-payers', { names: job.payers.map(({ name }) => name) });
  const one = job.payers[0] ?? job.clients[0];
  return one ? accept(one.partyId) : refuse('no-payer');
}

/** The day on which a fee is due; never earlier than the day of the invoice. */
export function dueOn(terms: Terms, visitOn: string | null, today: string): string {
  const visit = visitOn ?? today;
  const due = terms === 'due_at_booking' ? today : terms === 'billed_to_closing' ? shiftDay(visit, CLOSING_DAYS) : visit;
  return due < today ? today : due;
}

/**
 * What to invoice now: the fee less what stays invoiced. Unpaid invoices for another amount or payer are withdrawn first;
 * the answer `same` names an invoice that already says all of this.
 */
export function decideInvoice(job: JobToInvoice, today: string): Outcome<{ same: OpenInvoice } | { issue: InvoiceToIssue }> {
  const payer = payerOf(job);
  if (!payer.ok) return payer;
  const fee = job.lines.reduce((total, { cents }) => total + cents, 0);
  const standing = job.invoices.reduce((total, { totalCents }) => total + totalCents, 0);
  const last = job.invoices.at(-1);
  if (last && standing === fee && (last.payerId === payer.value || last.paidCents > 0)) return accept({ same: last });
  const withdraw = job.invoices.filter(({ paidCents }) => paidCents === 0);
  const kept = job.invoices.filter(({ paidCents }) => paidCents > 0);
  const invoiced = kept.reduce((total, { totalCents }) => total + totalCents, 0);
  if (invoiced > fee) return refuse('invoiced-above-fee', { invoiced: formatUsd(invoiced), fee: formatUsd(fee) });
  if (fee - invoiced === 0) return refuse('nothing-to-invoice');
  const already = kept.map(({ number, totalCents }) => ({ label: `Already on invoice ${number}`, cents: -totalCents }));
  const lines = [...job.lines.map(({ label, cents }) => ({ label, cents })), ...already];
  return accept({
    issue: { payerId: payer.value, totalCents: fee - invoiced, dueOn: dueOn(job.terms, job.visitOn, today), lines, withdraw },
  });
}

export type InvoiceState = 'draft' | 'issued' | 'paid' | 'withdrawn';
export type InvoiceFacts = { number: number | null; state: InvoiceState; totalCents: number; paidCents: number; issuedOn: string | null };
export type PaymentCommand = { method: Method; reference: string; cents: number; receivedOn: string };

/** Takes a payment, whole or in part; never more than is open. Answers what is open afterwards, in cents. */
export function decidePayment(invoice: InvoiceFacts, payment: PaymentCommand, today: string): Outcome<{ openCents: number }> {
  const number = invoice.number ?? 'draft';
  if (invoice.state === 'draft' || invoice.state === 'withdrawn') return refuse('invoice-not-open', { number, state: invoice.state });
  const open = invoice.totalCents - invoice.paidCents;
  if (payment.cents > open) return refuse('more-than-open', { number, open: formatUsd(open), openCents: open }, 'cents');
  if (payment.receivedOn > today) return refuse('payment-ahead', { receivedOn: payment.receivedOn }, 'receivedOn');
  if (invoice.issuedOn && payment.receivedOn < shiftDay(invoice.issuedOn, -366))
    return refuse('payment-long-ago', { receivedOn: payment.receivedOn }, 'receivedOn');
  if (payment.method !== 'cash' && payment.reference.trim() === '')
    return refuse('payment-reference', { method: METHODS[payment.method] }, 'reference');
  return accept({ openCents: open - payment.cents });
}

/** Money is given back only for an invoice that was withdrawn; on one that stands it would be owed again at once. */
export const mayReverse = (invoice: Pick<InvoiceFacts, 'number' | 'state'>, reason: ReversalReason): Outcome<null> =>
  reason === 'given_back' && invoice.state !== 'withdrawn' ? refuse('invoice-stands', { number: invoice.number }, 'reason') : accept(null);

/** What is still to be given back of an invoice, in cents: what was paid on one that was withdrawn. */
export const toGiveBack = (invoice: Pick<InvoiceFacts, 'state' | 'paidCents'>): number =>
  invoice.state === 'withdrawn' ? invoice.paidCents : 0;

/** Money that comes in before the visit under deposit terms is held for the client and not yet ours. */
export const isDeposit = (terms: Terms, visited: boolean): boolean => terms === 'deposit' && !visited;

/** The state that the ledger says an issued invoice is in. */
export const stateOf = (totalCents: number, paidCents: number): 'issued' | 'paid' => (paidCents >= totalCents ? 'paid' : 'issued');

/** In which column of the list of who owes what an open amount stands; days since it was due. */
export function ageOf(dueOn: string, today: string): { days: number; band: 'not due' | '0-30' | '31-60' | '61-90' | 'over 90' } {
  const days = Math.round((Date.parse(today) - Date.parse(dueOn)) / 86_400_000);
  const band = days < 0 ? 'not due' : days <= 30 ? '0-30' : days <= 60 ? '31-60' : days <= 90 ? '61-90' : 'over 90';
  return { days: Math.max(days, 0), band };
}

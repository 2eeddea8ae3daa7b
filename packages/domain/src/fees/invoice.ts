// Decisions about payments. What is open on an invoice is always worked out from the ledger.
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

export type InvoiceState = 'draft' | 'issued' | 'paid' | 'withdrawn';
/** `balanceCents` is what the ledger says is open; below zero it is what is to be given back. */
export type InvoiceFacts = { number: number | null; state: InvoiceState; balanceCents: number; issuedOn: string | null };
export type PaymentCommand = { method: Method; reference: string; cents: number; receivedOn: string };

/** Takes a payment, whole or in part; never more than is open. Answers what is open afterwards, in cents. */
export function decidePayment(invoice: InvoiceFacts, payment: PaymentCommand, today: string): Outcome<{ openCents: number }> {
  const number = invoice.number ?? 'draft';
  const open = Math.max(0, invoice.balanceCents);
  if (invoice.state === 'draft' || (invoice.state === 'withdrawn' && open === 0))
    return refuse('invoice-not-open', { number, state: invoice.state });
  if (payment.cents > open) return refuse('more-than-open', { number, open: formatUsd(open), openCents: open }, 'cents');
  if (payment.receivedOn > today) return refuse('payment-ahead', { receivedOn: payment.receivedOn }, 'receivedOn');
  if (invoice.issuedOn && payment.receivedOn < shiftDay(invoice.issuedOn, -366))
    return refuse('payment-long-ago', { receivedOn: payment.receivedOn }, 'receivedOn');
  if (payment.method !== 'cash' && payment.reference.trim() === '')
    return refuse('payment-reference', { method: METHODS[payment.method] }, 'reference');
  return accept({ openCents: open - payment.cents });
}

/** A payment is given back whole only for an invoice that was withdrawn, and only while that much is to be given back. */
export const mayReverse = (
  invoice: Pick<InvoiceFacts, 'number' | 'state' | 'balanceCents'>,
  { reason, cents }: { reason: ReversalReason; cents: number },
): Outcome<null> =>
  reason !== 'given_back' || (invoice.state === 'withdrawn' && cents <= -invoice.balanceCents)
    ? accept(null)
    : refuse('invoice-stands', { number: invoice.number }, 'reason');

/** Whether the bank or the card company took the money back, so that a charge for it may be asked. */
export const cameBack = (reason: ReversalReason): boolean => reason === 'returned_check' || reason === 'card_dispute';

/** Money that comes in before the visit under deposit terms is held for the client and not yet ours. */
export const isDeposit = (terms: Terms, visited: boolean): boolean => terms === 'deposit' && !visited;

/** The state that the ledger says an issued invoice is in. */
export const stateOf = (balanceCents: number): 'issued' | 'paid' => (balanceCents <= 0 ? 'paid' : 'issued');

/** In which column of the list of who owes what an open amount stands; days since it was due. */
export function ageOf(dueOn: string, today: string): { days: number; band: 'not due' | '0-30' | '31-60' | '61-90' | 'over 90' } {
  const days = Math.round((Date.parse(today) - Date.parse(dueOn)) / 86_400_000);
  const band = days < 0 ? 'not due' : days <= 30 ? '0-30' : days <= 60 ? '31-60' : days <= 90 ? '61-90' : 'over 90';
  return { days: Math.max(days, 0), band };
}

// Money of a callback as ledger lines: set aside, paid, given back, recovered. Debit positive, credit negative, whole cents.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { LedgerLine } from '../fees/ledger.ts';

/** What the ledger says of a callback, in cents. */
export type CallbackMoney = { paidCents: number; reservedCents: number; recoveredCents: number; incurredCents: number };

/** Money paid and set aside, less what came back. */
export const incurred = (m: Omit<CallbackMoney, 'incurredCents'>): number => m.paidCents + m.reservedCents - m.recoveredCents;

type Of = { callbackId: string; jobId: string };
const line = (account: LedgerLine['account'], cents: number, of: Of): LedgerLine[] => (cents === 0 ? [] : [{ account, cents, ...of }]);

/** Sets the money aside to a new amount; raising it is cost, lowering it gives the cost back. */
export function decideReserve(now: CallbackMoney, cents: number, of: Of): Outcome<LedgerLine[]> {
  if (cents < 0) return refuse('reserve-below-zero', {}, 'cents');
  const change = cents - now.reservedCents;
  if (change === 0) return refuse('reserve-unchanged', { cents }, 'cents');
  return accept([...line('callback-cost', change, of), ...line('callback-reserve', -change, of)]);
}

/**
 * Pays out of what is set aside; what exceeds it is cost of today (of fees given back, when it is a refund). `taxCents` of a refund were sales tax:
 * that part is owed to the state no more.
 */
export function paymentLines(
  now: CallbackMoney,
  cents: number,
  kind: 'callback_payment' | 'fee_refund',
  of: Of,
  taxCents = 0,
): LedgerLine[] {
  const fromReserve = Math.min(cents - taxCents, now.reservedCents);
  return [
    ...line('callback-reserve', fromReserve, of),
    ...line(kind === 'fee_refund' ? 'fee-refunds' : 'callback-cost', cents - taxCents - fromReserve, of),
    ...line('sales-tax', taxCents, of),
    ...line('bank', -cents, of),
  ];
}

export const SOURCES = { insurer: 'the insurer', contractor: 'a contractor', other: 'somebody else' } as const;
export type Source = keyof typeof SOURCES;

/** Money that came back from an insurer or another, never more than was paid. */
export function decideRecovery(now: CallbackMoney, cents: number, of: Of): Outcome<LedgerLine[]> {
  const most = now.paidCents - now.recoveredCents;
  return cents > most
    ? refuse('recovery-too-large', { paidCents: most }, 'cents')
    : accept([...line('bank', cents, of), ...line('recoveries', -cents, of)]);
}

/** A payment or a recovery that was a mistake is taken back whole; a payment only while less came back than then remains paid. */
export function mayReverse(now: CallbackMoney, entry: { kind: string; cents: number; reversed: boolean }): Outcome<null> {
  if (entry.reversed) return refuse('entry-reversed-already');
  if (!['callback_payment', 'fee_refund', 'recovery'].includes(entry.kind)) return refuse('entry-not-reversible');
  return entry.kind !== 'recovery' && now.recoveredCents > now.paidCents - entry.cents
    ? refuse('recovery-first', { recoveredCents: now.recoveredCents })
    : accept(null);
}

/** A fee goes back against an invoice of the job, never more than was paid on it and has not gone back yet. */
export const mayRefund = (invoice: { number: number | null; paidCents: number; backCents: number }, cents: number): Outcome<null> =>
  cents <= invoice.paidCents - invoice.backCents
    ? accept(null)
    : refuse('refund-above-fee', { number: invoice.number, leftCents: Math.max(0, invoice.paidCents - invoice.backCents) }, 'cents');

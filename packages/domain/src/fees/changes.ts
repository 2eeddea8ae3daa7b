// What may happen to an invoice besides payments: credit note, write-off, refund, charge for a returned payment.
import { formatUsd } from '../shared/money.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { About, LedgerLine } from './ledger.ts';
import { balanced } from './ledger.ts';
import { METHODS, type InvoiceState, type Method } from './invoice.ts';
import { taxWithin } from './tax.ts';

export const INVOICE_ACTS = {
  credit_note: 'credit note',
  write_off: 'write-off',
  refund: 'refund',
  returned_fee: 'charge for a returned payment',
} as const;
export type InvoiceActKind = keyof typeof INVOICE_ACTS;

/** What the ledger says of an invoice, in cents. `balanceCents` is what is open; below zero it is what is to be given back. */
export type InvoiceMoney = {
  number: number | null;
  state: InvoiceState;
  totalCents: number;
  taxCents: number;
  paidCents: number;
  creditedCents: number;
  creditedTaxCents: number;
  balanceCents: number;
};

export const openOf = ({ balanceCents }: Pick<InvoiceMoney, 'balanceCents'>): number => Math.max(0, balanceCents);
/** What is to be given back to whoever paid. */
export const backOf = ({ balanceCents }: Pick<InvoiceMoney, 'balanceCents'>): number => Math.max(0, -balanceCents);

const stands = ({ number, state }: InvoiceMoney): Outcome<null> =>
  state === 'draft' || state === 'withdrawn' ? refuse('invoice-not-changed', { number: number ?? 'draft', state }) : accept(null);

/** Takes something off an invoice, with a reason; never more than it asks for. Answers how much of it is tax. */
export function decideCreditNote(invoice: InvoiceMoney, { cents }: { cents: number }): Outcome<{ taxCents: number }> {
  const may = stands(invoice);
  if (!may.ok) return may;
  const left = invoice.totalCents - invoice.creditedCents;
  if (cents > left) return refuse('credit-above-invoice', { number: invoice.number, left: formatUsd(left) }, 'cents');
  return accept({ taxCents: taxWithin(cents, invoice) });
}

/** `limitCents` is what the roles of the one who asks may write off at a time; 'none' = any amount. */
export function decideWriteOff(
  invoice: InvoiceMoney,
  { cents, limitCents }: { cents: number; limitCents: number | 'none' },
): Outcome<null> {
  const may = stands(invoice);
  if (!may.ok) return may;
  const open = openOf(invoice);
  if (cents > open) return refuse('more-than-open', { number: invoice.number, open: formatUsd(open), openCents: open }, 'cents');
  if (limitCents !== 'none' && cents > limitCents) return refuse('write-off-limit', { limit: formatUsd(limitCents) }, 'cents');
  return accept(null);
}

/** Money is given back only as far as more was paid than the invoice asks for. */
export function decideRefund(invoice: InvoiceMoney, asked: { cents: number; method: Method; reference: string }): Outcome<null> {
  const back = backOf(invoice);
  if (asked.cents > back) return refuse('refund-above-paid', { number: invoice.number, back: formatUsd(back) }, 'cents');
  if (asked.method !== 'cash' && asked.reference.trim() === '')
    return refuse('payment-reference', { method: METHODS[asked.method] }, 'reference');
  return accept(null);
}

const line = (account: LedgerLine['account'], cents: number, about: About): LedgerLine[] =>
  cents === 0 ? [] : [{ account, cents, ...about }];

/** The fee and its tax were asked for too high: both come down, and so does what is owed. */
export const creditLines = (cents: number, taxCents: number, about: About): readonly LedgerLine[] =>
  balanced([...line('fee-income', cents - taxCents, about), ...line('sales-tax', taxCents, about), ...line('receivable', -cents, about)]);

/** What is owed will not be paid: an expense of the firm. */
export const writeOffLines = (cents: number, about: About): readonly LedgerLine[] =>
  balanced([...line('write-offs', cents, about), ...line('receivable', -cents, about)]);

/** Money goes back: first what is still held as a deposit (`heldCents`), then what was taken as payment. */
export function refundLines(cents: number, heldCents: number, about: About): readonly LedgerLine[] {
  const held = Math.min(cents, Math.max(0, heldCents));
  return balanced([...line('deposits-held', held, about), ...line('receivable', cents - held, about), ...line('bank', -cents, about)]);
}

/** A payment came back, and the firm charges for that. */
export const returnedFeeLines = (cents: number, about: About): readonly LedgerLine[] =>
  balanced([...line('receivable', cents, about), ...line('returned-fees', -cents, about)]);

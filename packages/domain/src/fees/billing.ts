// What to invoice for a job: to whom, how much, due when, and what of it is asked for ahead.
import { CLOSING_DAYS } from '../shared/terms.ts';
import { shiftDay } from '../shared/calendar.ts';
import { allocate, formatUsd, percentOf } from '../shared/money.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { Terms } from '../jobs/words.ts';
import { NO_TAX, taxOf, type TaxRule } from './tax.ts';

/** `service` is what the line is charged for; null = the inspection itself. */
export type FeeLineToInvoice = { label: string; cents: number; service?: string | null };
export type OpenInvoice = {
  id: string;
  number: number;
  totalCents: number;
  taxCents: number;
  paidCents: number;
  /** Taken off by credit notes or written off. */
  lessCents: number;
  payerId: string;
};
export type MoneyRules = { severalPayers: boolean; depositPercent: number; closingDays: number; tax: TaxRule };

export const NO_MONEY_RULES: MoneyRules = { severalPayers: false, depositPercent: 50, closingDays: CLOSING_DAYS, tax: NO_TAX };

type Payer = { partyId: string; name: string; weight?: number };

export type JobToInvoice = {
  terms: Terms;
  /** Day of the first visit that is not cancelled, if there is one. */
  visitOn: string | null;
  deposit?: { cents: number } | { percent: number } | null;
  /** Day of the closing as it was told, where the fee is billed to it. */
  dueOn?: string | null;
  payers: readonly Payer[];
  clients: readonly { partyId: string; name: string }[];
  lines: readonly FeeLineToInvoice[];
  /** Invoices of the job that were issued and not withdrawn, oldest first. */
  invoices: readonly OpenInvoice[];
  rules?: MoneyRules;
};

export type InvoiceToIssue = {
  payerId: string;
  totalCents: number;
  taxCents: number;
  depositCents: number;
  dueOn: string;
  lines: { label: string; cents: number; taxCents?: number }[];
};
export type Billing = { issue: InvoiceToIssue[]; withdraw: OpenInvoice[] };

type Shared = { partyId: string; weight: number };

/** Who pays, each with a share: the payers who are named, else the first client. Several only where the firm allows it. */
export function payersOf(job: Pick<JobToInvoice, 'payers' | 'clients' | 'rules'>): Outcome<Shared[]> {
  const named = job.payers.length > 0 ? job.payers : job.clients.slice(0, 1);
  if (named.length === 0) return refuse('no-payer');
  if (named.length > 1 && !(job.rules ?? NO_MONEY_RULES).severalPayers)
    return refuse('several-payers', { names: named.map(({ name }) => name) });
  const said = named.some((one) => 'weight' in one && one.weight !== undefined);
  const shares = named.map((one) => ({ partyId: one.partyId, weight: 'weight' in one ? (one.weight ?? 0) : said ? 0 : 1 }));
  return accept(shares.some(({ weight }) => weight > 0) ? shares : shares.map((one) => ({ ...one, weight: 1 })));
}

/**
 * The day on which a fee is due, never earlier than the day of the invoice. One that is billed to the closing has its own day, whether or not the
 * sale closes (Cal. Bus. & Prof. Code 7197: no fee may depend on it).
 */
export function dueOn(
  terms: Terms,
  visitOn: string | null,
  today: string,
  own: { dueOn?: string | null; closingDays?: number } = {},
): string {
  const visit = visitOn ?? today;
  const closing = own.dueOn ?? shiftDay(visit, own.closingDays ?? CLOSING_DAYS);
  const due = terms === 'due_at_booking' ? today : terms === 'billed_to_closing' ? closing : visit;
  return due < today ? today : due;
}

/** What is asked for at booking, in cents of a total; 0 unless the terms are a deposit. Percents are rounded half up. */
export function depositAsked(job: Pick<JobToInvoice, 'terms' | 'deposit' | 'rules'>, totalCents: number): number {
  if (job.terms !== 'deposit') return 0;
  const deposit = job.deposit ?? { percent: (job.rules ?? NO_MONEY_RULES).depositPercent };
  return Math.min(totalCents, 'cents' in deposit ? deposit.cents : percentOf(totalCents, deposit.percent, 'halfUp'));
}

const net = ({ totalCents, taxCents }: OpenInvoice): number => totalCents - taxCents;
const touched = ({ paidCents, lessCents }: OpenInvoice): boolean => paidCents !== 0 || lessCents !== 0;
const sum = <T>(list: readonly T[], of: (one: T) => number): number => list.reduce((total, one) => total + of(one), 0);

/** What invoices ask for as against a share of the fee. A credit note makes up for asking too much; it does not call for a new invoice. */
const askedFor = (invoices: readonly OpenInvoice[], share: number): number => {
  const asked = sum(invoices, net);
  return asked > share ? Math.max(share, asked - sum(invoices, ({ lessCents }) => lessCents)) : asked;
};

type Part = { payerId: string; share: number; kept: OpenInvoice[]; untouched: OpenInvoice[] };

/** What of the fee falls on each payer: what somebody else has an invoice for that he began to pay comes off first. */
function partsOf(job: JobToInvoice, payers: readonly Shared[], fee: number): Part[] {
  const ofOthers = job.invoices.filter((i) => touched(i) && !payers.some(({ partyId }) => partyId === i.payerId));
  const left = Math.max(0, fee - askedFor(ofOthers, fee));
  const shares = allocate(
    left,
    payers.map(({ weight }) => weight),
  );
  return payers.map(({ partyId }, at) => {
    const own = job.invoices.filter(({ payerId }) => payerId === partyId);
    return { payerId: partyId, share: shares[at]!, kept: own.filter(touched), untouched: own.filter((i) => !touched(i)) };
  });
}

/**
 * What to invoice now: the fee less what stays invoiced, to each payer his share (largest remainder). Unpaid invoices for another amount or
 * payer are withdrawn first; `same` names an invoice that already says all of this.
 */
export function decideInvoices(job: JobToInvoice, today: string): Outcome<{ same: OpenInvoice } | Billing> {
  const payers = payersOf(job);
  if (!payers.ok) return payers;
  const fee = sum(job.lines, ({ cents }) => cents);
  const parts = partsOf(job, payers.value, fee);
  const over = askedFor(job.invoices.filter(touched), fee);
  if (over > fee || parts.some(({ kept, share }) => askedFor(kept, share) > share))
    return refuse('invoiced-above-fee', { invoiced: formatUsd(over), fee: formatUsd(fee) });
  const strange = job.invoices.filter((i) => !touched(i) && !parts.some(({ payerId }) => payerId === i.payerId));
  const billing: Billing = { issue: [], withdraw: strange };
  for (const part of parts) {
    if (sum([...part.kept, ...part.untouched], net) === part.share && part.share > 0) continue;
    billing.withdraw.push(...part.untouched);
    const due = part.share - askedFor(part.kept, part.share);
    if (due > 0) billing.issue.push(toIssue(job, part, due, { fee, today, payers: parts.length }));
  }
  if (billing.issue.length > 0) return accept(billing);
  const last = job.invoices.at(-1);
  return last && billing.withdraw.length === 0 && fee > 0 ? accept({ same: last }) : refuse('nothing-to-invoice');
}

type Around = { fee: number; today: string; payers: number };

/** One invoice over `due` cents of the fee, with the tax on it. */
function toIssue(job: JobToInvoice, part: Part, due: number, { fee, today, payers }: Around): InvoiceToIssue {
  const rules = job.rules ?? NO_MONEY_RULES;
  const { taxCents, byLine, label } = taxOf(job.lines, due, rules.tax);
  const already = part.kept.map((i) => ({ label: `Already on invoice ${i.number}`, cents: -net(i) }));
  const elsewhere = due - fee - sum(already, ({ cents }) => cents);
  const others = { label: payers > 1 ? 'Share of the other payers' : 'Invoiced otherwise', cents: elsewhere };
  const lines = job.lines.map((line, at) => ({ label: line.label, cents: line.cents, ...(byLine[at] ? { taxCents: byLine[at] } : {}) }));
  const totalCents = due + taxCents;
  return {
    payerId: part.payerId,
    totalCents,
    taxCents,
    depositCents: depositAsked(job, totalCents),
    dueOn: dueOn(job.terms, job.visitOn, today, { dueOn: job.dueOn ?? null, closingDays: rules.closingDays }),
    lines: [...lines, ...already, ...(elsewhere === 0 ? [] : [others]), ...(taxCents > 0 ? [{ label, cents: taxCents }] : [])],
  };
}

// Closed months, the firm's own accounts, and entries that the owner writes by hand.
import { DateTime } from 'luxon';
import { formatUsd } from '../shared/money.ts';
import { shiftDay } from '../shared/calendar.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

export const ACCOUNT_KINDS = {
  asset: 'what the firm has',
  liability: 'what the firm owes',
  equity: "the owner's own",
  income: 'what comes in',
  expense: 'what it costs',
} as const;
export type AccountKind = keyof typeof ACCOUNT_KINDS;

/** Accounts whose balance is kept by invoices, deposits and callbacks; nobody writes to them by hand. */
export const KEPT_BY_PROGRAM: readonly string[] = [
  'receivable',
  'deposits-held',
  'callback-reserve',
  'callback-cost',
  'fee-refunds',
  'recoveries',
];

/** The last day of the month of an ISO day. */
export const monthEnd = (day: string): string => DateTime.fromISO(day, { zone: 'utc' }).endOf('month').toISODate()!;
/** The last day of the month before that of an ISO day. */
export const monthEndBefore = (day: string): string => shiftDay(`${day.slice(0, 7)}-01`, -1);

/** Where an entry of a day stands: on it, or on the first open day, with the real day beside. `closedThrough` null = nothing is closed. */
export const entryDay = (day: string, closedThrough: string | null): { happenedOn: string; realOn: string | null } =>
  closedThrough !== null && day <= closedThrough
    ? { happenedOn: shiftDay(closedThrough, 1), realOn: day }
    : { happenedOn: day, realOn: null };

/** Closes the books through the end of a month that is over; months are closed in their order. */
export function decideClosing(through: string, closedThrough: string | null, today: string): Outcome<null> {
  if (through !== monthEnd(through)) return refuse('closing-not-a-month', {}, 'through');
  if (through >= today) return refuse('month-not-over', { through }, 'through');
  if (closedThrough !== null && through <= closedThrough) return refuse('month-closed', { through }, 'through');
  return accept(null);
}

/** Opens a closed month again, and with it every later one; a reason is kept. */
export function decideReopening(from: string, closedThrough: string | null): Outcome<{ through: string | null }> {
  if (closedThrough === null || from > closedThrough) return refuse('month-open', { from }, 'from');
  return accept({ through: monthEndBefore(from) });
}

export type HandLine = { account: string; cents: number };

/** A sound entry by hand: two lines or more, none zero, debits equal credits, known accounts that are not kept by the program. */
export function decideHandEntry(
  lines: readonly HandLine[],
  known: readonly string[],
  day: { happenedOn: string; today: string },
): Outcome<null> {
  if (day.happenedOn > day.today) return refuse('entry-ahead', { happenedOn: day.happenedOn }, 'happenedOn');
  if (lines.length < 2 || lines.some(({ cents }) => cents === 0)) return refuse('entry-lines', {}, 'lines');
  const strange = lines.find(({ account }) => !known.includes(account));
  if (strange) return refuse('account-unknown', { account: strange.account }, 'lines');
  const kept = lines.find(({ account }) => KEPT_BY_PROGRAM.includes(account));
  if (kept) return refuse('account-kept', { account: kept.account }, 'lines');
  const off = lines.reduce((total, { cents }) => total + cents, 0);
  return off === 0 ? accept(null) : refuse('entry-off', { off: formatUsd(Math.abs(off)) }, 'lines');
}

/** A code for an account that the firm adds: its name in small letters and dashes, at most 40 of them. */
export const codeOf = (name: string): string =>
  name
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '')
    .slice(0, 40);

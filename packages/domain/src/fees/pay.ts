// What a person is paid for a visit. A rule sees the fee of the job, the minutes of the visit, the part that was taken and who wrote the
// report; nothing else. No callback, its cause or its cost can be seen here, and none may be added: Wisconsin Statutes 103.455 forbids
// deductions for faulty work without consent in writing or a finding (from memory). What is paid is never below zero.
import { formatUsd, percentOf, priceOf } from '../shared/money.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

export const PAY_PARTS = { first: 'went as first', second: 'went as second', writer: 'wrote the report' } as const;
export type PayPart = keyof typeof PAY_PARTS;

/** First and second may earn differently. Percents are of the fee of the job; hours are those of the visit. */
export type PayBasis =
  | { kind: 'share'; firstPercent: number; secondPercent: number }
  | { kind: 'job'; firstCents: number; secondCents: number }
  | { kind: 'hours'; firstCents: number; secondCents: number };
/** What the writer of the report gets besides. */
export type WriterPart = { kind: 'none' } | { kind: 'percent'; percent: number } | { kind: 'amount'; cents: number };
export type PayRule = { basis: PayBasis; writer: WriterPart };

/** All that pay may rest on. `minutes` are those of the visit as booked. */
export type PayFacts = { part: PayPart; feeCents: number; minutes: number };
export type Pay = { cents: number; reason: string };

const share = (feeCents: number, percent: number): Pay => ({
  cents: percentOf(Math.max(0, feeCents), percent, 'halfUp'),
  reason: `${percent}% of the fee of ${formatUsd(Math.max(0, feeCents))}`,
});

/** In cents, half cents up. */
export function payFor({ basis, writer }: PayRule, { part, feeCents, minutes }: PayFacts): Pay {
  if (part === 'writer') {
    if (writer.kind === 'none') return { cents: 0, reason: 'no part for the writer' };
    return writer.kind === 'percent' ? share(feeCents, writer.percent) : { cents: writer.cents, reason: 'amount for a report' };
  }
  const first = part === 'first';
  if (basis.kind === 'share') return share(feeCents, first ? basis.firstPercent : basis.secondPercent);
  const each = first ? basis.firstCents : basis.secondCents;
  if (basis.kind === 'job') return { cents: each, reason: 'amount for a job' };
  return { cents: Math.max(0, priceOf(minutes / 60, each, 'halfUp')), reason: `${minutes} minutes at ${formatUsd(each)} an hour` };
}

/** The rule of a person on a day: the newest that had begun; the later said of two of one day. */
export const ruleOn = <T extends { personId: string; fromDay: string }>(
  rules: readonly T[],
  personId: string,
  day: string,
): T | undefined =>
  rules
    .filter((rule) => rule.personId === personId && rule.fromDay <= day)
    .reduce<T | undefined>((best, rule) => (best && best.fromDay > rule.fromDay ? best : rule), undefined);

/** What was paid is not changed behind its back: a rule begins on or after the day after the last visit that was frozen. */
export const mayBegin = (fromDay: string, lastFrozen: string | null): Outcome<null> =>
  lastFrozen !== null && fromDay <= lastFrozen ? refuse('pay-frozen', { day: lastFrozen }, 'fromDay') : accept(null);

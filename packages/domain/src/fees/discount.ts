// A discount that somebody of the firm gives by hand, with a reason; and a fee priced anew around what the desk added to it.
import { formatUsd, percentOf, shortUsd } from '../shared/money.ts';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { FeeLine, FeeQuote, FeeSchedule } from './schedule.ts';

/** An amount in cents, or percent of what the schedule asks for. */
export type Discount = { reason: string } & ({ cents: number } | { percent: number });

/** Key of the line that a discount by hand makes. */
export const DISCOUNT_KEY = 'discount-by-hand';

/** As it is said: an amount or a percentage; with neither there is no discount. */
export type DiscountSaid = { cents: number | null; percent: number | null; reason: string };

export function discountSaid({ cents, percent, reason }: DiscountSaid): Discount | null {
  if (cents !== null) return { reason, cents };
  return percent === null ? null : { reason, percent };
}

const sum = (lines: readonly { cents: number }[]): number => lines.reduce((total, { cents }) => total + cents, 0);

const asked = (discount: Discount, feeCents: number): number =>
  'cents' in discount ? discount.cents : percentOf(feeCents, discount.percent, 'halfUp');

/** The line of a discount, never more than the fee of `feeCents`; none when nothing would come off. Half cents up. */
export function discountLine(discount: Discount | null, feeCents: number): FeeLine[] {
  const cents = discount === null ? 0 : Math.min(Math.max(0, feeCents), asked(discount, feeCents));
  if (discount === null || cents === 0) return [];
  const share = 'percent' in discount ? `, ${discount.percent}% of ${formatUsd(feeCents)}` : '';
  return [{ rule: DISCOUNT_KEY, label: 'Discount', reason: discount.reason + share, cents: -cents }];
}

/** A quote with the discount as its last line. It is taken after the minimum of the schedule: whoever gives it may go below. */
export function withDiscount(quote: FeeQuote, discount: Discount | null): FeeQuote {
  const line = discountLine(discount, quote.totalCents);
  return { ...quote, lines: [...quote.lines, ...line], totalCents: quote.totalCents + sum(line) };
}

/** `limitCents` is what the roles of the one who gives it may take off; 'none' = any amount. `feeCents` is the fee without it. */
export function mayDiscount(
  discount: Discount,
  { feeCents, limitCents }: { feeCents: number; limitCents: number | 'none' },
): Outcome<null> {
  const cents = asked(discount, feeCents);
  const field = 'cents' in discount ? 'cents' : 'percent';
  if (cents > feeCents) return refuse('discount-above-fee', { fee: formatUsd(feeCents) }, field);
  return limitCents !== 'none' && cents > limitCents ? refuse('discount-limit', { limit: shortUsd(limitCents) }, field) : accept(null);
}

const ofSchedule = (schedule: FeeSchedule, lines: readonly FeeLine[]): FeeLine[] =>
  lines.filter(({ rule }) => schedule.rules.some(({ key }) => key === rule));

/** What the desk added: late charges, later looks, a fee agreed for a re-inspection. Not the discount, which follows the fee. */
const ofDesk = (schedule: FeeSchedule, lines: readonly FeeLine[]): FeeLine[] =>
  lines.filter(({ rule }) => rule !== DISCOUNT_KEY && !schedule.rules.some(({ key }) => key === rule));

/** What a percentage is of, in cents: what the schedule asks for, or all where it asks for nothing. */
export function discountBase(schedule: FeeSchedule, lines: readonly FeeLine[]): number {
  const priced = ofSchedule(schedule, lines);
  return sum(priced.length > 0 ? priced : ofDesk(schedule, lines));
}

/** The lines of a job with another discount, or none. */
export const discounted = (schedule: FeeSchedule, before: readonly FeeLine[], discount: Discount | null): FeeLine[] => [
  ...ofSchedule(schedule, before),
  ...discountLine(discount, discountBase(schedule, before)),
  ...ofDesk(schedule, before),
];

/**
 * The lines of a job priced anew: those of the schedule as `priced` says, its discount among them; what the desk added stays. A fee that no
 * rule of the schedule made, as that of a re-inspection, was agreed as it is and stays.
 */
export const pricedAnew = (schedule: FeeSchedule, before: readonly FeeLine[], priced: readonly FeeLine[]): FeeLine[] =>
  ofSchedule(schedule, before).length === 0 ? [...before] : [...priced, ...ofDesk(schedule, before)];

// Months of inspection in a row, each beside the same month a year earlier; what is still coming in is said of each.
import type { FigureRow } from '../development/triangle.ts';

/** YYYY-MM. */
export type Month = string;

const numberOf = (month: Month): number => Number(month.slice(0, 4)) * 12 + Number(month.slice(5, 7)) - 1;
const monthOf = (number: number): Month =>
  `${String(Math.floor(number / 12)).padStart(4, '0')}-${String((number % 12) + 1).padStart(2, '0')}`;
export const shiftMonth = (month: Month, by: number): Month => monthOf(numberOf(month) + by);
/** Every month from the first to the last, both included; none when the last comes before the first. */
export const monthsBetween = (from: Month, until: Month): Month[] =>
  Array.from({ length: Math.max(0, numberOf(until) - numberOf(from) + 1) }, (_, at) => shiftMonth(from, at));

const NAMES = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
/** 'Mar 2026' */
export const monthName = (month: Month): string => `${NAMES[numberOf(month) % 12]} ${month.slice(0, 4)}`;

/** Counts, and incurred money in cents. */
export type Sums = { jobs: number; callbacks: number; incurredCents: number };

/** `young`: more of its callbacks are still to come than may be passed over; `running`: the month is not over, and so young too. */
export type Ripeness = {
  state: 'running' | 'young' | 'settled';
  /** Share of its callbacks that is usually known by now; null where that cannot be told. */ share: number | null;
};

export type MonthFigures = { month: Month } & Sums &
  Ripeness & {
    /** The same month a year earlier, and how many of its callbacks were known when it was as old as this one is now; null: no inspection then. */
    earlier: (Sums & { month: Month; callbacksAtSameAge: number }) | null;
  };

/** Callbacks of a month are held to be all there from this share on. */
export const ALL_BUT = 0.9;
/** Months until a month is held to be all there while nothing can be told of how callbacks come in: our own choice. */
export const UNTOLD_MONTHS = 12;

/** How ripe a month is on a day of the month `now`; `share` is null where it cannot be told. */
export function ripenessOf(month: Month, now: Month, share: number | null): Ripeness {
  if (month >= now) return { state: 'running', share };
  const settled = share === null ? numberOf(now) - numberOf(month) > UNTOLD_MONTHS : share >= ALL_BUT;
  return { state: settled ? 'settled' : 'young', share };
}

const SIGNS: Record<string, [keyof Sums, 1 | -1]> = {
  jobs: ['jobs', 1],
  callbacks: ['callbacks', 1],
  paid: ['incurredCents', 1],
  reserved: ['incurredCents', 1],
  recovered: ['incurredCents', -1],
};

/** Adds up figures, whatever their months: incurred = paid + reserved - recovered. */
export function sumOf(rows: Iterable<{ measure: string; amount: number }>): Sums {
  const sums: Sums = { jobs: 0, callbacks: 0, incurredCents: 0 };
  for (const { measure, amount } of rows) {
    const [key, sign] = SIGNS[measure] ?? [];
    if (key && sign) sums[key] += sign * amount;
  }
  return sums;
}

type Span = { from: Month; until: Month; now: Month };

/**
 * The months of a span, oldest first, without gaps. `rows` are the figures of all jobs, from a year before the span on; `share` says
 * how much of a month is usually known by now. What lies after the month `now` is left out.
 */
export function monthFigures(
  rows: readonly FigureRow[],
  { from, until, now }: Span,
  share: (month: Month) => number | null,
): MonthFigures[] {
  const byOrigin = new Map<Month, FigureRow[]>();
  for (const row of rows) byOrigin.set(row.origin, [...(byOrigin.get(row.origin) ?? []), row]);
  const known = (month: Month, by: Month): Sums => sumOf((byOrigin.get(month) ?? []).filter((row) => row.known <= by));
  return monthsBetween(from, until < now ? until : now).map((month) => {
    const before = shiftMonth(month, -12);
    const earlier = known(before, now);
    return {
      month,
      ...known(month, now),
      ...ripenessOf(month, now, share(month)),
      earlier: earlier.jobs === 0 ? null : { month: before, ...earlier, callbacksAtSameAge: known(before, shiftMonth(now, -12)).callbacks },
    };
  });
}

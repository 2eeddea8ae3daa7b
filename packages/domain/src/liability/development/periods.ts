// Months, quarters and years of inspection, counted so that one less another is an age.
import { DateTime } from 'luxon';

export const GRAINS = ['month', 'quarter', 'year'] as const;
export type Grain = (typeof GRAINS)[number];

/** Months that a period has. */
const LONG: Record<Grain, number> = { month: 1, quarter: 3, year: 12 };

/** Newest periods that are shown one by one; what is older is folded into one line. */
export const SHOWN: Record<Grain, number> = { month: 36, quarter: 40, year: 15 };

/** The period that holds a month or day (`YYYY-MM` or longer), as a number that grows by one from period to period. */
export const periodOf = (month: string, grain: Grain): number =>
  Math.floor((Number(month.slice(0, 4)) * 12 + Number(month.slice(5, 7)) - 1) / LONG[grain]);

const firstDay = (period: number, grain: Grain): DateTime => DateTime.utc(0, 1, 1).plus({ months: period * LONG[grain] });

/** Last day of a period, as an ISO day. */
export const lastDayOf = (period: number, grain: Grain): string =>
  firstDay(period + 1, grain)
    .minus({ days: 1 })
    .toISODate()!;

/** 'Jan 2026', 'Q1 2026', '2026'. */
export function nameOf(period: number, grain: Grain): string {
  const start = firstDay(period, grain);
  const before = grain === 'month' ? `${start.setLocale('en-US').toFormat('LLL')} ` : grain === 'quarter' ? `Q${start.quarter} ` : '';
  return `${before}${start.year}`;
}

/**
 * Where a day stands: the period that holds it, and the share of that period gone by its end (above 0, 1 on its last day).
 */
export function standing(day: string, grain: Grain): { period: number; gone: number } {
  const period = periodOf(day, grain);
  const [start, end] = [firstDay(period, grain), firstDay(period + 1, grain)];
  const days = DateTime.fromISO(day, { zone: 'utc' }).diff(start, 'days').days + 1;
  return { period, gone: days / end.diff(start, 'days').days };
}

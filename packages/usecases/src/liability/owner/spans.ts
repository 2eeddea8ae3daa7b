// This month and this year as spans of days, and the same days a year earlier.
import { later } from '@backsight/domain/liability/claimWindow';

/** ISO days, both included. */
export type Span = { from: string; to: string };

/** Twelve months earlier; the last day of February stands for the 29th. */
export const yearBefore = ({ from, to }: Span): Span => ({ from: later(from, -12), to: later(to, -12) });

/** From the first day of the month, and of the year, to today. */
export function spansOf(today: string): { month: Span; year: Span } {
  return { month: { from: `${today.slice(0, 7)}-01`, to: today }, year: { from: `${today.slice(0, 4)}-01-01`, to: today } };
}

/** Puts four values that were asked for as [month, month before, year, year before] beside their days. */
export function besides<T>(today: string, values: readonly T[]) {
  const { month, year } = spansOf(today);
  const [now, before, ofYear, ofYearBefore] = values as [T, T, T, T];
  return {
    month: { days: month, now, beforeDays: yearBefore(month), before },
    year: { days: year, now: ofYear, beforeDays: yearBefore(year), before: ofYearBefore },
  };
}

export const fourSpans = (today: string): Span[] => {
  const { month, year } = spansOf(today);
  return [month, yearBefore(month), year, yearBefore(year)];
};

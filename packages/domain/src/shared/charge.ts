// A part of the fee that is charged, and when a change comes late.
import { percentOf } from './money.ts';

const HOUR = 3_600_000;

/** Whether an instant lies within so many hours before a start, or after it. */
export const isLate = (startsAt: Date, now: Date, hours: number): boolean => startsAt.getTime() - now.getTime() < hours * HOUR;

export type Charge = { percent: number; feeCents: number; cents: number };

/** Percent of the fee, half cents up. */
export const chargeOf = (feeCents: number, percent: number): Charge => ({
  percent,
  feeCents,
  cents: percentOf(feeCents, percent, 'halfUp'),
});

// What the firm charges and waits for when a visit does not go as booked. Part of the booking rules: every amount here is a setting.
import type { Applicability } from '../shared/applicability.ts';

export const EARLY_ENDINGS = ['refused_at_the_door', 'nobody_came', 'stopped_for_safety', 'stopped_by_client'] as const;
export type EarlyEnding = (typeof EARLY_ENDINGS)[number];

/** Offered instead of silently missing: `remindOn` is the month and day from which it can be done, `cents` its own price. */
export type LaterLook = {
  key: string;
  label: string;
  reason: string;
  applies: Applicability;
  visitKind: string;
  cents: number;
  remindOn: string;
};

/**
 * Percents are of the fee of the visit. `hours` before the start a move or a cancelling is late and costs its part: the amount where
 * one is set, else the percent. `fullHours` before, and after the start, it costs the whole fee; 0 = never.
 */
export type DeskRules = {
  endings: Record<EarlyEnding, number>;
  late: { hours: number; movePercent: number; cancelPercent: number; fullHours?: number; moveCents?: number; cancelCents?: number };
  /** A short radon test: hours that it runs at least, and hours that the house is closed before. */
  radon: { shortestHours: number; closedHouseHours: number };
  /** Hours within which a sample must reach the laboratory. */
  holdingHours: number;
  laterLooks: readonly LaterLook[];
};

/** A firm that has set nothing charges nothing. Radon: 48 hours and 12 before (Wisconsin Department of Health Services; 12 from memory). */
export const NO_RULES: DeskRules = {
  endings: { refused_at_the_door: 0, nobody_came: 0, stopped_for_safety: 0, stopped_by_client: 0 },
  late: { hours: 0, movePercent: 0, cancelPercent: 0 },
  radon: { shortestHours: 48, closedHouseHours: 12 },
  holdingHours: 30,
  laterLooks: [],
};

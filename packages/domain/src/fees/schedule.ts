// What a fee schedule can say. Each rule turns property facts, ordered services or travel into one line of the fee.
// A fee may never depend on what the inspection finds or on whether the sale closes (California Business and Professions
// Code 7197(a)(3) forbids it in so many words): no rule here can see a conclusion, a report or a closing, and none may be added.
import type { Applicability } from '../shared/applicability.ts';
import type { FactKey } from '../shared/facts.ts';
import type { NumericFactKey } from '../shared/phrases.ts';

/** Bands are in ascending order; a value belongs to the first whose limit it does not exceed; null = no limit. */
export type SizeBand = { upToSqFt: number | null; cents: number };
export type TravelBand = { upToMinutes: number | null; cents: number };

export const OUTSIDE_DAYS = ['saturday', 'sunday', 'holiday'] as const;
export type OutsideDay = (typeof OUTSIDE_DAYS)[number];

export type FeeKind =
  /** The first base rule that applies sets the base fee by living area; `assume` (sq ft) is used while that is not known. */
  | { kind: 'base'; bands: readonly SizeBand[]; assume: number }
  /** `cents` for each started `step` above `over`; `assume` is used while the fact is not known, without it the line waits. */
  | { kind: 'perUnitOver'; fact: NumericFactKey; over: number; step: number; cents: number; assume?: number }
  | { kind: 'surcharge'; cents: number }
  | { kind: 'addOn'; service: string; cents: number }
  | { kind: 'travelBand'; bands: readonly TravelBand[] }
  /** A visit that starts before or after these minutes of the local day, or on one of these days; once, however many of them are so. */
  | { kind: 'outsideHours'; before: number; after: number; days: readonly OutsideDay[]; cents: number }
  /** Percent of all charges before discounts. */
  | { kind: 'discount'; percent: number; reason: string }
  | { kind: 'discount'; cents: number; reason: string }
  /** The least that a job costs after discounts. */
  | { kind: 'minimum'; cents: number };

/** `key` names the rule for life; `label` is what the client reads. */
export type FeeRule = { key: string; label: string; applies: Applicability } & FeeKind;

export type FeeSchedule = { rules: readonly FeeRule[] };

/** One line of a fee in cents (negative for a discount), with the reason in plain words and what was assumed, if anything. */
export type FeeLine = { rule: string; label: string; reason: string; cents: number; assumption?: string };

/** `asks` names the facts that could still change the fee. */
export type FeeQuote = { lines: FeeLine[]; totalCents: number; assumptions: string[]; asks: FactKey[] };

// The applies-when rule: one small language over property facts, ordered services and the day.
// Fees, durations, qualifications, kit and procedure steps all use it; so it is three-valued:
// a fact that is not known yet makes a rule "unknown", never silently false.
import type { FactKey } from './facts.ts';

export type Comparison = 'is' | 'isOneOf' | 'atLeast' | 'atMost' | 'below' | 'above' | 'includes';

export type Applicability =
  | { always: true }
  | { all: readonly Applicability[] }
  | { any: readonly Applicability[] }
  | { not: Applicability }
  | { fact: FactKey; compare: Comparison; value: number | string | boolean | readonly string[] }
  /** True when the client ordered the service. */
  | { service: string }
  /** True when the day of the visit lies in the season, month-day inclusive at both ends; may wrap the new year. */
  | { seasonFrom: string; seasonTo: string }
  /** True from that ISO day on. */
  | { fromDay: string };

export type Truth = 'yes' | 'no' | 'unknown';

export const ALWAYS: Applicability = { always: true };

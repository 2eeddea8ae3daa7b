// How long a claim for a job may still be brought, by the rule pack of its jurisdiction.
import { DateTime } from 'luxon';

/** Years from the day that `from` names. A short and a long reading stand side by side: which one holds is for an attorney. */
export type ClaimWindowRule = {
  shortYears: number;
  longYears: number;
  from: 'inspected' | 'completed' | 'delivered' | 'discovered';
  sources: readonly string[];
};

/** The four days that claim windows hang on, ISO days; null when not known. */
export type FourDays = { inspectedOn: string | null; completedOn: string | null; deliveredOn: string | null; discoveredOn: string | null };

/** `from` is the day it counts from; both ends are the last day on which a claim may be brought. */
export type ClaimWindow = { from: string; shortUntil: string; longUntil: string };

const FALLBACK = {
  inspected: ['inspectedOn'],
  completed: ['completedOn', 'inspectedOn'],
  delivered: ['deliveredOn', 'completedOn', 'inspectedOn'],
  discovered: ['discoveredOn', 'deliveredOn', 'completedOn', 'inspectedOn'],
} as const;

/** The windows of a job, or null when no day is known yet. A missing day falls back to the one before it in the course of a job. */
export function claimWindow(rule: ClaimWindowRule, days: FourDays): ClaimWindow | null {
  const from = FALLBACK[rule.from].map((name) => days[name]).find((day) => day !== null);
  if (!from) return null;
  const after = (years: number): string => DateTime.fromISO(from, { zone: 'utc' }).plus({ years }).toFormat('yyyy-MM-dd');
  return { from, shortUntil: after(rule.shortYears), longUntil: after(rule.longYears) };
}

/** Whether a window is still open on a day. */
export const isOpen = (until: string, today: string): boolean => today <= until;

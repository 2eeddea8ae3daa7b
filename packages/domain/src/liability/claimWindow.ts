// How long a claim for a job may still be brought, by the rows of the rule pack of its state.
import { DateTime } from 'luxon';
import { rowsOn, rowsWith, type ClockStart, type RuleRow } from '../shared/rulePack.ts';

/** One reading of the law: years from the day that `from` names. Several may be argued side by side; which one holds is for an attorney. */
export type ClaimReading = { years: number; from: ClockStart; source: string };

/** The readings that a pack's rows give on a day, each once. */
export const claimReadings = (rows: readonly RuleRow[], day: string): ClaimReading[] =>
  rowsWith(rowsOn(rows, day), 'claim_time').map(({ effect, citation }) => ({ years: effect.years, from: effect.from, source: citation }));

/** The four days that claim windows hang on, ISO days; null when not known. */
export type FourDays = { inspectedOn: string | null; completedOn: string | null; deliveredOn: string | null; discoveredOn: string | null };

/**
 * `from` is the day that the shorter one counts from, named by `countsFrom`; both ends are the last day on which a claim may be brought.
 * The longer one counts for what the firm may still owe.
 */
export type ClaimWindow = { from: string; countsFrom: ClockStart; shortUntil: string; longUntil: string };

const FALLBACK = {
  inspected: ['inspectedOn'],
  completed: ['completedOn', 'inspectedOn'],
  delivered: ['deliveredOn', 'completedOn', 'inspectedOn'],
  discovered: ['discoveredOn', 'deliveredOn', 'completedOn', 'inspectedOn'],
} as const;

/** The windows of a job, or null when no reading or no day is known yet. A missing day falls back to the one before it in the course of a job. */
export function claimWindow(readings: readonly ClaimReading[], days: FourDays): ClaimWindow | null {
  const ends = readings.flatMap(({ years, from }) => {
    const day = FALLBACK[from].map((name) => days[name]).find((known) => known !== null);
    if (!day) return [];
    return [{ from: day, countsFrom: from, until: DateTime.fromISO(day, { zone: 'utc' }).plus({ years }).toFormat('yyyy-MM-dd') }];
  });
  const inOrder = ends.toSorted((a, b) => a.until.localeCompare(b.until));
  const [short, long] = [inOrder[0], inOrder.at(-1)];
  return short && long ? { from: short.from, countsFrom: short.countsFrom, shortUntil: short.until, longUntil: long.until } : null;
}

/** Whether a window is still open on a day. */
export const isOpen = (until: string, today: string): boolean => today <= until;

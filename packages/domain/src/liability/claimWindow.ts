// How long a claim for a job may still be brought, by the rows of the rule pack of its state.
import { rowsOn, rowsWith, type ClockStart, type RuleRow } from '../shared/rulePack.ts';

/** One reading of the law: years (and months) from the day that `from` names. Several may be argued side by side; which one holds is for an attorney. */
export type ClaimReading = { years: number; months?: number; from: ClockStart; source: string };

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
  const ends = readings.flatMap(({ years, months, from }) => {
    const day = FALLBACK[from].map((name) => days[name]).find((known) => known !== null);
    if (!day) return [];
    return [{ from: day, countsFrom: from, until: later(day, years * 12 + (months ?? 0)) }];
  });
  const inOrder = ends.toSorted((a, b) => a.until.localeCompare(b.until));
  const [short, long] = [inOrder[0], inOrder.at(-1)];
  return short && long ? { from: short.from, countsFrom: short.countsFrom, shortUntil: short.until, longUntil: long.until } : null;
}

/** The ISO day so many months later; where that month is shorter, its last day. */
export function later(day: string, months: number): string {
  const at = Number(day.slice(0, 4)) * 12 + Number(day.slice(5, 7)) - 1 + months;
  const [year, month] = [Math.floor(at / 12), (at % 12) + 1];
  const last = month === 2 ? (year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${String(year).padStart(4, '0')}-${two(month)}-${two(Math.min(Number(day.slice(8)), last))}`;
}

/** Whether a window is still open on a day. */
export const isOpen = (until: string, today: string): boolean => today <= until;

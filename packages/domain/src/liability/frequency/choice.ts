// Which control chart fits the callbacks of the months: by counts of each month, or by the jobs from one callback to the next.
import { pText } from './groups.ts';

/** A month that is all there. */
type Counted = { jobs: number; callbacks: number };

/** Callbacks that a month should have on average before its count is drawn, and the share of months that may have none (common practice). */
const ENOUGH = 2;
const MAY_BE_EMPTY = 0.25;
/** Months below which limits are first ones (common practice). */
const FIRST_LIMITS = 12;

export type ChartChoice = { kind: 'u' | 'g'; sentence: string };

/**
 * A u chart where months count enough; else a g chart, as limits of rare counts mean little.
 * J. C. Benneyan, Health Care Management Science 4 (2001) 305-318, on rare events; the two numbers are common practice.
 */
export function chooseChart(settled: readonly Counted[]): ChartChoice {
  const months = settled.filter(({ jobs }) => jobs > 0);
  const counted = months.reduce((sum, { callbacks }) => sum + callbacks, 0);
  const mean = months.length === 0 ? 0 : counted / months.length;
  const empty = months.filter(({ callbacks }) => callbacks === 0).length;
  const few =
    mean < ENOUGH ? `a month has ${mean.toFixed(1)} callbacks on average` : `${empty} of ${months.length} months have no callback`;
  if (mean < ENOUGH || empty > MAY_BE_EMPTY * months.length)
    return {
      kind: 'g',
      sentence: `Callbacks are rare here (${few}), so the chart counts the jobs from one callback to the next (g chart): a long way is good news.`,
    };
  const first = months.length < FIRST_LIMITS ? ` Limits from ${months.length} months are first ones and will move.` : '';
  return {
    kind: 'u',
    sentence: `A month has ${mean.toFixed(1)} callbacks on average, enough to draw callbacks per 100 jobs by month (u chart).${first}`,
  };
}

/** Whether limits were widened, as a sentence; `ratio` is observed over expected variance. */
export const widenedWords = (ratio: number, p: number, sigmaZ: number | null): string =>
  sigmaZ === null
    ? `Months scatter ${ratio.toFixed(1)} times as much as chance alone would have it (p ${pText(p)}): the limits are plain.`
    : `Months scatter ${ratio.toFixed(1)} times as much as chance alone would have it (p ${pText(p)}), so the limits are ${sigmaZ.toFixed(2)} times as wide (Laney).`;

type Signalled<S> = { young: boolean; signals: readonly S[] };

/** Nothing that is still coming in may look better than it is: its signals on the good side are taken away. */
export const withoutEarlyPraise = <S extends { side: string }, P extends Signalled<S>>(points: readonly P[], goodSide: string): P[] =>
  points.map((point) => (point.young ? { ...point, signals: point.signals.filter(({ side }) => side !== goodSide) } : point));

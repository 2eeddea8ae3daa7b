// Charts that add up: small lasting changes show sooner than on a chart of single points.
import { requireCount, requirePositive, requireProbability } from '../interval.ts';
import type { Signal } from './chart.ts';

/** One value of the series, in any unit. */
export type MeasuredValue = { label: string; value: number };

export type TabularSettings = {
  /** Value to keep to. */
  target: number;
  /** Deviation that is let pass at every point, often half the change to be found; at least 0, unit of the values. */
  allowance: number;
  /** Sum from beyond which on it signals, above 0, unit of the values. */
  interval: number;
};

export type TabularPoint = MeasuredValue & {
  /** Sum of all deviations from the target up to here. */
  deviations: number;
  /** Sums of what went beyond the allowance, upwards and downwards, both >= 0. */
  high: number;
  low: number;
  signals: Signal[];
};

/** `firstSignal` counts points from 0; null while there is none. */
export type CumulativeChart<P> = { points: P[]; firstSignal: number | null };

/**
 * Two one-sided sums of deviations: high = max(0, high + x - target - allowance), low = max(0, low + target - allowance - x);
 * a signal when either exceeds the interval. They go on after a signal: start anew once its cause is found.
 * E. S. Page, "Continuous inspection schemes", Biometrika 41 (1954) 100-115; NIST/SEMATECH e-Handbook, section 6.3.2.3.
 * @throws RangeError on a value that is not finite, an allowance below 0 or an interval not above 0
 */
export function tabularCusum(values: readonly MeasuredValue[], settings: TabularSettings): CumulativeChart<TabularPoint> {
  const { target, allowance, interval } = settings;
  for (const { label, value } of [...values, { label: 'the target', value: target }])
    if (!Number.isFinite(value)) throw new RangeError(`value of ${label} must be a number, got ${value}`);
  if (allowance !== 0) requirePositive('allowance', allowance);
  requirePositive('interval', interval);
  let [deviations, high, low] = [0, 0, 0];
  const points = values.map(({ label, value }) => {
    deviations += value - target;
    high = Math.max(0, high + value - target - allowance);
    low = Math.max(0, low + target - allowance - value);
    const signals = [
      ...(high > interval
        ? [passed('above', `At ${label} the values have been too high for so long that their sum passes the limit.`)]
        : []),
      ...(low > interval ? [passed('below', `At ${label} the values have been too low for so long that their sum passes the limit.`)] : []),
    ];
    return { label, value, deviations, high, low, signals };
  });
  return chartOf(points);
}

/** A job, or a time the step applied; `chance` is its own expected chance to be bad, so that hard houses count less. */
export type JudgedRecord = { label: string; bad: boolean; chance: number };

/** Failures of a period and how many were expected of it (above 0). */
export type JudgedPeriod = { label: string; count: number; expected: number };

export type LikelihoodPoint = {
  label: string;
  /** Log of the likelihood ratio that this point adds; below 0 it speaks for no change. */
  weight: number;
  /** Sum of the weights, never below 0. */
  sum: number;
  signals: Signal[];
};

/**
 * Risk-adjusted sum over single records: tests odds of failure that are `oddsRatio` times the expected ones (above 1: worse,
 * below 1: better); a signal from the limit on. Weight of a bad record log(R / (1 - p + R p)), of a good one log(1 / (1 - p + R p)).
 * S. H. Steiner, R. J. Cook, V. T. Farewell & T. Treasure, "Monitoring surgical performance using risk-adjusted cumulative sum
 * charts", Biostatistics 1 (2000) 441-452.
 * @throws RangeError on a chance not between 0 and 1, an odds ratio that is 1 or not above 0, or a limit not above 0
 */
export function bernoulliCusum(
  records: readonly JudgedRecord[],
  { oddsRatio, limit }: { oddsRatio: number; limit: number },
): CumulativeChart<LikelihoodPoint> {
  requireRatio('oddsRatio', oddsRatio, limit);
  return addUp(records, oddsRatio > 1 ? 'above' : 'below', limit, ({ label, bad, chance }) => {
    requireProbability(`chance of ${label}`, chance);
    return (bad ? Math.log(oddsRatio) : 0) - Math.log(1 - chance + oddsRatio * chance);
  });
}

/**
 * Risk-adjusted sum over periods: tests a rate of failure that is `rateRatio` times the expected one, with the weight
 * count log(R) - (R - 1) expected; a signal from the limit on.
 * J. M. Lucas, "Counted data CUSUM's", Technometrics 27 (1985) 129-144, as a log-likelihood ratio with its own expectation for
 * each period: divided by log(R), the weight is count minus Lucas's reference value.
 * @throws RangeError on a broken count, an expectation not above 0, a rate ratio that is 1 or not above 0, or a limit not above 0
 */
export function poissonCusum(
  periods: readonly JudgedPeriod[],
  { rateRatio, limit }: { rateRatio: number; limit: number },
): CumulativeChart<LikelihoodPoint> {
  requireRatio('rateRatio', rateRatio, limit);
  return addUp(periods, rateRatio > 1 ? 'above' : 'below', limit, ({ label, count, expected }) => {
    requireCount(`count of ${label}`, count);
    requirePositive(`expectation of ${label}`, expected);
    return count * Math.log(rateRatio) - (rateRatio - 1) * expected;
  });
}

function addUp<T extends { label: string }>(
  rows: readonly T[],
  side: Signal['side'],
  limit: number,
  weigh: (row: T) => number,
): CumulativeChart<LikelihoodPoint> {
  let sum = 0;
  const words = side === 'above' ? 'more' : 'fewer';
  const points = rows.map((row) => {
    const weight = weigh(row);
    sum = Math.max(0, sum + weight);
    const sentence = `At ${row.label} so many ${words} failures than expected have come together that the sum reaches the limit.`;
    return { label: row.label, weight, sum, signals: sum >= limit ? [passed(side, sentence)] : [] };
  });
  return chartOf(points);
}

const passed = (side: Signal['side'], sentence: string): Signal => ({ rule: 'sum_beyond_limit', side, sentence });

function chartOf<P extends { signals: Signal[] }>(points: P[]): CumulativeChart<P> {
  const first = points.findIndex(({ signals }) => signals.length > 0);
  return { points, firstSignal: first < 0 ? null : first };
}

function requireRatio(name: string, ratio: number, limit: number): void {
  requirePositive(name, ratio);
  if (ratio === 1) throw new RangeError(`${name} must not be 1`);
  requirePositive('limit', limit);
}

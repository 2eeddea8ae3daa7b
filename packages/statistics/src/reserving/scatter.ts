// How amounts of a triangle scatter around what the chain ladder expects of each period, and how far an exposure method may be off by it.
import { cannot, type Estimate } from '../estimate.ts';
import { normalQuantile } from '../distributions.ts';
import { requirePositive, requireProbability, type ConfidenceInterval } from '../interval.ts';
import { chainLadder } from './chainLadder.ts';
import { readTriangle, type Triangle } from './triangle.ts';

export type Scatter = {
  /** Variance of what comes in one period per unit of what is expected of it; 1 for counts of things that have nothing to do with each other. */
  scatter: number;
  /** Cells less what was fitted. */
  degrees: number;
};

/**
 * Pearson scale of the over-dispersed Poisson model whose fit is the volume-weighted chain ladder:
 * sum of (seen - fitted)^2 / |fitted| over the cells, over cells - (origins + periods - 1), of what came in each period (not in total).
 * A. E. Renshaw & R. J. Verrall, "A stochastic model underlying the chain-ladder technique", British Actuarial Journal 4 (1998)
 * 903-923; P. D. England & R. J. Verrall, "Analytic and bootstrap estimates of prediction errors in claims reserving", Insurance:
 * Mathematics and Economics 25 (1999) 281-293. Cells of which nothing is expected say nothing and are left out with their origin or period.
 * @throws RangeError as readTriangle does
 */
export function poissonScatter(triangle: Triangle): Estimate<Scatter> {
  const ladder = chainLadder(triangle);
  if (!ladder.ok) return ladder;
  const read = readTriangle(triangle);
  if (!read.ok) return read;
  const oldest = ladder.origins[0]!.age;
  const shares = [0, ...Array.from({ length: oldest }, (_, at) => 1 / growth(ladder.factors.slice(at)))];
  let sum = 0;
  let cells = 0;
  const [origins, periods] = [new Set<number>(), new Set<number>()];
  for (const [at, row] of read.rows.entries())
    for (let k = 0; k < row.age; k++) {
      const [before, after] = [k === 0 ? 0 : (row.cells[k - 1] ?? null), row.cells[k] ?? null];
      const fitted = ladder.origins[at]!.ultimate * (shares[k + 1]! - shares[k]!);
      if (before === null || after === null || fitted === 0) continue;
      sum += (after - before - fitted) ** 2 / Math.abs(fitted);
      cells += 1;
      origins.add(at);
      periods.add(k);
    }
  const degrees = cells - (origins.size + periods.size - 1);
  return degrees < 1
    ? cannot('too_few', 'there are no more cells than figures that are fitted to them, so that nothing is left to scatter')
    : { ok: true, scatter: sum / degrees, degrees };
}

const growth = (factors: readonly { factor: number }[]): number => factors.reduce((product, { factor }) => product * factor, 1);

/** One development period of the work that has not come to it yet: the absolute amount expected, and the exposure of that work and of the work seen in it. */
export type PeriodToCome = { toCome: number; exposureToCome: number; exposureSeen: number };

/**
 * Standard error of what is still to come, where each development period has a cost per unit of exposure of its own and amounts
 * scatter with variance `scatter` x expected: the root of scatter x sum of toCome x (1 + exposureToCome / exposureSeen). The first part
 * is chance in what comes. The second is not knowing the cost of each period better: it is the mean over the exposure seen, whose
 * variance is scatter x cost / exposureSeen. With `certain` costs it is left out. By the additive model of T. Mack, "Schadenversicherungsmathematik"
 * (2nd ed. 2002), section 3.2, with variances as in poissonScatter.
 * @throws RangeError when an argument is out of its range, or nothing was seen of a period that something is to come of
 */
export function exposureStandardError(scatter: number, periods: readonly PeriodToCome[], certain = false): number {
  if (!(scatter >= 0)) throw new RangeError(`scatter must be at least 0, got ${scatter}`);
  let sum = 0;
  for (const { toCome, exposureToCome, exposureSeen } of periods) {
    if (!(toCome >= 0) || !(exposureToCome >= 0)) throw new RangeError('what is to come, and its exposure, must be at least 0');
    if (toCome === 0) continue;
    if (!certain) requirePositive('exposureSeen', exposureSeen);
    sum += toCome * (certain ? 1 : 1 + exposureToCome / exposureSeen);
  }
  return Math.sqrt(scatter * sum);
}

/**
 * Limits between which a lognormal amount with this mean and standard error lies in `share` of all cases: half of the rest on either
 * side. T. Mack, "Distribution-free calculation of the standard error of chain ladder reserve estimates", ASTIN Bulletin 23 (1993)
 * 213-225, section 6, for amounts to come, which are skewed and never below 0.
 * @throws RangeError when an argument is out of its range
 */
export function lognormalRange(mean: number, standardError: number, share = 0.8): ConfidenceInterval {
  requirePositive('mean', mean);
  requireProbability('share', share);
  if (!(standardError >= 0)) throw new RangeError(`standardError must be at least 0, got ${standardError}`);
  const variance = Math.log1p((standardError / mean) ** 2);
  const middle = Math.log(mean) - variance / 2;
  const width = normalQuantile((1 + share) / 2) * Math.sqrt(variance);
  return { lower: Math.exp(middle - width), upper: Math.exp(middle + width) };
}

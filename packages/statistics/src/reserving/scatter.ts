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

/**
 * Standard error of what is still to come, when its expected amount comes from a cost per unit of exposure (Cape Cod, or
 * Bornhuetter-Ferguson) and amounts scatter with variance `scatter` x expected: sqrt(scatter x toCome + toCome^2 x scatter / reported).
 * The first part is chance in what comes; the second is not knowing the cost per unit better, whose squared relative error is
 * scatter / reported (delta rule). That the development pattern itself may be wrong is not in it.
 * `toCome`: sum of the absolute expected amounts; `reported`: sum of the amounts that the cost was taken from, above 0, absent where
 * the cost is taken as certain.
 * @throws RangeError when an argument is out of its range
 */
export function exposureStandardError({ scatter, toCome, reported }: { scatter: number; toCome: number; reported?: number }): number {
  if (!(scatter >= 0) || !(toCome >= 0)) throw new RangeError(`scatter and toCome must be at least 0, got ${scatter} and ${toCome}`);
  if (reported === undefined) return Math.sqrt(scatter * toCome);
  requirePositive('reported', reported);
  return Math.sqrt(scatter * toCome + (toCome ** 2 * scatter) / reported);
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

// Confidence intervals of a rate: failures per unit of exposure (per job, or per time the step applied).
import { chiSquareQuantile, normalQuantile } from './distributions.ts';
import { requireCount, requirePositive, requireProbability } from './interval.ts';
import type { ConfidenceInterval } from './interval.ts';

/** Failures counted over an exposure > 0, in jobs or in times the step applied; exposure 1 gives limits of the count itself. */
export type Rate = { count: number; exposure: number };

/**
 * Exact interval of a Poisson rate, in failures per unit of exposure.
 * Garwood, "Fiducial limits for the Poisson distribution", Biometrika 28 (1936) 437-442, in its chi-square quantile form.
 * @throws RangeError on a negative or broken count, or exposure not above 0
 */
export function garwoodInterval(rate: Rate, confidence = 0.95): ConfidenceInterval {
  check(rate, confidence);
  const { count, exposure } = rate;
  const tail = (1 - confidence) / 2;
  return {
    lower: count === 0 ? 0 : chiSquareQuantile(tail, 2 * count) / 2 / exposure,
    upper: chiSquareQuantile(1 - tail, 2 * count + 2) / 2 / exposure,
  };
}

/**
 * Byar's approximation to the exact interval, in failures per unit of exposure; within 1 % of it from about 10 failures on.
 * Breslow & Day, "Statistical Methods in Cancer Research II: The Design and Analysis of Cohort Studies" (1987), section 2.3.
 * @throws RangeError on a negative or broken count, or exposure not above 0
 */
export function byarInterval(rate: Rate, confidence = 0.95): ConfidenceInterval {
  check(rate, confidence);
  const { count, exposure } = rate;
  const z = normalQuantile(1 - (1 - confidence) / 2);
  const limit = (n: number, sign: number): number => n * (1 - 1 / (9 * n) + (sign * z) / (3 * Math.sqrt(n))) ** 3;
  return {
    lower: count === 0 ? 0 : Math.max(0, limit(count, -1)) / exposure,
    upper: limit(count + 1, 1) / exposure,
  };
}

function check({ count, exposure }: Rate, confidence: number): void {
  requireCount('count', count);
  requirePositive('exposure', exposure);
  requireProbability('confidence', confidence);
}

// Limits of a funnel: within which share or rate a unit of a given size stays by chance alone.
import { logBinomialPmf, logPoissonPmf, normalQuantile } from './distributions.ts';
import { requireCount, requirePositive, requireProbability } from './interval.ts';
import type { ConfidenceInterval } from './interval.ts';

export type FunnelLine = {
  /** `binomial`: count of a whole total. `poisson`: count over an exposure, or over the count expected of the unit (target 1). */
  model: 'binomial' | 'poisson';
  /** What is held to be usual: a share between 0 and 1, or a count per exposure above 0. */
  target: number;
  /** Total, exposure or expected count of the unit, above 0. */
  size: number;
};

/**
 * Exact limits in the unit of the target, interpolated between counts: with r the least count whose cumulated probability exceeds
 * p, the limit is (r - a) / size, a = (P(R <= r) - p) / P(R = r). For a small unit the lower one may lie below 0: clip it in the drawing.
 * D. J. Spiegelhalter, "Funnel plots for comparing institutional performance", Statistics in Medicine 24 (2005) 1185-1202, appendix A.1.
 * @throws RangeError on a target, size or confidence out of range
 */
export function funnelLimits(line: FunnelLine, confidence: number): ConfidenceInterval {
  check(line, confidence);
  const tail = (1 - confidence) / 2;
  return { lower: interpolated(line, tail), upper: interpolated(line, 1 - tail) };
}

/**
 * Limits by the normal approximation, target +- z sqrt(variance / size + between), where `between` is the variance between units
 * that is more than chance (0: none), in the squared unit of the target (Spiegelhalter 2005, the additive model).
 * @throws RangeError as funnelLimits does, or on a variance below 0
 */
export function normalFunnelLimits(line: FunnelLine, confidence: number, between = 0): ConfidenceInterval {
  check(line, confidence);
  if (between !== 0) requirePositive('between', between);
  const reach = normalQuantile(1 - (1 - confidence) / 2) * Math.sqrt(chanceVariance(line) + between);
  return { lower: line.target - reach, upper: line.target + reach };
}

/** Variance of the unit's figure by chance alone when the target holds. */
export const chanceVariance = ({ model, target, size }: FunnelLine): number =>
  (model === 'binomial' ? target * (1 - target) : target) / size;

function interpolated({ model, target, size }: FunnelLine, p: number): number {
  const logPmf = (r: number): number => (model === 'binomial' ? logBinomialPmf(r, size, target) : logPoissonPmf(r, target * size));
  let r = 0;
  let term = Math.exp(logPmf(r));
  let sum = term;
  while (sum <= p && !(model === 'binomial' && r === size)) {
    r += 1;
    term = Math.exp(logPmf(r));
    sum += term;
  }
  return (r - (sum - p) / term) / size;
}

function check({ model, target, size }: FunnelLine, confidence: number): void {
  requireProbability('confidence', confidence);
  if (confidence > 0.9999) throw new RangeError(`confidence must be at most 0.9999, got ${confidence}`);
  if (model === 'binomial') requireProbability('target', target);
  requirePositive('target', target);
  requirePositive('size', size);
  if (model === 'binomial') requireCount('size', size);
}

// Did the failure rate change? The exact test of two Poisson rates and the exact interval of their ratio.
import { binomialLowerTail, binomialUpperTail, logBinomialPmf } from './distributions.ts';
import { requireCount, requirePositive, requireProbability } from './interval.ts';
import { clopperPearsonInterval } from './proportions.ts';
import type { Rate } from './rates.ts';

export type RateRatio = {
  /** Rate of the group over rate of the reference; null when the reference had no failure, so that no ratio can be formed. */
  ratio: number | null;
  /** Exact limits of the ratio; `upper` is null when it is unbounded (no failure in the reference). */
  lower: number;
  upper: number | null;
  confidence: number;
  /** Two-sided p: all splits of the failures that are no likelier than the one seen. Compare this one with alpha. */
  pMinimumLikelihood: number;
  /** Two-sided p: twice the smaller tail, at most 1. Agrees with the interval: above 1 - confidence where it holds the null ratio. */
  pDoubling: number;
};

// Ties of splits that are equally likely on paper differ in their last digits; the same margin as R's poisson.test.
const tieMargin = 1e-7;

/**
 * Exact conditional test that group and reference fail at rates in the ratio `nullRatio`: given the total of failures, the
 * group's part is binomial with probability r t1 / (r t1 + t2), where t1, t2 are the exposures (same unit).
 * Przyborowski & Wilenski, "Homogeneity of results in testing samples from Poisson series", Biometrika 31 (1940) 313-323;
 * interval by Clopper & Pearson (1934) on that share. With no failure at all nothing can be told: p 1, limits 0 and none.
 * @throws RangeError on broken counts, exposures not above 0, nullRatio not above 0
 */
export function rateRatioTest(group: Rate, reference: Rate, { nullRatio = 1, confidence = 0.95 } = {}): RateRatio {
  check(group, reference, nullRatio, confidence);
  const total = group.count + reference.count;
  const perExposure = reference.exposure / group.exposure;
  const expected = nullRatio / (nullRatio + perExposure);
  const share = total === 0 ? { lower: 0, upper: 1 } : clopperPearsonInterval({ count: group.count, total }, confidence);
  return {
    ratio: reference.count === 0 ? null : (group.count / reference.count) * perExposure,
    lower: (share.lower / (1 - share.lower)) * perExposure,
    upper: share.upper === 1 ? null : (share.upper / (1 - share.upper)) * perExposure,
    confidence,
    pMinimumLikelihood: minimumLikelihood(group.count, total, expected),
    pDoubling: Math.min(1, 2 * Math.min(binomialLowerTail(group.count, total, expected), binomialUpperTail(group.count, total, expected))),
  };
}

/** The chances rise to the likeliest split and fall behind it: no likelier are those up to one place before and from one place after it. */
function minimumLikelihood(count: number, total: number, expected: number): number {
  const seen = logBinomialPmf(count, total, expected) + Math.log1p(tieMargin);
  const noLikelier = (k: number): boolean => logBinomialPmf(k, total, expected) <= seen;
  const likeliest = Math.min(total, Math.floor((total + 1) * expected));
  if (noLikelier(likeliest)) return 1;
  const before = firstFrom(0, likeliest, (k) => !noLikelier(k)) - 1;
  const after = firstFrom(likeliest, total + 1, noLikelier);
  return Math.min(1, binomialLowerTail(before, total, expected) + (after > total ? 0 : binomialUpperTail(after, total, expected)));
}

/** The first whole number from `low` on for which `is` holds, `high` when none below it does; once it holds it holds on. */
function firstFrom(low: number, high: number, is: (k: number) => boolean): number {
  let [from, to] = [low, high];
  while (from < to) {
    const middle = Math.floor((from + to) / 2);
    if (is(middle)) to = middle;
    else from = middle + 1;
  }
  return from;
}

function check(group: Rate, reference: Rate, nullRatio: number, confidence: number): void {
  requireCount('group count', group.count);
  requireCount('reference count', reference.count);
  requirePositive('group exposure', group.exposure);
  requirePositive('reference exposure', reference.exposure);
  requirePositive('nullRatio', nullRatio);
  requireProbability('confidence', confidence);
}

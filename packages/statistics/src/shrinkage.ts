// Rates of units with few failures each, drawn towards what all have in common by as much as chance may explain.
import { chiSquareQuantile } from './distributions.ts';
import { cannot, type Estimate } from './estimate.ts';
import { requireCount, requirePositive, requireProbability } from './interval.ts';
import type { ConfidenceInterval } from './interval.ts';

/** Failures observed and expected (or any exposure above 0) of a step, person or pair. */
export type ShrinkageUnit = { name: string; observed: number; expected: number };

export type ShrunkUnit = ShrinkageUnit & {
  /** observed / expected. */
  raw: number;
  /** Estimate of the unit's own ratio: between `raw` and the common mean. */
  shrunk: number;
  /** How much of `shrunk` is the unit's own ratio, 0 to 1; the rest is the common mean. */
  ownWeight: number;
} & ConfidenceInterval;

export type Shrinkage = {
  /** Gamma distribution of the ratios among units: mean shape / rate, variance shape / rate^2. */
  shape: number;
  rate: number;
  mean: number;
  /** Of the negative binomial marginal at shape and rate. */
  logLikelihood: number;
  units: ShrunkUnit[];
};

/**
 * Empirical Bayes: observed ~ Poisson(expected x ratio), ratio ~ Gamma(shape, rate); shrunk = (shape + observed) / (rate + expected),
 * with the interval of the posterior gamma distribution, which holds shape and rate for known and so is a little narrow.
 * `likelihood`: D. Clayton & J. Kaldor, "Empirical Bayes estimates of age-standardized relative risks for use in disease mapping",
 * Biometrics 43 (1987) 671-681, shape and rate by marginal maximum likelihood.
 * `moments`: R. J. Marshall, "Mapping disease and mortality rates using empirical Bayes estimators", Applied Statistics 40 (1991) 283-294.
 * @throws RangeError on a broken count, or an expectation not above 0
 */
export function gammaPoissonShrinkage(
  units: readonly ShrinkageUnit[],
  { fit = 'likelihood', credibility = 0.9 }: { fit?: 'likelihood' | 'moments'; credibility?: number } = {},
): Estimate<Shrinkage> {
  requireProbability('credibility', credibility);
  for (const { name, observed, expected } of units) {
    requireCount(`count of ${name}`, observed);
    requirePositive(`expectation of ${name}`, expected);
  }
  if (units.length < 2) return cannot('too_few', 'what units have in common shows only with two or more of them');
  const common = total(units, 'observed') / total(units, 'expected');
  if (common === 0) return cannot('nothing_counted', 'nothing was counted for any unit');
  const found = fit === 'likelihood' ? byLikelihood(units, common) : byMoments(units, common);
  if (!found)
    return cannot(
      'no_extra_scatter',
      'the units scatter no more than chance alone would make them: what all have together is the best estimate of each',
    );
  const { shape, rate } = found;
  const tail = (1 - credibility) / 2;
  return {
    ok: true,
    shape,
    rate,
    mean: shape / rate,
    logLikelihood: marginal(units, shape, rate),
    units: units.map((unit) => posterior(unit, shape, rate, tail)),
  };
}

function posterior(unit: ShrinkageUnit, shape: number, rate: number, tail: number): ShrunkUnit {
  const [a, b] = [shape + unit.observed, rate + unit.expected];
  return {
    ...unit,
    raw: unit.observed / unit.expected,
    shrunk: a / b,
    ownWeight: unit.expected / b,
    lower: chiSquareQuantile(tail, 2 * a) / 2 / b,
    upper: chiSquareQuantile(1 - tail, 2 * a) / 2 / b,
  };
}

type Prior = { shape: number; rate: number };

/** Weighted variance of the ratios less what chance makes of it; null when nothing is left. */
function byMoments(units: readonly ShrinkageUnit[], common: number): Prior | null {
  const exposure = total(units, 'expected');
  const variance = units.reduce((sum, { observed, expected }) => sum + expected * (observed / expected - common) ** 2, 0) / exposure;
  const own = variance - (common * units.length) / exposure;
  return own > 0 ? { shape: common ** 2 / own, rate: common / own } : null;
}

/** Null when the likelihood grows towards no scatter at all: its slope in 1 / shape at 0 has the sign of sum((O - mE)^2 - O). */
function byLikelihood(units: readonly ShrinkageUnit[], common: number): Prior | null {
  const extra = units.reduce((sum, { observed, expected }) => sum + (observed - common * expected) ** 2 - observed, 0);
  if (extra <= 0) return null;
  const profile = (logShape: number): number => marginal(units, Math.exp(logShape), bestRate(units, Math.exp(logShape)));
  const shape = Math.exp(highest(profile, -7, 14));
  return { shape, rate: bestRate(units, shape) };
}

/** Log-likelihood of the counts with the ratios integrated out (negative binomial). */
function marginal(units: readonly ShrinkageUnit[], shape: number, rate: number): number {
  const own = ({ observed, expected }: ShrinkageUnit): number => {
    // log of gamma(shape + n) / gamma(shape) / n!, factor by factor: as a difference of gamma functions it is lost for a large shape.
    let ways = 0;
    for (let n = 0; n < observed; n++) ways += Math.log((shape + n) / (n + 1));
    return ways + observed * Math.log(expected / (rate + expected)) - shape * Math.log1p(expected / rate);
  };
  return units.reduce((sum, unit) => sum + own(unit), 0);
}

/** For a given shape the slope of the likelihood in the rate falls all the way, so halving finds its one root. */
function bestRate(units: readonly ShrinkageUnit[], shape: number): number {
  const slope = (rate: number): number =>
    units.reduce((sum, { observed, expected }) => sum + (shape * expected - observed * rate) / (rate + expected), 0);
  let [low, high] = [-40, 40];
  for (let turn = 0; turn < 60; turn++) {
    const middle = (low + high) / 2;
    if (slope(Math.exp(middle)) > 0) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}

/** Golden section: where a function with one top between two places has it. */
function highest(of: (x: number) => number, from: number, to: number): number {
  const share = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [from, to];
  let [left, right] = [high - share * (high - low), low + share * (high - low)];
  let [atLeft, atRight] = [of(left), of(right)];
  while (high - low > 1e-9) {
    if (atLeft < atRight) {
      [low, left, atLeft] = [left, right, atRight];
      right = low + share * (high - low);
      atRight = of(right);
    } else {
      [high, right, atRight] = [right, left, atLeft];
      left = high - share * (high - low);
      atLeft = of(left);
    }
  }
  return (low + high) / 2;
}

const total = (units: readonly ShrinkageUnit[], key: 'observed' | 'expected'): number => units.reduce((sum, unit) => sum + unit[key], 0);

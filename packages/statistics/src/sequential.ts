// Checks that may be looked at every week: their error rates count every look, not only the last one.
import { logPoissonPmf } from './distributions.ts';
import { requireCount, requirePositive, requireProbability } from './interval.ts';

/** Shares that a sequential test tells apart and the errors that it may make. */
export type WaldTest = {
  /** Share of bad records if nothing changed, 0 to 1. */
  p0: number;
  /** Share of bad records if the change does what is hoped (or feared), 0 to 1, not p0. */
  p1: number;
  /** Chance of deciding for p1 though p0 holds. */
  alpha: number;
  /** Chance of deciding for p0 though p1 holds. */
  beta: number;
};

/** Lines in the plane of records looked at (n) and bad ones among them: decided for p1 beyond one, for p0 beyond the other. */
export type WaldPlan = {
  /** log of the odds ratio, natural logarithm. */
  k: number;
  /** Distance of the line for p0 from the middle, in records that are bad. */
  h1: number;
  /** Distance of the line for p1 from the middle. */
  h2: number;
  /** Bad records per record in the middle: both lines rise by it. */
  slope: number;
};

/**
 * Wald's sequential test of a share. With p1 > p0 the test decides for p1 at bad >= h2 + slope n, for p0 at bad <= -h1 + slope n.
 * A. Wald, "Sequential tests of statistical hypotheses", Ann. Math. Stat. 16 (1945) 117-186; the lines as in NIST/SEMATECH
 * e-Handbook of Statistical Methods, section 6.2.6. Wald's bounds: the true errors are at most alpha / (1 - beta) and beta / (1 - alpha).
 * @throws RangeError when a share or an error is not between 0 and 1, or p0 equals p1
 */
export function waldPlan({ p0, p1, alpha, beta }: WaldTest): WaldPlan {
  for (const [name, value] of Object.entries({ p0, p1, alpha, beta })) requireProbability(name, value);
  if (p0 === p1) throw new RangeError('p0 and p1 must differ');
  const k = Math.log((p1 * (1 - p0)) / (p0 * (1 - p1)));
  return {
    k,
    h1: Math.log((1 - alpha) / beta) / Math.abs(k),
    h2: Math.log((1 - beta) / alpha) / Math.abs(k),
    slope: Math.log((1 - p0) / (1 - p1)) / k,
  };
}

export type SequentialResult = {
  decision: 'p0' | 'p1' | 'go_on';
  /** How many records had been looked at when it was decided; all of them while it goes on. */
  at: number;
  /** Log of the likelihood ratio of p1 over p0 then. */
  logRatio: number;
};

/** Walks the records in their order (true: bad) and stops at the first line that is passed; what comes later changes nothing. */
export function sprt(test: WaldTest, records: readonly boolean[]): SequentialResult {
  const { p0, p1, alpha, beta } = test;
  waldPlan(test);
  const [ifBad, ifGood] = [Math.log(p1 / p0), Math.log((1 - p1) / (1 - p0))];
  const [upper, lower] = [Math.log((1 - beta) / alpha), Math.log(beta / (1 - alpha))];
  let logRatio = 0;
  for (const [at, bad] of records.entries()) {
    logRatio += bad ? ifBad : ifGood;
    if (logRatio >= upper) return { decision: 'p1', at: at + 1, logRatio };
    if (logRatio <= lower) return { decision: 'p0', at: at + 1, logRatio };
  }
  return { decision: 'go_on', at: records.length, logRatio };
}

/**
 * Records until Wald's test decides, on average, while p0 or p1 holds (Wald 1945, neglecting the overshoot).
 * @throws RangeError as waldPlan does
 */
export function sprtMeanLength(test: WaldTest): { underP0: number; underP1: number } {
  waldPlan(test);
  const { p0, p1, alpha, beta } = test;
  const [ifBad, ifGood] = [Math.log(p1 / p0), Math.log((1 - p1) / (1 - p0))];
  const [upper, lower] = [Math.log((1 - beta) / alpha), Math.log(beta / (1 - alpha))];
  return {
    underP0: (alpha * upper + (1 - alpha) * lower) / (p0 * ifBad + (1 - p0) * ifGood),
    underP1: ((1 - beta) * upper + beta * lower) / (p1 * ifBad + (1 - p1) * ifGood),
  };
}

/**
 * Statistic of the maximized sequential test: log of the likelihood ratio of the best rate above the expected one, 0 when no more
 * failures were observed than expected. Kulldorff, Davis, Kolczak, Lewis, Lieu & Platt, "A maximized sequential probability ratio
 * test for drug and vaccine safety surveillance", Sequential Analysis 30 (2011) 58-78.
 * @throws RangeError on a broken count or an expectation not above 0
 */
export function maxSprtStatistic(observed: number, expected: number): number {
  requireCount('observed', observed);
  requirePositive('expected', expected);
  return observed > expected ? expected - observed + observed * Math.log(observed / expected) : 0;
}

/**
 * Value from which on the statistic signals, so that over every look until `most` failures are expected the chance of a false
 * signal is alpha. Exact: between the expectations at which one more failure no longer signals, counts are Poisson; found by
 * halving to 1e-9. Agrees with table 1 of Kulldorff et al. (2011).
 * @throws RangeError when most is not above 0 or above 100, or alpha is not between 0 and 1
 */
export function maxSprtCriticalValue(most: number, alpha = 0.05): number {
  requirePositive('most', most);
  requireProbability('alpha', alpha);
  if (most > 100) throw new RangeError(`most must be at most 100, got ${most}`);
  let [low, high] = [0.01, 30];
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (falseSignal(middle, most) > alpha) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Chance that the statistic reaches `critical` before `most` are expected, when failures come as expected. */
function falseSignal(critical: number, most: number): number {
  // quiet[n]: chance that nothing has signalled and n failures have been seen.
  let quiet = [1];
  let now = 0;
  for (let count = 1; now < most; count++) {
    const next = Math.min(most, signalsUntil(count, critical));
    quiet = Array.from({ length: count }, (_, n) => arrivals(quiet, n, next - now));
    now = next;
  }
  return 1 - quiet.reduce((sum, p) => sum + p, 0);
}

const arrivals = (quiet: readonly number[], n: number, span: number): number => {
  let sum = 0;
  for (let before = 0; before <= Math.min(n, quiet.length - 1); before++) sum += quiet[before]! * Math.exp(logPoissonPmf(n - before, span));
  return sum;
};

/** The largest expectation at which `count` failures still signal. */
function signalsUntil(count: number, critical: number): number {
  let [low, high] = [0, count];
  for (let turn = 0; turn < 80; turn++) {
    const middle = (low + high) / 2;
    if (middle > 0 && middle - count + count * Math.log(count / middle) < critical) high = middle;
    else low = middle;
  }
  return low;
}

// Did the step fail less often after the change? An exact answer, or how long it takes until there can be one.
import { requiredFailures } from '@backsight/statistics/power';
import { rateRatioTest } from '@backsight/statistics/rateRatio';

/** Failures among the times that a step applied. */
export type Counted = { failures: number; times: number };

export type Comparison = {
  verdict: 'fewer' | 'more' | 'too_early';
  /** Rate after over rate before with its exact 95 % limits; null where it cannot be formed or is unbounded. */
  ratio: number | null;
  lower: number | null;
  upper: number | null;
  p: number | null;
  /** Failures in all (before and after) from which on a halving shows with 80 % power at 5 % two-sided; and years until then at the present rate. */
  neededFailures: number;
  yearsToGo: number | null;
  sentence: string;
};

const ALPHA = 0.05;
const HALVING = 0.5;

/** Compares two spans of one step. `years` is how long the step has been applied in all. */
export function compareChange(before: Counted, after: Counted, years: number): Comparison {
  const seen = before.failures + after.failures;
  const share = before.times > 0 && after.times > 0 ? Math.min(0.98, Math.max(0.02, after.times / (before.times + after.times))) : 0.5;
  const neededFailures = requiredFailures({ ratio: HALVING, groupShare: share }).total;
  const perYear = years > 0 ? seen / years : 0;
  const yearsToGo = perYear > 0 ? Math.max(0, neededFailures - seen) / perYear : null;
  const test =
    before.times > 0 && after.times > 0
      ? rateRatioTest({ count: after.failures, exposure: after.times }, { count: before.failures, exposure: before.times })
      : null;
  const told = test !== null && test.pMinimumLikelihood < ALPHA;
  const verdict = !told ? 'too_early' : after.failures / after.times < before.failures / before.times ? 'fewer' : 'more';
  const numbers = {
    ratio: test?.ratio ?? null,
    lower: test?.lower ?? null,
    upper: test?.upper ?? null,
    p: test?.pMinimumLikelihood ?? null,
  };
  return {
    verdict,
    ...numbers,
    neededFailures,
    yearsToGo,
    sentence: sentenceOf(verdict, { before, after, neededFailures, yearsToGo, p: numbers.p }),
  };
}

type Told = { before: Counted; after: Counted; neededFailures: number; yearsToGo: number | null; p: number | null };
const sayP = (p: number): string => (p < 0.001 ? 'p below 0.001' : `p = ${p.toFixed(3)}`);
const failed = (n: number): string => (n === 0 ? 'no failure' : n === 1 ? '1 failure' : `${n} failures`);

function sentenceOf(verdict: Comparison['verdict'], { before, after, neededFailures, yearsToGo, p }: Told): string {
  const counts = `Before the change ${failed(before.failures)} in ${before.times} times the step applied, after it ${failed(after.failures)} in ${after.times}.`;
  if (verdict === 'fewer') return `${counts} Fewer than chance alone would give (${sayP(p!)}).`;
  if (verdict === 'more') return `${counts} More than chance alone would give (${sayP(p!)}): look at the change again.`;
  const wait =
    yearsToGo === null
      ? 'No failure has been seen yet, so nobody can say how long that takes.'
      : `At the present rate that takes about ${yearsText(yearsToGo)}.`;
  return `${counts} Too early to tell: a halving can be told from chance from about ${neededFailures} failures on, before and after together. ${wait}`;
}

const yearsText = (years: number): string =>
  years < 1 ? 'a year or less' : `${Math.round(years)} ${Math.round(years) === 1 ? 'year' : 'years'}`;

// Tables of two by two: so many of so many in one group against so many of so many in another.
import { chiSquareCdf, logHypergeometricPmf, normalQuantile } from './distributions.ts';
import { requireCount, requireProbability } from './interval.ts';

/** Rows: the groups (or outcomes); columns: outcomes (or groups). Whole counts. */
export type Table = readonly [readonly [number, number], readonly [number, number]];

export type FisherResult = {
  /** Two-sided: all tables with the same margins that are no likelier than the one seen. */
  p: number;
  /** One-sided, that the odds ratio is above 1. */
  pGreater: number;
  /** Conditional maximum-likelihood estimate; null where it is unbounded or nothing can be told. */
  oddsRatio: number | null;
  lower: number;
  upper: number | null;
};

// As in R's fisher.test: ties on paper differ in their last digits.
const tieMargin = 1e-7;

/**
 * Exact test of independence in a table, with the exact interval of the odds ratio.
 * R. A. Fisher, "The Design of Experiments" (1935), chapter 2; interval by the tails of Fisher's noncentral hypergeometric distribution.
 * @throws RangeError on a negative or broken count
 */
export function fisherExact(table: Table, confidence = 0.95): FisherResult {
  check(table);
  requireProbability('confidence', confidence);
  const [[a, b], [c, d]] = table;
  const margins = { row: a + b, column: a + c, all: a + b + c + d };
  const [least, most] = [Math.max(0, margins.row + margins.column - margins.all), Math.min(margins.row, margins.column)];
  const weights = Array.from({ length: most - least + 1 }, (_, i) => logHypergeometricPmf(least + i, margins));
  const at = (odds: number): number[] => tilted(weights, odds);
  const central = at(1);
  const seen = central[a - least]! * (1 + tieMargin);
  const upperTail = (odds: number): number => sum(at(odds).slice(a - least));
  const lowerTail = (odds: number): number => sum(at(odds).slice(0, a - least + 1));
  const tail = (1 - confidence) / 2;
  const mean = (odds: number): number => at(odds).reduce((total, p, i) => total + p * (least + i), 0);
  return {
    p: Math.min(1, sum(central.filter((p) => p <= seen))),
    pGreater: Math.min(1, upperTail(1)),
    oddsRatio: a === most ? null : a === least ? 0 : solve(mean, a),
    lower: a === least ? 0 : solve(upperTail, tail),
    upper: a === most ? null : solve((odds) => -lowerTail(odds), -tail),
  };
}

/** Probabilities of the counts when the odds ratio is `odds`. */
function tilted(weights: readonly number[], odds: number): number[] {
  const logs = weights.map((w, i) => w + i * Math.log(odds));
  const top = Math.max(...logs);
  const raw = logs.map((l) => Math.exp(l - top));
  const total = sum(raw);
  return raw.map((p) => p / total);
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** Odds at which a function that grows with them takes a value; halving of their logarithm. */
function solve(grows: (odds: number) => number, wanted: number): number {
  let [low, high] = [-50, 50];
  for (let turn = 0; turn < 100; turn++) {
    const middle = (low + high) / 2;
    if (grows(Math.exp(middle)) < wanted) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}

export type MantelHaenszel = {
  /** Common odds ratio of the strata; null where no stratum can tell. */
  oddsRatio: number | null;
  lower: number | null;
  upper: number | null;
  /** With the correction for continuity of one half. */
  chiSquare: number;
  p: number;
};

/**
 * Compares two groups within strata (for example seasons or kinds of house) and pools what they say.
 * Mantel & Haenszel, J. Natl. Cancer Inst. 22 (1959) 719-748; interval of the logarithm by Robins, Breslow & Greenland,
 * Biometrics 42 (1986) 311-323. With nothing to compare p is 1.
 * @throws RangeError on a negative or broken count
 */
export function mantelHaenszel(strata: readonly Table[], confidence = 0.95): MantelHaenszel {
  for (const table of strata) check(table);
  requireProbability('confidence', confidence);
  const parts = strata.filter(([[a, b], [c, d]]) => a + b + c + d > 1).map(stratum);
  const total = (of: (s: Stratum) => number): number => sum(parts.map(of));
  const [r, s, variance] = [total((x) => x.r), total((x) => x.s), total((x) => x.variance)];
  const difference = Math.abs(total((x) => x.excess));
  const chiSquare = variance === 0 ? 0 : Math.max(0, difference - Math.min(0.5, difference)) ** 2 / variance;
  const p = 1 - chiSquareCdf(chiSquare, 1);
  if (r === 0 || s === 0) return { oddsRatio: null, lower: null, upper: null, chiSquare, p };
  const spread = Math.sqrt(
    total((x) => x.p * x.r) / (2 * r * r) + total((x) => x.p * x.s + x.q * x.r) / (2 * r * s) + total((x) => x.q * x.s) / (2 * s * s),
  );
  const z = normalQuantile(1 - (1 - confidence) / 2);
  const oddsRatio = r / s;
  return { oddsRatio, lower: oddsRatio * Math.exp(-z * spread), upper: oddsRatio * Math.exp(z * spread), chiSquare, p };
}

type Stratum = { r: number; s: number; p: number; q: number; excess: number; variance: number };
function stratum([[a, b], [c, d]]: Table): Stratum {
  const n = a + b + c + d;
  return {
    r: (a * d) / n,
    s: (b * c) / n,
    p: (a + d) / n,
    q: (b + c) / n,
    excess: a - ((a + b) * (a + c)) / n,
    variance: ((a + b) * (c + d) * (a + c) * (b + d)) / (n * n * (n - 1)),
  };
}

function check([[a, b], [c, d]]: Table): void {
  for (const [name, value] of Object.entries({ a, b, c, d })) requireCount(name, value);
}

// Chain ladder: each origin period grows from its age on as the older ones did.
import { cannot, type Estimate, type NotEstimable } from '../estimate.ts';
import { requirePositive } from '../interval.ts';
import { readTriangle, type Row, type Step, type Triangle } from './triangle.ts';

export type DevelopmentFactor = {
  /** Development periods, counted from 1. */
  from: number;
  to: number;
  factor: number;
  /** Origins that it comes from. */
  rows: number;
};

/** Amounts in the unit of the triangle, not rounded. */
export type OriginEstimate = {
  origin: string;
  /** Development periods known. */
  age: number;
  latest: number;
  /** Factor from the latest amount to the ultimate one. */
  factorToUltimate: number;
  ultimate: number;
  /** Ultimate less latest: what is still to be reported or to change. */
  unreported: number;
};

/** Something to know before one trusts the figures, in a plain sentence. */
export type Caution = { code: 'nothing_yet' | 'totals_fell'; sentence: string };

export type ChainLadder = {
  factors: DevelopmentFactor[];
  origins: OriginEstimate[];
  totals: { latest: number; ultimate: number; unreported: number };
  cautions: Caution[];
};

export type Averaging = {
  /** `volume`: sum after over sum before; `simple`: mean of the origins' own factors. */
  average?: 'volume' | 'simple';
  /** Only so many of the youngest origins that show a step; all when absent. */
  latest?: number;
  /** Factor after the last period watched, above 0; 1 when absent. */
  tail?: number;
};

/**
 * Development factors, ultimate and unreported amount by origin period.
 * T. Mack, "Distribution-free calculation of the standard error of chain ladder reserve estimates", ASTIN Bulletin 23 (1993)
 * 213-225 (all-origin volume-weighted factors); other averages as in J. Friedland, "Estimating Unpaid Claims Using Basic
 * Techniques" (2010), chapter 7.
 * @throws RangeError as readTriangle does, or when tail or latest is not above 0
 */
export function chainLadder(triangle: Triangle, averaging: Averaging = {}): Estimate<ChainLadder> {
  const { tail = 1, latest = Infinity } = averaging;
  requirePositive('tail', tail);
  if (!(latest >= 1)) throw new RangeError(`latest must be at least 1, got ${latest}`);
  const read = readTriangle(triangle);
  if (!read.ok) return read;
  const factors: DevelopmentFactor[] = [];
  for (const step of read.steps) {
    const factor = factorOf(step, averaging);
    if (typeof factor !== 'number') return factor;
    factors.push({ from: step.from, to: step.from + 1, factor, rows: Math.min(latest, step.pairs.length) });
  }
  const origins = read.rows.map((row) => project(row, factors, tail));
  const total = (key: 'latest' | 'ultimate' | 'unreported'): number => origins.reduce((sum, origin) => sum + origin[key], 0);
  return {
    ok: true,
    factors,
    origins,
    totals: { latest: total('latest'), ultimate: total('ultimate'), unreported: total('unreported') },
    cautions: cautionsOf(factors, origins),
  };
}

function factorOf({ from, pairs }: Step, { average = 'volume', latest = Infinity }: Averaging): number | NotEstimable {
  const used = pairs.slice(-Math.min(latest, pairs.length));
  const [before, after] = [sum(used.map((pair) => pair.before)), sum(used.map((pair) => pair.after))];
  if (before === 0)
    return cannot(
      'zero_denominator',
      `nothing was known at period ${from} of any origin that goes on from there, so that nothing can be multiplied; longer periods may help`,
    );
  if (after === 0) return cannot('falls_to_nothing', `every origin that had something at period ${from} has nothing at period ${from + 1}`);
  if (average === 'volume') return after / before;
  const empty = used.find((pair) => pair.before === 0);
  if (empty) return cannot('zero_denominator', `${empty.origin} has nothing at period ${from}, so that it has no factor of its own`);
  return sum(used.map((pair) => pair.after / pair.before)) / used.length;
}

function project({ origin, age, latest }: Row, factors: readonly DevelopmentFactor[], tail: number): OriginEstimate {
  const factorToUltimate = factors.slice(age - 1).reduce((product, { factor }) => product * factor, tail);
  const ultimate = latest * factorToUltimate;
  return { origin, age, latest, factorToUltimate, ultimate, unreported: ultimate - latest };
}

function cautionsOf(factors: readonly DevelopmentFactor[], origins: readonly OriginEstimate[]): Caution[] {
  const fell = factors
    .filter(({ factor }) => factor < 1)
    .map(({ from, to }): Caution => ({
      code: 'totals_fell',
      sentence: `From period ${from} to period ${to} totals fell: what was set aside or paid came back.`,
    }));
  const empty = origins
    .filter(({ latest, factorToUltimate }) => latest === 0 && factorToUltimate > 1)
    .map(({ origin }): Caution => ({
      code: 'nothing_yet',
      sentence: `${origin} has nothing yet; this method then expects nothing of it for ever.`,
    }));
  return [...fell, ...empty];
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

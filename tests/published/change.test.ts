// Whether a change helped: tables, several questions at once, checks at every look, and how long it takes until one can tell.
import { describe, expect, it } from 'vitest';
import { binomialLowerTail, binomialUpperTail, logPoissonPmf } from '@backsight/statistics/distributions';
import { benjaminiHochberg } from '@backsight/statistics/multiplicity';
import { requiredExposure } from '@backsight/statistics/power';
import { maxSprtCriticalValue, maxSprtStatistic, sprt, sprtMeanLength, waldPlan } from '@backsight/statistics/sequential';
import { fisherExact, mantelHaenszel } from '@backsight/statistics/tables';
import { admissions, criticalValues, fifteen, fisherTables, plannedExposures, samplingPlan } from './data/change.ts';

const near = (found: number | null, expected: number, relative: number) =>
  expect(Math.abs((found ?? Number.NaN) - expected)).toBeLessThanOrEqual(relative * Math.abs(expected));

describe('a table of two by two', () => {
  it.each(fisherTables)('$name ($source; $status)', ({ table, p, oddsRatio, lower, upper }) => {
    const found = fisherExact(table);
    near(found.p, p, 1e-10);
    near(found.oddsRatio, oddsRatio, 1e-9);
    near(found.lower, lower, 1e-8);
    near(found.upper, upper, 1e-8);
  });
  it('tells nothing where a margin is empty, and refuses what is no count', () => {
    expect(
      fisherExact([
        [0, 0],
        [3, 4],
      ]),
    ).toMatchObject({ p: 1, oddsRatio: null, lower: 0, upper: null });
    expect(
      fisherExact([
        [3, 1],
        [1, 3],
      ]).pGreater,
    ).toBeCloseTo(17 / 70, 12);
    expect(() =>
      fisherExact([
        [-1, 0],
        [3, 4],
      ]),
    ).toThrow(RangeError);
  });
  it(`pools strata: ${admissions.name} (${admissions.source}; ${admissions.status})`, () => {
    const found = mantelHaenszel(admissions.strata);
    near(found.chiSquare, admissions.chiSquare, 1e-9);
    near(found.p, admissions.p, 1e-7);
    near(found.oddsRatio, admissions.oddsRatio, 1e-10);
    near(found.lower, admissions.lower, 1e-8);
    near(found.upper, admissions.upper, 1e-8);
    expect(mantelHaenszel([])).toMatchObject({ oddsRatio: null, p: 1 });
  });
});

describe('several questions at once', () => {
  it(`adjusts in the order given (${fifteen.source}; ${fifteen.status})`, () => {
    const adjusted = benjaminiHochberg(fifteen.given);
    adjusted.forEach((p, at) => expect(p).toBeCloseTo(fifteen.adjusted[at]!, 12));
    expect(adjusted.filter((p) => p <= 0.05)).toHaveLength(4);
    const turned = benjaminiHochberg([...fifteen.given].reverse()).reverse();
    expect(turned).toEqual(adjusted);
    expect(benjaminiHochberg([])).toEqual([]);
    expect(() => benjaminiHochberg([1.1])).toThrow(RangeError);
  });
});

describe('exposure until a change can be told', () => {
  it.each(plannedExposures)('$name ($source; $status)', ({ wanted, group, power }) => {
    const found = requiredExposure(wanted)!;
    near(found.group, group, 1e-3);
    const [before, after] = [wanted.rate * found.reference, wanted.rate * wanted.ratio * found.group];
    expect(powerOf(before, after, found.group / (found.group + found.reference))).toBeCloseTo(power, 3);
  });
  it('is never, when too few failed before; and refuses a rate of nothing', () => {
    expect(requiredExposure({ rate: 4 / 2000, ratio: 0.5, referenceExposure: 2000 })).toBe(null);
    expect(() => requiredExposure({ rate: 0, ratio: 0.5 })).toThrow(RangeError);
  });
});

/** Chance that the exact test tells, summed over both counts: another way than the one that found the exposure. */
function powerOf(before: number, after: number, share: number): number {
  let told = 0;
  const most = (mean: number) => Math.ceil(mean + 9 * Math.sqrt(mean) + 12);
  for (let x = 0; x < most(after); x++)
    for (let y = 0; y < most(before); y++) {
      const chance = Math.exp(logPoissonPmf(x, after) + logPoissonPmf(y, before));
      if (chance < 1e-9 || x + y === 0) continue;
      if (Math.min(binomialLowerTail(x, x + y, share), binomialUpperTail(x, x + y, share)) <= 0.025) told += chance;
    }
  return told;
}

describe('checks at every look', () => {
  it.each(criticalValues)('value of the maximized test $name ($source; $status)', ({ most, value }) => {
    expect(Math.abs(maxSprtCriticalValue(most) - value)).toBeLessThan(2e-6);
  });
  it('has the statistic of the same article: 7 and 5 where 2.5 are expected', () => {
    expect(maxSprtStatistic(7, 2.5)).toBeCloseTo(2.7073359202681067, 9);
    expect(maxSprtStatistic(5, 2.5)).toBeCloseTo(0.9657359027997265, 9);
    expect(maxSprtStatistic(2, 2.5)).toBe(0);
    expect(() => maxSprtStatistic(1, 0)).toThrow(RangeError);
    expect(() => maxSprtCriticalValue(0)).toThrow(RangeError);
  });
  it(`draws Wald's lines (${samplingPlan.source}; ${samplingPlan.status})`, () => {
    const found = waldPlan(samplingPlan.test);
    for (const key of ['h1', 'h2', 'slope', 'k'] as const) expect(found[key]).toBeCloseTo(samplingPlan[key], 9);
    expect(() => waldPlan({ p0: 0.1, p1: 0.1, alpha: 0.05, beta: 0.2 })).toThrow(RangeError);
  });
  it('stops at the first line that is passed, and whatever comes later changes nothing', () => {
    const test = { p0: 0.01, p1: 0.1, alpha: 0.05, beta: 0.1 };
    expect(sprt(test, [true, true, false])).toMatchObject({ decision: 'p1', at: 2 });
    const good = Array.from({ length: 60 }, () => false);
    const stopped = sprt(test, good);
    expect(stopped).toMatchObject({ decision: 'p0', at: 24 });
    expect(sprt(test, [...good, ...good.map(() => true)])).toEqual(stopped);
    expect(sprt(test, [])).toEqual({ decision: 'go_on', at: 0, logRatio: 0 });
  });
  it('errs no oftener than it says, looked at after every record: 20,000 walks drawn with a fixed seed', () => {
    const test = { p0: 0.3, p1: 0.15, alpha: 0.05, beta: 0.2 };
    const random = drawn(20_260_512);
    const walk = (share: number) =>
      sprt(
        test,
        Array.from({ length: 400 }, () => random() < share),
      );
    const walks = 10_000;
    const [underP0, underP1] = [0.3, 0.15].map((share) => Array.from({ length: walks }, () => walk(share)));
    const wrong = underP0!.filter(({ decision }) => decision === 'p1').length / walks;
    const missed = underP1!.filter(({ decision }) => decision === 'p0').length / walks;
    // Three standard errors of a share drawn 10,000 times: 0.0065 and 0.012.
    expect(wrong).toBeLessThanOrEqual(test.alpha + 0.0065);
    expect(missed).toBeLessThanOrEqual(test.beta + 0.012);
    expect(wrong).toBeGreaterThan(0.02);
    const mean = underP1!.reduce((sum, { at }) => sum + at, 0) / walks;
    expect(mean / sprtMeanLength(test).underP1).toBeGreaterThan(0.95);
    expect(mean / sprtMeanLength(test).underP1).toBeLessThan(1.25);
  });
  it('signals falsely in 5 of 100 spans of five expected failures, looked at after every failure (fixed seed)', () => {
    const random = drawn(7);
    const critical = maxSprtCriticalValue(5);
    const spans = 20_000;
    let signals = 0;
    for (let span = 0; span < spans; span++) {
      let expected = -Math.log(1 - random());
      for (let count = 1; expected <= 5; count++) {
        if (maxSprtStatistic(count, expected) >= critical) {
          signals++;
          break;
        }
        expected -= Math.log(1 - random());
      }
    }
    // Three standard errors of 0.05 drawn 20,000 times: 0.0046.
    expect(Math.abs(signals / spans - 0.05)).toBeLessThan(0.0046);
  });
});

/** Numbers from 0 to 1 that are the same in every run (a 32-bit mixer). */
function drawn(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

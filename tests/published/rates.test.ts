// Limits of failure counts and the comparison of two failure rates against published and independently computed values.
import { describe, expect, it } from 'vitest';
import { requiredFailures } from '@backsight/statistics/power';
import { rateRatioTest } from '@backsight/statistics/rateRatio';
import { byarInterval, garwoodInterval } from '@backsight/statistics/rates';
import type { ConfidenceInterval } from '@backsight/statistics/interval';
import { counts, plannedTotals, rateRatios, singleRates } from './data/rates.ts';

const near = (found: number, expected: number, relative: number) =>
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(relative * Math.abs(expected));

function nearLimits(found: ConfidenceInterval, [lower, upper]: [number, number], relative: number) {
  near(found.lower, lower, relative);
  near(found.upper, upper, relative);
}

describe('limits of a count', () => {
  it.each(counts)('$name ($source; $status)', ({ count, table95, exact90, exact95, exact99, byar95 }) => {
    const rate = { count, exposure: 1 };
    nearLimits(garwoodInterval(rate, 0.9), exact90, 1e-7);
    nearLimits(garwoodInterval(rate), exact95, 1e-7);
    nearLimits(garwoodInterval(rate, 0.99), exact99, 1e-7);
    nearLimits(byarInterval(rate), byar95, 1e-7);
    expect(Math.abs(garwoodInterval(rate).upper - table95[1])).toBeLessThan(0.005);
    expect(Math.abs(garwoodInterval(rate).lower - table95[0])).toBeLessThan(0.005);
  });

  it.each(singleRates)('$name, per unit of exposure ($source; $status)', ({ rate, limits }) => {
    nearLimits(garwoodInterval(rate), limits, 1e-7);
  });

  it.each([
    { count: -1, exposure: 10 },
    { count: 1.5, exposure: 10 },
    { count: 1, exposure: 0 },
    { count: 1, exposure: Number.NaN },
  ])('refuses $count failures in $exposure', (rate) => {
    expect(() => garwoodInterval(rate)).toThrow(RangeError);
    expect(() => byarInterval(rate)).toThrow(RangeError);
  });
});

describe('ratio of two rates', () => {
  it.each(rateRatios)('$name ($source; $status)', ({ group, reference, p, ratio, limits }) => {
    const found = rateRatioTest(group, reference);
    expect(Math.abs(found.pMinimumLikelihood / p - 1)).toBeLessThan(1e-7);
    near(found.ratio ?? Number.NaN, ratio, 1e-12);
    nearLimits({ lower: found.lower, upper: found.upper ?? Number.NaN }, limits, 1e-7);
  });

  it('doubling agrees with the interval: p equals alpha when a limit is the null ratio', () => {
    const [group, reference] = [
      { count: 3, exposure: 412 },
      { count: 9, exposure: 398 },
    ];
    const { lower, upper } = rateRatioTest(group, reference);
    expect(rateRatioTest(group, reference, { nullRatio: lower }).pDoubling).toBeCloseTo(0.05, 6);
    expect(rateRatioTest(group, reference, { nullRatio: upper ?? 0 }).pDoubling).toBeCloseTo(0.05, 6);
  });

  it('claims nothing where nothing was counted', () => {
    const nothing = rateRatioTest({ count: 0, exposure: 250 }, { count: 0, exposure: 270 });
    expect(nothing).toMatchObject({ ratio: null, lower: 0, upper: null, pMinimumLikelihood: 1, pDoubling: 1 });
    expect(rateRatioTest({ count: 3, exposure: 250 }, { count: 0, exposure: 270 })).toMatchObject({ ratio: null, upper: null });
  });

  it('refuses an exposure of nothing', () => {
    expect(() => rateRatioTest({ count: 0, exposure: 0 }, { count: 0, exposure: 270 })).toThrow(RangeError);
  });
});

describe('failures needed to tell a change', () => {
  it.each(plannedTotals)('$name ($source; $status)', ({ comparison, total, inReference }) => {
    expect(requiredFailures(comparison)).toEqual({ total, inReference, inGroup: total - inReference });
  });

  it.each([{ ratio: 1 }, { ratio: -1 }, { ratio: 0.5, groupShare: 1 }, { ratio: 0.5, power: 1 }])('refuses %o', (comparison) => {
    expect(() => requiredFailures(comparison)).toThrow(RangeError);
  });
});

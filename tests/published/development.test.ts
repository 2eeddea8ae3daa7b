// From figures as they are stored to the numbers of the page of development: printed triangles, to the last printed digit.
import { describe, expect, it } from 'vitest';
import { development } from '@backsight/domain/liability/development/triangle';
import { exposureStandardError, lognormalRange, poissonScatter } from '@backsight/statistics/reserving/scatter';
import { estimate, type Choice } from '@backsight/usecases/liability/development/estimate';
import { jobsOf, rowsOf } from '../domain/liability/developmentRows.ts';
import { friedland, mackCases, printedByMack } from './data/reserving.ts';

const CENTS = 100;
const dollars = (cents: number): number => Math.round(cents / CENTS);

function outlook(triangle: readonly (readonly number[])[], choice: Choice, jobs: readonly number[] = []) {
  const rows = [...rowsOf(triangle.map((cells) => cells.map((cell) => cell * CENTS))), ...jobsOf(jobs)];
  const asOf = `${2000 + triangle.length}-12-31`;
  const of = development(rows, { grain: 'year', of: 'incurred', asOf });
  const found = estimate(of, { choice });
  if (!found.ok) throw new Error(found.sentence);
  return { of, found };
}

describe('chain ladder of the page', () => {
  it.each([
    ['GenIns', printedByMack.taylorAshe.unreported, printedByMack.taylorAshe.error],
    ['RAA', printedByMack.reinsurance.total, printedByMack.reinsurance.error],
  ])('%s as Mack printed it', (name, unreported, error) => {
    const printed = mackCases.find((one) => one.name === name)!;
    const { of, found } = outlook(printed.triangle, 'chain_ladder');
    expect(of.origins.map(({ cells }) => cells.map(dollars))).toEqual(printed.triangle);
    expect([dollars(found.totals.unreported), dollars(found.totals.standardError!)]).toEqual([unreported, error]);
    expect(found.origins.map((one) => dollars(one.ultimate))).toEqual(printed.ultimate.map(Math.round));
    expect(found.origins.map((one) => dollars(one.standardError!))).toEqual(printed.errors.map(Math.round));
    expect(found.error).toBe('mack');
  });

  it('prints the factors, and errors in percent of what is to come, of Taylor and Ashe', () => {
    const { taylorAshe } = printedByMack;
    const { found } = outlook(mackCases[0]!.triangle, 'chain_ladder');
    expect(found.pattern.factors.map(({ factor }) => Number(factor.toFixed(3)))).toEqual(taylorAshe.factors);
    expect(found.origins.slice(1).map((one) => Math.round((100 * one.standardError!) / one.unreported))).toEqual(taylorAshe.percents);
    expect(Math.round((100 * found.totals.standardError!) / found.totals.unreported)).toBe(taylorAshe.percent);
    // The next diagonal is the latest one times its factor.
    const newest = found.origins.at(-1)!;
    expect(dollars(newest.projected[0]!)).toBe(Math.round(344014 * found.pattern.factors[0]!.factor));
    expect(newest.projected.at(-1)!).toBeCloseTo(newest.ultimate, 4);
  });
});

it(`Cape Cod of the page goes as the printed one, but with factors that are not rounded (${friedland.source})`, () => {
  const { found } = outlook(friedland.reported, 'cape_cod', friedland.premium);
  // The exhibit averages 3 years and rounds; all years and no rounding differ from it by less than 1 in 100.
  expect(found.expectedPer100! / CENTS / 100).toBeCloseTo(friedland.capeCod.ratio, 2);
  const printed = friedland.capeCod.totals.ultimate;
  expect(Math.abs(dollars(found.totals.ultimate) - printed)).toBeLessThan(0.01 * printed);
});

describe('scatter around the chain ladder', () => {
  it('of Taylor and Ashe is 52,601 (England & Verrall, Insurance: Mathematics and Economics 25 (1999) 281-293; value from memory)', () => {
    const { origins, triangle } = mackCases[0]!;
    const found = poissonScatter({ origins, cumulative: triangle });
    expect(found.ok && [Math.round(found.scatter), found.degrees]).toEqual([52601, 36]);
  });

  it('says by hand: 16 seen of 400 jobs, 4 to come of 100', () => {
    // Poisson: variance of what comes is 4; of the rate 16 / 400^2, which 100 jobs make 1.
    const periods = [{ toCome: 4, exposureToCome: 100, exposureSeen: 400 }];
    expect(exposureStandardError(1, periods)).toBeCloseTo(Math.sqrt(4 + (100 ** 2 * 16) / 400 ** 2), 12);
    expect(exposureStandardError(1, periods, true)).toBe(2);
    expect(() => exposureStandardError(1, [{ toCome: 1, exposureToCome: 1, exposureSeen: 0 }])).toThrow(RangeError);
  });

  it('gives lognormal limits with the mean and standard error asked for', () => {
    // By hand: standard error = mean makes variance ln 2 and middle ln(mean) - ln(2) / 2; z(0.9) = 1.2815516.
    const { lower, upper } = lognormalRange(100, 100);
    expect(Math.sqrt(lower * upper)).toBeCloseTo(100 / Math.SQRT2, 9);
    expect(Math.log(upper / lower)).toBeCloseTo(2 * 1.2815515655446004 * Math.sqrt(Math.log(2)), 8);
    const narrow = lognormalRange(100, 0);
    expect([narrow.lower, narrow.upper]).toEqual([expect.closeTo(100, 9), expect.closeTo(100, 9)]);
  });
});

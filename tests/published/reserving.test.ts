// Chain ladder, Mack's standard error, Bornhuetter-Ferguson and Cape Cod against printed triangles.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Estimate } from '@backsight/statistics/estimate';
import { bornhuetterFerguson } from '@backsight/statistics/reserving/bornhuetterFerguson';
import { capeCod } from '@backsight/statistics/reserving/capeCod';
import { chainLadder } from '@backsight/statistics/reserving/chainLadder';
import { mackStandardError, type Mack } from '@backsight/statistics/reserving/mack';
import { friedland, mackCases, printedByMack } from './data/reserving.ts';

function found<T>(estimate: Estimate<T>): T {
  if (!estimate.ok) throw new Error(estimate.sentence);
  return estimate;
}

const nearRelative = (value: number, expected: number) => expect(Math.abs(value - expected)).toBeLessThanOrEqual(1e-9 * Math.abs(expected));
const allNear = (values: readonly number[], expected: readonly number[]) => {
  expect(values).toHaveLength(expected.length);
  values.forEach((value, at) => nearRelative(value, expected[at]!));
};
const withinOne = (values: readonly number[], expected: readonly number[]) =>
  values.forEach((value, at) => expect(Math.abs(value - expected[at]!)).toBeLessThanOrEqual(1));
const mackOf = (name: string) => {
  const { origins, triangle } = mackCases.find((each) => each.name === name)!;
  return found(mackStandardError({ origins, cumulative: triangle }));
};

describe('chain ladder with its standard error', () => {
  it.each(mackCases)('$name ($source; $status)', (printed) => {
    const { factors, origins, total } = found(mackStandardError({ origins: printed.origins, cumulative: printed.triangle }));
    const of = <K extends keyof (typeof origins)[number]>(key: K) => origins.map((origin) => origin[key]);
    allNear(
      factors.map(({ factor }) => factor),
      printed.factors,
    );
    allNear(
      factors.map(({ sigma }) => sigma),
      printed.sigma,
    );
    allNear(
      factors.map(({ standardError }) => standardError),
      printed.factorErrors,
    );
    allNear(of('ultimate'), printed.ultimate);
    // An unreported amount is a difference of larger ones: what is lost is a last digit of those.
    of('unreported').forEach((value, at) => expect(Math.abs(value - printed.unreported[at]!)).toBeLessThan(1e-9 * printed.ultimate[at]!));
    allNear(of('standardError'), printed.errors);
    allNear(of('process'), printed.process);
    allNear(of('parameter'), printed.parameter);
    expect(total.latest).toBe(printed.totals.latest);
    nearRelative(total.ultimate, printed.totals.ultimate);
    nearRelative(total.unreported, printed.totals.unreported);
    nearRelative(total.standardError, printed.totals.error);
    nearRelative(total.coefficientOfVariation ?? 0, printed.totals.variation);
  });

  it('as Mack printed them, rounded', () => {
    const { taylorAshe, reinsurance } = printedByMack;
    const genIns = mackOf('GenIns');
    expect(genIns.factors.map(({ factor }) => Number(factor.toFixed(3)))).toEqual(taylorAshe.factors);
    expect(Math.round(genIns.total.unreported)).toBe(taylorAshe.unreported);
    expect(Math.round(genIns.total.standardError)).toBe(taylorAshe.error);
    const percent = (part: number | null) => Math.round(100 * (part ?? 0));
    expect(genIns.origins.slice(1).map((origin) => percent(origin.coefficientOfVariation))).toEqual(taylorAshe.percents);
    expect(percent(genIns.total.coefficientOfVariation)).toBe(taylorAshe.percent);
    const raa = mackOf('RAA');
    expect(raa.origins.map(({ unreported }) => Math.round(unreported))).toEqual(reinsurance.unreported);
    expect(raa.origins.map(({ standardError }) => Math.round(standardError))).toEqual(reinsurance.errors);
    expect(Math.round(raa.total.unreported)).toBe(reinsurance.total);
    expect(Math.round(raa.total.standardError)).toBe(reinsurance.error);
  });

  it('a square with what is still to come as null is the same triangle', () => {
    const { origins, triangle } = mackCases[2]!;
    const square = triangle.map((row) => [...row, ...Array.from({ length: triangle.length - row.length }, () => null)]);
    expect(mackStandardError({ origins, cumulative: square })).toEqual(mackStandardError({ origins, cumulative: triangle }));
  });

  it('reads what was never kept, and several origins of the same age', () => {
    const ragged = {
      origins: ['Q1', 'Q2', 'Q3', 'Q4'],
      cumulative: [[null, 150, 180], [100, 160, 176], [200, 260], [50]],
    };
    const { factors, origins } = found(chainLadder(ragged));
    expect(factors.map(({ factor, rows }) => [factor, rows])).toEqual([
      [420 / 300, 2],
      [356 / 310, 2],
    ]);
    expect(origins.map(({ age }) => age)).toEqual([3, 3, 2, 1]);
    expect(origins[3]?.ultimate).toBeCloseTo(50 * 1.4 * (356 / 310), 10);
    // Two origins show each step, so no rule for the last one is needed; the closed formulas of Mack (1993) are another way.
    const mack = found(mackStandardError(ragged));
    expect(mack.total.standardError).toBeCloseTo(closedForm(mack, [300, 310]), 8);
  });

  it('warns of totals that fell and of origins with nothing yet', () => {
    const { cautions, origins } = found(chainLadder({ origins: ['May', 'June', 'July'], cumulative: [[10, 30, 24], [12, 40], [0]] }));
    expect(cautions.map(({ code }) => code)).toEqual(['totals_fell', 'nothing_yet']);
    expect(cautions[1]?.sentence).toContain('July');
    expect(origins[1]?.unreported).toBeCloseTo(-8, 10);
    expect(origins[2]?.ultimate).toBe(0);
  });
});

/** Total standard error by theorem 3 and its corollary of Mack (1993); `sums` are the amounts that each factor was taken from. */
function closedForm({ factors, origins: each }: Mack, sums: readonly number[]): number {
  const shared = (age: number): number =>
    factors.slice(age - 1).reduce((sum, { factor, sigma, from }) => sum + sigma ** 2 / factor ** 2 / sums[from - 1]!, 0);
  const own = ({ age, latest }: Mack['origins'][number]): number => {
    let [amount, sum] = [latest, 0];
    for (const { factor, sigma } of factors.slice(age - 1)) {
      sum += sigma ** 2 / factor ** 2 / amount;
      amount *= factor;
    }
    return sum;
  };
  const squares = each.map((origin, at) => {
    const later = each
      .slice(at + 1)
      .reduce((sum, other) => sum + 2 * origin.ultimate * other.ultimate * shared(Math.max(origin.age, other.age)), 0);
    return origin.ultimate ** 2 * (own(origin) + shared(origin.age)) + later;
  });
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0));
}

const origins = ['2023', '2024', '2025', '2026'];
const upTo = (count: number) => origins.slice(0, count);

describe('a triangle that is too little', () => {
  it.each([
    ['one_row', { origins: upTo(1), cumulative: [[1, 2]] }],
    ['one_row', { origins: [], cumulative: [] }],
    ['one_period', { origins: upTo(2), cumulative: [[1], [2]] }],
    ['empty_row', { origins: upTo(2), cumulative: [[1, 2], []] }],
    ['future_period', { origins: upTo(3), cumulative: [[1, 2, 3], [1], [1, 2]] }],
    ['below_zero', { origins: upTo(2), cumulative: [[1, -2], [1]] }],
    ['zero_denominator', { origins: upTo(3), cumulative: [[0, 2, 3], [0, 1], [0]] }],
    ['zero_denominator', { origins: upTo(2), cumulative: [[0, 0], [0]] }],
    ['falls_to_nothing', { origins: upTo(2), cumulative: [[5, 0], [1]] }],
    ['one_row_for_factor', { origins: upTo(3), cumulative: [[1, null, 3], [1, 2], [1]] }],
  ])('%s', (code, triangle) => {
    const sentence = expect.stringMatching(/^Cannot be estimated because .+[^.]\.$/);
    expect(chainLadder(triangle)).toMatchObject({ ok: false, code, sentence });
    expect(mackStandardError(triangle)).toMatchObject({ ok: false, code, sentence });
  });

  it.each([
    ['too_few_periods', { origins: upTo(3), cumulative: [[1, 2, 3], [1, 3], [1]] }],
    ['one_row_for_factor', { origins: upTo(4), cumulative: [[1, 2, 3, 4], [1, 3], [1, 2], [1]] }],
    ['grows_from_nothing', { origins: upTo(4), cumulative: [[1, 2, 3, 4], [0, 3, 4], [1, 2], [1]] }],
  ])('has factors but no standard error: %s', (code, triangle) => {
    expect(chainLadder(triangle).ok).toBe(true);
    expect(mackStandardError(triangle)).toMatchObject({ ok: false, code });
  });

  it('whatever the triangle, there are figures or a sentence, never a figure that is none', () => {
    const cell = fc.option(fc.oneof(fc.constant(0), fc.integer({ min: -2, max: 900 })), { freq: 9 });
    fc.assert(
      fc.property(fc.array(fc.array(cell, { maxLength: 5 }), { maxLength: 5 }), (rows) => {
        // As a rule older origins know more.
        const cumulative = rows.toSorted((a, b) => b.length - a.length);
        const triangle = { origins: cumulative.map((_, at) => `${at}`), cumulative };
        for (const answer of [chainLadder(triangle), chainLadder(triangle, { average: 'simple' }), mackStandardError(triangle)]) {
          // JSON writes NaN and infinity as null; the one figure that may be null is left out.
          const figures = JSON.stringify(answer, (key, value: unknown) => (key === 'coefficientOfVariation' ? 0 : value));
          expect(figures).not.toContain('null');
        }
      }),
    );
  });

  it('an origin that stays at nothing says nothing of the scatter', () => {
    const rows = [[10, 30, 40, 44], [20, 50, 66], [12, 40], [9]];
    const [with0, without] = [[[0, 0, 0, 0], ...rows], rows].map((cumulative) =>
      found(mackStandardError({ origins: cumulative.map((_, at) => `${at}`), cumulative })),
    );
    expect(with0?.factors.map(({ sigma }) => sigma)).toEqual(without?.factors.map(({ sigma }) => sigma));
  });

  it.each([
    ['more origins than rows', () => chainLadder({ origins: upTo(2), cumulative: [[1, 2]] })],
    ['no amount', () => chainLadder({ origins: upTo(2), cumulative: [[1, Number.NaN], [1]] })],
    ['a tail of 0', () => chainLadder({ origins: upTo(2), cumulative: [[1, 2], [1]] }, { tail: 0 })],
    ['none of the origins', () => chainLadder({ origins: upTo(2), cumulative: [[1, 2], [1]] }, { latest: 0 })],
  ])('refuses what is no triangle: %s', (_, broken) => {
    expect(broken).toThrow(RangeError);
  });
});

describe(`costs by exposure, ${friedland.source} (${friedland.status})`, () => {
  const rounded = (value: number) => Number(value.toFixed(3));
  const cases = [
    ['reported', friedland.reported, 1, friedland.factorsReported, friedland.toUltimateReported, friedland.ultimateReported] as const,
    ['paid', friedland.paid, 1.002, friedland.factorsPaid, friedland.toUltimatePaid, friedland.ultimatePaid] as const,
  ];

  it.each(cases)(
    'simple averages of three years and Bornhuetter-Ferguson, %s',
    (name, cumulative, tail, printed, toUltimate, ultimates) => {
      const { factors, origins: ripened } = found(
        chainLadder({ origins: friedland.origins, cumulative }, { average: 'simple', latest: 3, tail }),
      );
      expect(factors.map(({ factor }) => rounded(factor))).toEqual(printed);
      const cumulated = ripened.map(({ age }) => rounded(printed.slice(age - 1).reduce((product, factor) => product * factor, tail)));
      expect(cumulated).toEqual(toUltimate);
      const { origins: estimated, totals } = bornhuetterFerguson(
        ripened.map(({ origin, latest }, at) => ({ origin, latest, exposure: friedland.expected[at]!, factorToUltimate: toUltimate[at]! })),
        1,
      );
      withinOne(
        estimated.map(({ ultimate }) => ultimate),
        ultimates,
      );
      withinOne([totals.ultimate], [friedland.totals[name]]);
      const reported = friedland.reported.reduce((sum, row) => sum + row.at(-1)!, 0);
      withinOne([totals.ultimate - reported], [name === 'reported' ? friedland.totals.unreported : friedland.totals.unpaid]);
    },
  );

  it('Cape Cod', () => {
    const found10 = found(
      capeCod(
        friedland.origins.map((origin, at) => ({
          origin,
          latest: friedland.reported[at]!.at(-1)!,
          exposure: friedland.premium[at]!,
          factorToUltimate: friedland.toUltimateReported[at]!,
        })),
      ),
    );
    nearRelative(found10.costPerExposure, friedland.capeCod.ratio);
    withinOne(
      found10.usedUp.map(({ exposure }) => exposure),
      friedland.capeCod.usedUp,
    );
    found10.usedUp.forEach(({ costPerExposure }, at) => expect(costPerExposure).toBeCloseTo(friedland.capeCod.ratios[at]!, 6));
    withinOne(
      found10.origins.map(({ unreported }) => unreported),
      friedland.capeCod.unreported,
    );
    withinOne(
      found10.origins.map(({ ultimate }) => ultimate),
      friedland.capeCod.ultimate,
    );
    withinOne(
      [found10.totals.ultimate, found10.totals.unreported],
      [friedland.capeCod.totals.ultimate, friedland.capeCod.totals.unreported],
    );
  });

  it('one year of 1,000 at 0.65, half of it reported (Friedland study notes 9, example A, battleacts5.ca 2023; inputs found, result computed)', () => {
    const { origins: years } = bornhuetterFerguson([{ origin: '2023', latest: 375, exposure: 1000, factorToUltimate: 2 }], 0.65);
    expect(years[0]).toMatchObject({ expected: 650, shareToCome: 0.5, unreported: 325, ultimate: 700 });
  });

  it('hundreds of jobs: a month without anything reported still expects something', () => {
    const months = [
      { origin: 'May', latest: 90_000, exposure: 1.2, factorToUltimate: 1.25 },
      { origin: 'June', latest: 0, exposure: 0.8, factorToUltimate: 4 },
      { origin: 'July', latest: 0, exposure: 0, factorToUltimate: 9 },
    ];
    const { costPerExposure, origins: estimated, usedUp } = found(capeCod(months));
    expect(costPerExposure).toBeCloseTo(90_000 / (0.96 + 0.2), 8);
    expect(estimated[1]?.ultimate).toBeCloseTo(costPerExposure * 0.8 * 0.75, 8);
    expect(usedUp[2]).toEqual({ origin: 'July', exposure: 0, costPerExposure: null });
  });

  const month = { origin: 'May', latest: 10, exposure: 1, factorToUltimate: 2 };
  it.each([
    ['no_exposure', capeCod([])],
    ['no_exposure', capeCod([{ ...month, exposure: 0 }])],
    ['nothing_counted', capeCod([{ ...month, latest: 0 }])],
    ['below_zero', capeCod([{ ...month, latest: -5 }])],
  ])('says in a sentence why it cannot: %s', (code, refused) => {
    expect(refused).toMatchObject({ ok: false, code, sentence: expect.stringMatching(/^Cannot be estimated because .+\.$/) });
  });

  it.each([{ latest: Number.NaN }, { exposure: -1 }, { factorToUltimate: 0 }, { factorToUltimate: Infinity }])('refuses %o', (broken) => {
    expect(() => capeCod([{ ...month, ...broken }])).toThrow(RangeError);
    expect(() => bornhuetterFerguson([{ ...month, ...broken }], 1)).toThrow(RangeError);
    expect(() => bornhuetterFerguson([month], -1)).toThrow(RangeError);
  });
});

// Indirect standardization against worked examples.
import { describe, expect, it } from 'vitest';
import { byPerson, expectations, stratumRates, type Cell } from '@backsight/domain/liability/people/expected';

/** Event and person-years by age: the standard, then those who are compared with it. */
const ages = ['00-04', '05-14', '15-24', '25-34', '35-44', '45-54', '55-64', '65-74', '75-84', '85+'];
const STANDARD = [
  ...[
    [0, 19_175_798],
    [1, 41_077_577],
    [41, 39_183_891],
    [186, 39_892_024],
    [626, 45_148_527],
  ],
  ...[
    [1199, 37_677_952],
    [1303, 24_274_684],
    [1637, 18_390_986],
    [1624, 12_361_180],
    [803, 4_239_587],
  ],
];
const FLORIDA = [
  ...[
    [0, 953_785],
    [0, 1_997_935],
    [4, 1_885_014],
    [14, 1_957_573],
    [43, 2_356_649],
  ],
  ...[
    [72, 2_088_000],
    [70, 1_548_371],
    [126, 1_447_432],
    [136, 1_087_524],
    [73, 335_944],
  ],
];
const cells = (unit: string, rows: readonly (readonly number[])[], strata = ages): Cell[] =>
  rows.map(([callbacks, jobs], at) => ({ unit, stratum: strata[at]!, callbacks: callbacks!, jobs: jobs! }));

describe('indirect standardization', () => {
  it('gives the expected deaths and the ratio of skin cancer in Florida, 2000', () => {
    // SAS/STAT 14.2 User's Guide, "The STDRATE Procedure: Getting Started" (data found; 538, 528.726 and 1.0175 from memory).
    const [florida] = expectations(cells('FL', FLORIDA), stratumRates(cells('US', STANDARD)));
    expect(florida!.observed).toBe(538);
    expect(florida!.expected).toBeCloseTo(528.726, 3);
    expect(florida!.observed / florida!.expected).toBeCloseTo(1.0175, 4);
  });
  it('gives 13,120 expected deaths of a worked example by hand', () => {
    // "Epi 101: Indirect Age Adjustment by Hand and in R" (2019), epidemiologist.blog: 2,550 died where 13,120 were expected.
    const strata = ['0-15', '16-35', '36-55', '56-75', 'over 75'];
    const standard = [
      [200, 20_000],
      [1500, 30_000],
      [2450, 35_000],
      [3700, 37_000],
      [4200, 28_000],
    ];
    const own = [
      [2550, 15_000],
      [0, 20_000],
      [0, 21_000],
      [0, 30_000],
      [0, 50_000],
    ];
    const [found] = expectations(cells('own', own, strata), stratumRates(cells('standard', standard, strata)));
    expect(found).toMatchObject({ observed: 2550, jobs: 136_000 });
    expect(found!.expected).toBeCloseTo(13_120, 9);
  });
  it('expects as much as was observed where the standard is all of the units together', () => {
    const all = [...cells('FL', FLORIDA), ...cells('rest', STANDARD)];
    const found = expectations(all, stratumRates(all));
    const sum = (key: 'observed' | 'expected'): number => found.reduce((total, one) => total + one[key], 0);
    expect(sum('expected')).toBeCloseTo(sum('observed'), 9);
  });
});

it('tells a pair’s cells once for each of the two', () => {
  const cell = { stratum: 's', jobs: 3, callbacks: 1 };
  expect(
    byPerson([
      { ...cell, unit: 'a+b' },
      { ...cell, unit: '' },
    ]),
  ).toEqual([
    { ...cell, unit: 'a' },
    { ...cell, unit: 'b' },
  ]);
});

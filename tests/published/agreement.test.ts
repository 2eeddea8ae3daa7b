// Agreement of two and the estimate from two looks against worked examples of the literature.
import { describe, expect, it } from 'vitest';
import { chapmanEstimate, chapmanInterval, type TwoLooks } from '@backsight/statistics/captureRecapture';
import { cohenKappa, kappaInterval, pooledKappa, type AgreementTable } from '@backsight/statistics/kappa';

type KappaCase = { name: string; table: number[][]; kappa: number; to: number; observed: number; byChance: number; standardError?: number };

const KAPPAS: KappaCase[] = [
  {
    name: 'two pathologists, 18 cases, table 2 of pmc.ncbi.nlm.nih.gov/articles/PMC2648993: .906, standard error .092 without the null hypothesis',
    table: [
      [7, 1, 0],
      [0, 8, 0],
      [0, 0, 2],
    ],
    kappa: 0.906,
    to: 0.0005,
    observed: 17 / 18,
    byChance: (8 * 7 + 8 * 9 + 2 * 2) / 18 ** 2,
    standardError: 0.092,
  },
  {
    name: 'two physicians, 20 patients, worked at easycalculation.com/statistics/learn-cohens-kappa-index.php: .7 observed, .62 by chance, .21',
    table: [
      [12, 2],
      [4, 2],
    ],
    kappa: 0.21,
    to: 0.005,
    observed: 0.7,
    byChance: 0.62,
  },
  {
    name: 'Fleiss, Statistical Methods for Rates and Proportions, 2nd ed. (1981), section 13.1: 100 diagnoses, .68, standard error .087 (from memory)',
    table: [
      [75, 1, 4],
      [5, 4, 1],
      [0, 0, 10],
    ],
    kappa: 0.68,
    to: 0.005,
    observed: 0.89,
    byChance: 0.66,
    standardError: 0.087,
  },
];

describe('kappa', () => {
  it.each(KAPPAS)('$name', ({ table, kappa, to, observed, byChance, standardError }) => {
    const found = cohenKappa(table);
    expect(Math.abs(found.kappa! - kappa)).toBeLessThanOrEqual(to);
    expect(found.observed).toBeCloseTo(observed, 9);
    expect(found.byChance).toBeCloseTo(byChance, 9);
    if (standardError !== undefined) expect(Math.abs(found.standardError! - standardError)).toBeLessThan(0.001); // the book goes on with .68
    const interval = kappaInterval(found)!;
    expect(interval.lower).toBeLessThan(kappa);
    expect(interval.upper).toBeGreaterThan(kappa);
  });
  it('is 1 when the two always agree, about 0 by chance, below 0 when they disagree, and none where only one answer was given', () => {
    const of = (table: AgreementTable) => cohenKappa(table).kappa;
    expect(
      of([
        [5, 0],
        [0, 5],
      ]),
    ).toBe(1);
    expect(
      of([
        [4, 4],
        [4, 4],
      ]),
    ).toBe(0);
    expect(
      of([
        [0, 5],
        [5, 0],
      ]),
    ).toBe(-1);
    expect(
      of([
        [9, 0],
        [0, 0],
      ]),
    ).toBeNull();
  });
  it('pooled over questions weighs each by how often it was asked', () => {
    const one: AgreementTable = [
      [88, 14, 18],
      [10, 40, 10],
      [2, 6, 12],
    ];
    expect(pooledKappa([one])!.kappa).toBeCloseTo(cohenKappa(one).kappa!, 12);
    // observed (200 x .7 + 10 x 1) / 210 = 150 / 210, by chance (200 x .41 + 10 x .5) / 210 = 87 / 210
    expect(
      pooledKappa([
        one,
        [
          [5, 0],
          [0, 5],
        ],
      ])!.kappa,
    ).toBeCloseTo((150 - 87) / (210 - 87), 12);
    expect(pooledKappa([])).toBeNull();
  });
  it.each<[string, AgreementTable]>([
    ['no square', [[1, 2]]],
    ['no counts', [[0.5]]],
    [
      'nothing in it',
      [
        [0, 0],
        [0, 0],
      ],
    ],
  ])('refuses a table: %s', (_, table) => expect(() => cohenKappa(table)).toThrow(RangeError));
});

describe('two looks', () => {
  it('rabbits of Skalski et al. (1983), worked at sites.google.com/site/wild8390 (Lincoln-Petersen model): coefficient of variation .21, interval 93.8 to 234.2', () => {
    const found = chapmanEstimate({ first: 87, second: 14, both: 7 });
    expect(found.total).toBeCloseTo(164, 9);
    expect(found.variance).toBeCloseTo(1283.33, 2);
    expect([found.seen, found.missed]).toEqual([94, 70]);
    const { lower, upper } = chapmanInterval(found);
    expect(lower).toBeCloseTo(94, 9); // 93.8 in the source, but 94 were seen
    expect(found.total - (upper - found.total)).toBeCloseTo(93.8, 1);
    expect(upper).toBeCloseTo(234.2, 1);
    expect(Math.sqrt(found.variance) / found.total).toBeCloseTo(0.218, 3); // printed as .21
  });
  it('100 trout and 100 trout with 10 of them twice, worked at rstudio-pubs-static.s3.amazonaws.com/429479: 926', () =>
    expect(Math.round(chapmanEstimate({ first: 100, second: 100, both: 10 }).total)).toBe(926));
  it.each<[string, TwoLooks, number]>([
    ['both saw all of it', { first: 6, second: 6, both: 6 }, 6],
    ['nobody saw anything', { first: 0, second: 0, both: 0 }, 0],
    ['nothing seen by both still gives a number', { first: 3, second: 3, both: 0 }, 15],
  ])('%s', (_, looks, total) => expect(chapmanEstimate(looks).total).toBeCloseTo(total, 12));
  it('refuses counts that cannot be', () => {
    for (const looks of [
      { first: 2, second: 5, both: 3 },
      { first: -1, second: 0, both: 0 },
      { first: 1.5, second: 2, both: 1 },
    ])
      expect(() => chapmanEstimate(looks)).toThrow(RangeError);
  });
});

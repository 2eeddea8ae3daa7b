// Tables of two by two, several questions at once, and sequential checks.
import type { Table } from '@backsight/statistics/tables';
import type { PublishedCase } from './publishedCase.ts';

const tea = 'R. A. Fisher, The Design of Experiments (1935), chapter 2, the tasting of tea';
/** R's own interval and odds ratio stop at a tolerance of about 1e-4 and 1e-2, so the digits are scipy's. */
export const fisherTables: (PublishedCase & { table: Table; p: number; oddsRatio: number; lower: number; upper: number })[] = [
  {
    name: 'tasting of tea',
    source: tea, status: 'p by R 4.2.2 fisher.test, odds ratio by scipy 1.17.1',
    table: [[3, 1], [1, 3]], p: 0.4857142857143, oddsRatio: 6.408319658199662, lower: 0.21173559544657966, upper: 626.2435305888141,
  },
  {
    name: 'one of twelve against nine of twelve',
    source: 'computed reference', status: 'p by R 4.2.2 fisher.test, odds ratio by scipy 1.17.1',
    table: [[1, 11], [9, 3]], p: 0.00275945618522, oddsRatio: 0.037209084832381056, lower: 0.0006360029488741693, upper: 0.4258664756963734,
  },
];

export const admissions = {
  name: 'admissions of Berkeley, six departments',
  source: 'Bickel, Hammel & O\'Connell, Science 187 (1975) 398-403; R dataset UCBAdmissions',
  status: 'computed with R 4.2.2 mantelhaen.test',
  strata: [
    [[512, 89], [313, 19]], [[353, 17], [207, 8]], [[120, 202], [205, 391]],
    [[138, 131], [279, 244]], [[53, 94], [138, 299]], [[22, 24], [351, 317]],
  ] as Table[],
  chiSquare: 1.42694622858669, p: 0.232263462817, oddsRatio: 0.904696828258623,
  lower: 0.77190736175935, upper: 1.06032976443666,
};

export const fifteen = {
  source: 'Benjamini & Hochberg, J. R. Stat. Soc. B 57 (1995) 289-300, section 4, fifteen p-values',
  status: 'adjusted by R 4.2.2 p.adjust',
  given: [0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719, 0.6528, 0.759, 1],
  adjusted: [
    0.0015, 0.003, 0.0095, 0.035625, 0.0603, 0.0638571428571429, 0.0638571428571429, 0.0645, 0.0765, 0.486, 0.5811818181818181,
    0.7148749999999999, 0.7532307692307693, 0.8132142857142857, 1,
  ],
};

const kulldorff = 'Kulldorff et al., Sequential Analysis 30 (2011) 58-78, table 1';
export const criticalValues: (PublishedCase & { most: number; value: number })[] = [
  [0.5, 2.637928], [1, 2.853937], [1.5, 2.964971], [2, 3.046977], [2.5, 3.110419], [3, 3.162106], [4, 3.245004], [5, 3.297183],
  [6, 3.342729], [8, 3.413782], [10, 3.467952], [12, 3.511749], [15, 3.562591], [20, 3.628123],
].map(([most, value]) => ({ name: `until ${most} are expected`, source: kulldorff, status: 'found', most: most!, value: value! }));

/** Plan printed with logarithms of base 10, of which only the quotients matter. */
export const samplingPlan = {
  source: 'NIST/SEMATECH e-Handbook of Statistical Methods, section 6.2.6',
  status: 'from memory, recomputed with R 4.2.2',
  test: { p0: 0.01, p1: 0.1, alpha: 0.05, beta: 0.1 },
  h1: 0.9388616025666595, h2: 1.2053786463005405, slope: 0.0397474322108725, k: 1.041392685158225 * Math.LN10,
};

const exact = 'Przyborowski & Wilenski, Biometrika 31 (1940) 313-323 (exact conditional test)';
/** Power summed over both Poisson counts with scipy 1.17.1 at the exposures that come out. */
export const plannedExposures: (PublishedCase & {
  wanted: { rate: number; ratio: number; referenceExposure?: number };
  group: number;
  power: number;
})[] = [
  { name: 'four failures in 2,000 jobs, both sides anew', source: exact, status: 'computed with scipy 1.17.1', wanted: { rate: 0.002, ratio: 0.5 }, group: 25_667, power: 0.8125 },
  { name: 'thirty failures in 2,000 jobs before', source: exact, status: 'computed with scipy 1.17.1', wanted: { rate: 0.015, ratio: 0.5, referenceExposure: 2000 }, group: 9631.3, power: 0.8135 },
  { name: 'forty failures in 2,000 jobs before', source: exact, status: 'computed with scipy 1.17.1', wanted: { rate: 0.02, ratio: 0.5, referenceExposure: 2000 }, group: 3430.2, power: 0.8113 },
  { name: 'eighty failures in 2,000 jobs before', source: exact, status: 'computed with scipy 1.17.1', wanted: { rate: 0.04, ratio: 0.5, referenceExposure: 2000 }, group: 976.6, power: 0.8166 },
];

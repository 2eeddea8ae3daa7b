// Quantiles against the printed tables, and binomial tails against exact sums.
import { describe, expect, it } from 'vitest';
import * as d from '@backsight/statistics/distributions';

const tables = 'NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.6.7, from memory, recomputed with scipy 1.17';

describe(`quantiles: ${tables}`, () => {
  it.each([
    { name: 'normal 0.975', found: d.normalQuantile(0.975), table: 1.96, digits: 1.959963984540054 },
    { name: 'normal 0.995', found: d.normalQuantile(0.995), table: 2.576, digits: 2.5758293035489004 },
    { name: 'chi-square 0.95, 1', found: d.chiSquareQuantile(0.95, 1), table: 3.841, digits: 3.841458820694124 },
    { name: 'chi-square 0.95, 10', found: d.chiSquareQuantile(0.95, 10), table: 18.307, digits: 18.307038053275146 },
    { name: 'F 0.95, 5 and 10', found: d.fQuantile(0.95, 5, 10), table: 3.326, digits: 3.3258345304130112 },
  ])('$name is $table', ({ found, table, digits }) => {
    expect(Math.abs(found - table)).toBeLessThanOrEqual(5.1e-4);
    expect(Math.abs(found / digits - 1)).toBeLessThan(1e-7);
  });

  it.each([
    { name: 'normal', back: d.normalCdf(d.normalQuantile(0.025)) },
    { name: 'chi-square', back: d.chiSquareCdf(d.chiSquareQuantile(0.025, 18), 18) },
    { name: 'beta', back: d.betaCdf(d.betaQuantile(0.025, 4, 1997), 4, 1997) },
    { name: 'F', back: d.fCdf(d.fQuantile(0.025, 8, 40), 8, 40) },
  ])('$name: probability of the quantile is the probability', ({ back }) => expect(back).toBeCloseTo(0.025, 7));
});

describe('counts', () => {
  it.each([
    { name: 'binomial 3 of 12 at 1/2 = 220 / 4096', found: d.logBinomialPmf(3, 12, 0.5), exact: 220 / 4096 },
    { name: 'binomial 0 of 12 at 0', found: d.logBinomialPmf(0, 12, 0), exact: 1 },
    { name: 'Poisson 0 at 2 = exp(-2)', found: d.logPoissonPmf(0, 2), exact: Math.exp(-2) },
    { name: 'Poisson 4 at 2 = 2/3 exp(-2)', found: d.logPoissonPmf(4, 2), exact: (2 / 3) * Math.exp(-2) },
  ])('$name', ({ found, exact }) => expect(Math.exp(found) / exact).toBeCloseTo(1, 12));

  it.each([
    { name: 'at most 3 of 12 at 1/2 = 299 / 4096', found: d.binomialLowerTail(3, 12, 0.5), exact: 299 / 4096 },
    { name: 'at least 3 of 12 at 1/2 = 4017 / 4096', found: d.binomialUpperTail(3, 12, 0.5), exact: 4017 / 4096 },
    { name: 'all of 50 at 1/2 = 2^-50', found: d.binomialUpperTail(50, 50, 0.5), exact: 2 ** -50 },
    { name: 'fewer than none', found: d.binomialLowerTail(-1, 12, 0.5) + 1, exact: 1 },
    { name: 'few, at certainty', found: d.binomialLowerTail(3, 12, 1) + 1, exact: 1 },
    { name: 'none or more', found: d.binomialUpperTail(0, 12, 0.5), exact: 1 },
    { name: 'one or more, at certainty', found: d.binomialUpperTail(1, 12, 1), exact: 1 },
  ])('$name', ({ found, exact }) => expect(found / exact).toBeCloseTo(1, 12));
});

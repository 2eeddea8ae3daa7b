// Funnels and shrunk estimates against published and independently computed values.
import { describe, expect, it } from 'vitest';
import type { Estimate } from '@backsight/statistics/estimate';
import { funnel } from '@backsight/statistics/funnel';
import { funnelLimits, normalFunnelLimits } from '@backsight/statistics/funnelLimits';
import { gammaPoissonShrinkage } from '@backsight/statistics/shrinkage';
import { lips, lipsFunnel, ratioLines, shareLines } from './data/funnel.ts';

const near = (found: number | null | undefined, expected: number, off = 1e-9) =>
  expect(Math.abs((found ?? Number.NaN) - expected)).toBeLessThanOrEqual(off);
const nearRelative = (found: number, expected: number, relative: number) => near(found, expected, relative * Math.abs(expected));

const nearLimits = ({ lower, upper }: { lower: number; upper: number }, expected: readonly [number, number]) => {
  near(lower, expected[0]);
  near(upper, expected[1]);
};

function found<T>(estimate: Estimate<T>): T {
  if (!estimate.ok) throw new Error(estimate.sentence);
  return estimate;
}

const district = (at: number) => `district ${at + 1}`;

describe('limits of a funnel', () => {
  it.each(shareLines)('share of 0.1 among $size ($source; $status)', ({ size, exact95, exact998, normal95, normal998 }) => {
    const line = { model: 'binomial', target: 0.1, size } as const;
    nearLimits(funnelLimits(line, 0.95), exact95);
    nearLimits(funnelLimits(line, 0.998), exact998);
    nearLimits(normalFunnelLimits(line, 0.95), normal95);
    nearLimits(normalFunnelLimits(line, 0.998), normal998);
  });

  it.each(ratioLines)('ratio of 1 with $size expected ($source; $status)', ({ size, exact95, exact998 }) => {
    const line = { model: 'poisson', target: 1, size } as const;
    nearLimits(funnelLimits(line, 0.95), exact95);
    nearLimits(funnelLimits(line, 0.998), exact998);
  });

  it('a rate per job has the limits of its ratio, scaled', () => {
    const ratio = funnelLimits({ model: 'poisson', target: 1, size: 5 }, 0.95);
    const rate = funnelLimits({ model: 'poisson', target: 0.02, size: 250 }, 0.95);
    near(rate.upper, ratio.upper * 0.02);
    near(rate.lower, ratio.lower * 0.02);
  });

  it.each([
    ['a sure thing', () => funnelLimits({ model: 'binomial', target: 1, size: 10 }, 0.95)],
    ['half a record', () => funnelLimits({ model: 'binomial', target: 0.1, size: 9.5 }, 0.95)],
    ['a target of 0', () => funnelLimits({ model: 'poisson', target: 0, size: 9 }, 0.95)],
    ['no size', () => funnelLimits({ model: 'poisson', target: 1, size: 0 }, 0.95)],
    ['a confidence beyond 0.9999', () => funnelLimits({ model: 'poisson', target: 1, size: 5 }, 0.99999)],
    ['a variance below 0', () => normalFunnelLimits({ model: 'poisson', target: 1, size: 5 }, 0.95, -1)],
  ])('refuses what has no limits: %s', (_, broken) => {
    expect(broken).toThrow(RangeError);
  });
});

describe('a funnel of units', () => {
  it(`is widened where all scatter more than chance (${lipsFunnel.source}; ${lipsFunnel.status})`, () => {
    const units = lips.observed.map((count, at) => ({ name: district(at), count, size: lips.expected[at]! }));
    const { target, dispersion, limits, points } = found(funnel('poisson', units));
    near(target, lipsFunnel.target);
    near(dispersion.phi, lipsFunnel.phi);
    near(dispersion.p, lipsFunnel.p);
    near(dispersion.between, lipsFunnel.between);
    expect(limits).toBe('widened');
    expect(points.flatMap(({ position }, at) => (position === 'beyond_998' ? [at + 1] : []))).toEqual(lipsFunnel.beyond);
  });

  it('keeps exact limits where chance explains all, and says where a unit lies', () => {
    const units = [
      { name: 'Maren', count: 10, size: 100 },
      { name: 'Odell', count: 17, size: 100 },
      { name: 'Petra', count: 9, size: 100 },
      { name: 'Quill', count: 10, size: 100 },
    ];
    const { limits, dispersion, points } = found(funnel('binomial', units, 0.1));
    expect(limits).toBe('exact');
    expect(dispersion.between).toBe(0);
    expect(points.map(({ position, side, expected }) => [position, side, expected])).toEqual([
      ['within', null, 10],
      ['beyond_95', 'above', 10],
      ['within', null, 10],
      ['within', null, 10],
    ]);
    expect(points[1]?.sentence).toBe('Odell lies above the 95 % limit: one in twenty lies outside by chance.');
  });

  it.each([
    ['too_few', funnel('poisson', [])],
    ['nothing_counted', funnel('poisson', [{ name: 'Maren', count: 0, size: 4 }])],
    ['everything_counted', funnel('binomial', [{ name: 'Maren', count: 4, size: 4 }])],
  ])('says in a sentence why it cannot: %s', (code, refused) => {
    expect(refused).toMatchObject({ ok: false, code, sentence: expect.stringMatching(/^Cannot be estimated because .+\.$/) });
  });

  it('refuses more counted than there are, and a size of nothing', () => {
    expect(() => funnel('binomial', [{ name: 'Maren', count: 5, size: 4 }])).toThrow(RangeError);
    expect(() => funnel('poisson', [{ name: 'Maren', count: 5, size: 0 }])).toThrow(RangeError);
  });
});

describe('estimates drawn towards the common mean', () => {
  const units = lips.observed.map((observed, at) => ({ name: district(at), observed, expected: lips.expected[at]! }));

  it(`by likelihood (${lips.source}; ${lips.status})`, () => {
    const fitted = found(gammaPoissonShrinkage(units));
    nearRelative(fitted.shape, lips.shape, 1e-3);
    nearRelative(fitted.rate, lips.rate, 1e-3);
    nearRelative(fitted.mean, lips.mean, 1e-4);
    near(fitted.logLikelihood, lips.logLikelihood, 1e-7);
    fitted.units.forEach(({ shrunk, lower, upper, raw, ownWeight }, at) => {
      nearRelative(shrunk, lips.shrunk[at]!, 1e-4);
      nearRelative(lower, lips.lower[at]!, 1e-4);
      nearRelative(upper, lips.upper[at]!, 1e-4);
      near(ownWeight * raw + (1 - ownWeight) * fitted.mean, shrunk);
    });
  });

  it('by moments (Marshall)', () => {
    const fitted = found(gammaPoissonShrinkage(units, { fit: 'moments' }));
    nearRelative(fitted.mean, lips.moments.mean, 1e-9);
    nearRelative(fitted.shape / fitted.rate ** 2, lips.moments.variance, 1e-9);
    fitted.units.forEach(({ shrunk }, at) => nearRelative(shrunk, lips.moments.shrunk[at]!, 1e-9));
  });

  it.each([
    ['too_few', gammaPoissonShrinkage(units.slice(0, 1))],
    ['nothing_counted', gammaPoissonShrinkage(units.slice(54))],
    ['no_extra_scatter', gammaPoissonShrinkage([2, 3, 2, 3].map((observed) => ({ name: 'step', observed, expected: 2.5 })))],
    [
      'no_extra_scatter',
      gammaPoissonShrinkage(
        [2, 3, 2, 3].map((observed) => ({ name: 'step', observed, expected: 2.5 })),
        { fit: 'moments' },
      ),
    ],
  ])('says in a sentence why it cannot: %s', (code, refused) => {
    expect(refused).toMatchObject({ ok: false, code, sentence: expect.stringMatching(/^Cannot be estimated because .+\.$/) });
  });

  it.each([
    [[{ name: 'step', observed: -1, expected: 2 }], {}],
    [[{ name: 'step', observed: 1, expected: 0 }], {}],
    [units, { credibility: 1 }],
  ])('refuses broken counts, expectations and credibility', (broken, options) => {
    expect(() => gammaPoissonShrinkage(broken, options)).toThrow(RangeError);
  });
});

// Draws of chance and the outlook made of them, against closed forms. All formulas from memory; sources stand beside each.
import { describe, expect, it } from 'vitest';
import { costDraws, logMoments, type CostModel } from '@backsight/statistics/simulation/costs';
import { simulateOutlook, type OutlookBasis, type OutlookChange } from '@backsight/statistics/simulation/outlook';
import { drawBeta, drawGamma, drawPoisson, seeded } from '@backsight/statistics/simulation/random';

const DRAWS = 60_000;
const moments = (draw: () => number) => {
  const values = Float64Array.from({ length: DRAWS }, draw);
  const mean = values.reduce((sum, value) => sum + value, 0) / DRAWS;
  return { mean, variance: values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / DRAWS };
};

/** Five standard errors of a mean; of a variance about as many at the kurtosis of what is drawn here. */
function expectMoments(draw: () => number, mean: number, variance: number): void {
  const found = moments(draw);
  expect(Math.abs(found.mean - mean)).toBeLessThan(5 * Math.sqrt(variance / DRAWS));
  expect(Math.abs(found.variance / variance - 1)).toBeLessThan(0.06);
}

describe('draws', () => {
  it.each([0.5, 1.5, 40])('gamma of shape %s: mean and variance are the shape (Johnson, Kotz & Balakrishnan, 1994, ch. 17)', (shape) => {
    const random = seeded(1);
    expectMoments(() => drawGamma(random, shape), shape, shape);
  });
  it.each([0.3, 4, 10, 55, 3_000])('Poisson of mean %s: mean and variance are equal (Johnson, Kemp & Kotz, 2005, ch. 4)', (mean) => {
    const random = seeded(2);
    expectMoments(() => drawPoisson(random, mean), mean, mean);
  });
  it('beta: mean a/(a+b), variance ab/((a+b)^2 (a+b+1)) (Johnson, Kotz & Balakrishnan, 1995, ch. 25)', () => {
    const random = seeded(3);
    expectMoments(() => drawBeta(random, 4.5, 62.5), 4.5 / 67, (4.5 * 62.5) / (67 ** 2 * 68));
  });
  it('gives the same again for the same seed, and other numbers for another', () => {
    const three = (seed: number) => Array.from({ length: 3 }, seeded(seed));
    expect(three(7)).toEqual(three(7));
    expect(three(7)).not.toEqual(three(8));
  });
});

const COSTS = Array.from({ length: 300 }, (_, at) => (at % 3 === 0 ? 12_000 + 700 * at : 0));
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

describe('the sum of the costs of a Poisson number of callbacks', () => {
  // Compound Poisson: E S = L E X, Var S = L E X^2 (Klugman, Panjer & Willmot, "Loss Models", chapter on aggregate loss models);
  // a bootstrap mean varies by s^2 / n about the mean of the sample (Efron, 1979), which adds L^2 s^2 / n.
  it('has the mean and variance of the compound Poisson distribution when costs are resampled', () => {
    const random = seeded(4);
    // few costs, so that not knowing them better shows
    const few = COSTS.slice(0, 30);
    const costs = costDraws(random, { kind: 'resampled', cents: few });
    const [x, x2, expected] = [mean(few), mean(few.map((c) => c ** 2)), 12];
    expectMoments(
      () => {
        costs.begin();
        let sum = 0;
        for (let left = drawPoisson(random, expected); left > 0; left--) sum += costs.draw();
        return sum;
      },
      expected * x,
      expected * x2 + (expected ** 2 * (x2 - x ** 2)) / few.length,
    );
  });
  // Lognormal mean exp(m + s^2 / 2) (Johnson, Kotz & Balakrishnan, 1994, ch. 14), with the variance s^2 / k of m added to s^2.
  it('has the mean of the share that costs anything times a lognormal when a curve is fitted', () => {
    const random = seeded(5);
    const costs = costDraws(random, { kind: 'fitted', cents: COSTS });
    const { costing, mean: m, deviation } = logMoments(COSTS);
    const expected = ((costing + 0.5) / (COSTS.length + 1)) * Math.exp(m + (deviation ** 2 * (1 + 1 / costing)) / 2);
    const found = moments(() => {
      costs.begin();
      return costs.draw();
    });
    expect(Math.abs(found.mean - expected)).toBeLessThan(5 * Math.sqrt(found.variance / DRAWS));
  });
});

/** First count whose share of a negative binomial of mean `mean` and shape `shape` reaches `share`, summed term by term. */
function negativeBinomialQuantile(shape: number, average: number, share: number): number {
  const p = shape / (shape + average);
  let term = p ** shape;
  let [count, sum] = [0, term];
  while (sum < share) {
    term *= ((shape + count) / (count + 1)) * (1 - p);
    count += 1;
    sum += term;
  }
  return count;
}

const TERMS = { capCents: null, deductibleCents: null, limitCents: null };
const SAME: OutlookChange = {
  ...TERMS,
  feeShare: 0,
  jobsShare: 0,
  premiumCents: 0,
  stepMinutes: 0,
  fewer: { least: 0, most: 0 },
};
const BASIS: OutlookBasis = {
  jobsOfYear: 60,
  years: 2,
  feeCents: 50_000,
  minutesPerJob: 180,
  callbacks: { counted: 9, ripeJobs: 150 },
  costs: { kind: 'resampled', cents: COSTS } satisfies CostModel,
  step: null,
};
const of = (basis: Partial<OutlookBasis>, change: Partial<OutlookChange> = {}, now = TERMS) =>
  simulateOutlook({ ...BASIS, ...basis }, now, { ...SAME, ...now, ...change }, { seed: 11, runs: 20_000 });

describe('the outlook', () => {
  // Poisson with a gamma mean is negative binomial (Greenwood & Yule, 1920): shape a, mean a t / b.
  it('counts jobs as the negative binomial distribution does', () => {
    const { jobs } = of({});
    expect(jobs.now.mean).toBeCloseTo(121, 0);
    expect(Math.abs(jobs.now.lower - negativeBinomialQuantile(60.5, 121, 0.05))).toBeLessThanOrEqual(1);
    expect(Math.abs(jobs.now.upper - negativeBinomialQuantile(60.5, 121, 0.95))).toBeLessThanOrEqual(1);
  });
  it('counts callbacks as the negative binomial distribution does, where jobs are all but certain', () => {
    // 9.5 / 1,500,000 a job on 2,000,001 jobs
    const { callbacks } = of({ jobsOfYear: 1_000_000, callbacks: { counted: 9, ripeJobs: 1_500_000 } });
    const average = (9.5 * 2_000_001) / 1_500_000;
    expect(Math.abs(callbacks.now.mean / average - 1)).toBeLessThan(0.02);
    expect(Math.abs(callbacks.now.lower - negativeBinomialQuantile(9.5, average, 0.05))).toBeLessThanOrEqual(1);
    expect(Math.abs(callbacks.now.upper - negativeBinomialQuantile(9.5, average, 0.95))).toBeLessThanOrEqual(1);
  });
  it('is the same on both sides when nothing changes, and the same again for the same seed', () => {
    const found = of({});
    for (const { now, changed, difference } of Object.values(found)) {
      expect(changed).toEqual(now);
      expect(difference).toEqual({ mean: 0, lower: 0, upper: 0 });
    }
    expect(of({})).toEqual(found);
  });
  it.each<[string, Partial<OutlookChange>, (f: ReturnType<typeof of>) => void]>([
    ['a fee a tenth higher', { feeShare: 0.1 }, ({ income }) => expect(income.changed.mean / income.now.mean).toBeCloseTo(1.1, 9)],
    ['a tenth fewer jobs', { jobsShare: -0.1 }, ({ callbacks }) => expect(callbacks.changed.mean / callbacks.now.mean).toBeCloseTo(0.9, 1)],
    ['a tenth more jobs', { jobsShare: 0.1 }, ({ callbacks }) => expect(callbacks.changed.mean / callbacks.now.mean).toBeCloseTo(1.1, 1)],
    ['a cap of nothing', { capCents: 0 }, ({ cost }) => expect(cost.changed).toEqual({ mean: 0, lower: 0, upper: 0 })],
    [
      'a policy from the first dollar',
      { deductibleCents: 0 },
      ({ byFirm, byInsurer, cost }) => {
        expect(byFirm.changed.mean).toBe(0);
        expect(byInsurer.changed).toEqual(cost.now);
      },
    ],
    [
      'a limit of $10 for one claim',
      { deductibleCents: 0, limitCents: 1_000 },
      ({ byInsurer, callbacks }) => expect(byInsurer.changed.upper).toBeLessThanOrEqual(callbacks.now.upper * 1_000),
    ],
    ['$5,000 more a year for insurance', { premiumCents: 500_000 }, ({ left }) => expect(left.difference.mean).toBeCloseTo(-1_000_000, 3)],
  ])('%s', (_, change, holds) => holds(of({}, change)));
  it('takes off the share that a step has of the callbacks, adds its minutes, and more failures where it fails more', () => {
    const step = { traced: 4, timesPerJob: 1.5 };
    const fewer = of({ step }, { stepMinutes: 4, fewer: { least: 0.4, most: 0.6 } });
    // share (4 + 1/2) / (9 + 1), half of it
    expect(fewer.callbacks.changed.mean / fewer.callbacks.now.mean).toBeCloseTo(1 - 0.45 * 0.5, 1);
    expect(fewer.hours.changed.mean / fewer.hours.now.mean).toBeCloseTo(186 / 180, 9);
    const more = of({ step }, { fewer: { least: -1, most: -1 } });
    expect(more.callbacks.changed.mean / more.callbacks.now.mean).toBeCloseTo(1.45, 1);
  });
  it('counts no money where costs are not known, and nothing where callbacks are not', () => {
    expect(of({ costs: null }).cost.now).toEqual({ mean: 0, lower: 0, upper: 0 });
    expect(of({ callbacks: null }).callbacks.now).toEqual({ mean: 0, lower: 0, upper: 0 });
    expect(() => costDraws(seeded(1), { kind: 'fitted', cents: [0, 5] })).toThrow(RangeError);
    expect(() => costDraws(seeded(1), { kind: 'resampled', cents: [] })).toThrow(RangeError);
  });
});

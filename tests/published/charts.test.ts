// Control charts, sums and the dispersion test against published samples.
import { describe, expect, it } from 'vitest';
import { cChart, laneyPPrime, laneyUPrime, pChart, uChart } from '@backsight/statistics/charts/attributes';
import type { Chart } from '@backsight/statistics/charts/chart';
import { bernoulliCusum, poissonCusum, tabularCusum } from '@backsight/statistics/charts/cusum';
import { dispersionTest } from '@backsight/statistics/charts/dispersionTest';
import { gChart, tChart } from '@backsight/statistics/charts/rareEvents';
import type { Estimate } from '@backsight/statistics/estimate';
import { boards, computers, dispersion, gaps, jobs, juice, valve, weights } from './data/charts.ts';

const near = (found: number | null | undefined, expected: number, off = 1e-9) =>
  expect(Math.abs((found ?? Number.NaN) - expected)).toBeLessThanOrEqual(off);

function drawn<T>(estimate: Estimate<T>): T {
  if (!estimate.ok) throw new Error(estimate.sentence);
  return estimate;
}

const labelled = <T extends object>(rows: readonly T[]) => rows.map((row, at) => ({ label: `sample ${at + 1}`, ...row }));
const beyond = ({ points }: Chart) =>
  points.flatMap(({ signals }, at) => (signals.some(({ rule }) => rule === 'beyond_limits') ? [at + 1] : []));

describe('charts of counts', () => {
  const shares = labelled(juice.counts.map((count) => ({ count, total: juice.total })));
  const leaving = shares.map((sample, at) => ({ ...sample, leaveOut: juice.without.leftOut.includes(at + 1) }));

  it.each([
    ['all samples', shares, juice.all],
    ['two left out', leaving, juice.without],
  ] as const)(`p chart, ${juice.source} (${juice.status}): %s`, (_, samples, expected) => {
    const chart = drawn(pChart(samples));
    near(chart.center, expected.center);
    near(chart.points[0]?.upper, expected.upper);
    near(chart.points[0]?.lower, expected.lower);
    expect(beyond(chart)).toEqual(expected.beyond);
    const widened = drawn(laneyPPrime(samples));
    near(widened.sigmaZ, expected.sigmaZ);
    near(widened.points[0]?.upper, expected.widened);
    expect(widened.points[0]?.lower).toBe(0);
  });

  it(`c chart, ${boards.source} (${boards.status})`, () => {
    const chart = drawn(cChart(labelled(boards.counts.map((count) => ({ count })))));
    near(chart.center, boards.center);
    near(chart.points[0]?.upper, boards.upper);
    near(chart.points[0]?.lower, boards.lower);
    expect(beyond(chart)).toEqual(boards.beyond);
    expect(chart.points[19]?.signals).toEqual([
      { rule: 'beyond_limits', side: 'above', sentence: 'sample 20 lies above the upper control limit.' },
    ]);
  });

  it(`u chart, ${computers.source} (${computers.status})`, () => {
    const samples = labelled(computers.counts.map((count) => ({ count, exposure: computers.exposure })));
    const chart = drawn(uChart(samples));
    chart.points.forEach(({ value, upper, lower }, at) => {
      near(value, computers.values[at]!);
      near(upper, computers.upper);
      near(lower, computers.lower);
    });
    expect(beyond(chart)).toEqual([]);
    const widened = drawn(laneyUPrime(samples));
    near(widened.sigmaZ, computers.sigmaZ);
    near(widened.points[0]?.upper, computers.widened);
  });

  it(`dispersion test, ${dispersion.source} (${dispersion.status})`, () => {
    const found = drawn(
      dispersionTest(
        'binomial',
        dispersion.counts.map((count) => ({ count, size: dispersion.size })),
      ),
    );
    near(found.varianceRatio, dispersion.varianceRatio);
    near(found.statistic, dispersion.statistic);
    expect(found.degrees).toBe(dispersion.degrees);
    near(found.p, dispersion.p);
  });

  it('a month without a job is a gap: no value, no limits, and a run goes on over it', () => {
    const months = [9, 9, 9, 9, null, 9, 9, 9, 9, 9, 1, 1, 1, 1, 1, 1, 1].map((count) => ({
      count: count ?? 0,
      total: count === null ? 0 : 40,
    }));
    const { points } = drawn(pChart(labelled(months)));
    expect(points[4]).toMatchObject({ value: null, lower: null, upper: null, signals: [] });
    expect(points.flatMap(({ signals }) => signals.map(({ sentence }) => sentence))).toEqual([
      'sample 9 is number 8 in a row above the center line.',
      'sample 10 is number 9 in a row above the center line.',
    ]);
  });

  it('a point on the centre ends a run', () => {
    const counts = [3, 3, 3, 3, 2, 3, 3, 3, 3, 1, 1, 1, 1, 1, 1, 1, 1];
    const { center, points } = drawn(cChart(labelled(counts.map((count) => ({ count })))));
    expect(center).toBe(2);
    expect(points.flatMap(({ signals }, at) => (signals.length > 0 ? [at + 1] : []))).toEqual([17]);
  });

  it.each([
    [
      'too_few',
      pChart(
        labelled([
          { count: 1, total: 9 },
          { count: 0, total: 0 },
        ]),
      ),
    ],
    ['too_few', cChart([])],
    [
      'nothing_counted',
      uChart(
        labelled([
          { count: 0, exposure: 40 },
          { count: 0, exposure: 50 },
        ]),
      ),
    ],
    [
      'everything_counted',
      pChart(
        labelled([
          { count: 4, total: 4 },
          { count: 5, total: 5 },
        ]),
      ),
    ],
    [
      'no_scatter',
      laneyPPrime(
        labelled([
          { count: 1, total: 4 },
          { count: 1, total: 4 },
        ]),
      ),
    ],
    ['no_scatter', gChart(labelled([{ between: 0 }, { between: 0 }]))],
    ['no_scatter', tChart(labelled([{ time: 5 }, { time: 5 }]))],
    ['too_few', dispersionTest('poisson', [{ count: 1, size: 4 }])],
    [
      'nothing_counted',
      dispersionTest('poisson', [
        { count: 0, size: 4 },
        { count: 0, size: 5 },
      ]),
    ],
  ])('says in a sentence why it cannot: %s', (code, found) => {
    expect(found).toMatchObject({ ok: false, code, sentence: expect.stringMatching(/^Cannot be estimated because .+\.$/) });
  });

  it.each([
    [
      'more counted than there are',
      () =>
        pChart(
          labelled([
            { count: 5, total: 4 },
            { count: 1, total: 4 },
          ]),
        ),
    ],
    [
      'a count over no exposure',
      () =>
        uChart(
          labelled([
            { count: 1, exposure: 0 },
            { count: 1, exposure: 4 },
          ]),
        ),
    ],
    [
      'an exposure below 0',
      () =>
        uChart(
          labelled([
            { count: 1, exposure: -3 },
            { count: 1, exposure: 4 },
          ]),
        ),
    ],
    ['half a failure', () => cChart(labelled([{ count: 1.5 }, { count: 1 }]))],
    ['a gap below 0', () => gChart(labelled([{ between: -1 }, { between: 1 }]))],
    ['no time', () => tChart(labelled([{ time: Number.NaN }, { time: 1 }]))],
    ['more counted than tested', () => dispersionTest('binomial', [{ count: 5, size: 4 }])],
  ])('refuses what is no sample: %s', (_, broken) => {
    expect(broken).toThrow(RangeError);
  });
});

describe('charts of rare failures', () => {
  it(`g chart, ${gaps.source} (${gaps.status})`, () => {
    const chart = drawn(gChart(labelled(gaps.between.map((between) => ({ between })))));
    near(chart.meanGap, gaps.meanGap);
    near(chart.chance, gaps.chance);
    near(chart.center, gaps.median);
    near(chart.points[0]?.upper, gaps.upper);
    expect(chart.points[0]?.lower).toBe(0);
    expect(Object.values(chart.probability)).toEqual(gaps.probability);
    expect(beyond(chart)).toEqual([]);
  });

  it(`t chart, ${valve.source} (${valve.status})`, () => {
    const chart = drawn(tChart(labelled(valve.times.map((time) => ({ time })))));
    const { transformed, probability, points } = chart;
    transformed.values.forEach((value, at) => near(value, valve.transformed[at]!));
    near(transformed.center, valve.center);
    near(transformed.meanMovingRange, valve.range);
    near(transformed.lower, valve.lower);
    near(transformed.upper, valve.upper);
    near(chart.meanTime, valve.meanTime);
    Object.values(probability).forEach((limit, at) => near(limit, valve.probability[at]!));
    near((points[0]?.upper ?? 0) ** 0.2777, valve.upper);
    expect(points[0]?.lower).toBe(null);
    expect(beyond(chart)).toEqual([]);
  });
});

describe('charts that add up', () => {
  const values = labelled(weights.values.map((value) => ({ value })));
  const records = Array.from({ length: jobs.count }, (_, at) => ({
    label: `job ${at + 1}`,
    bad: jobs.bad.includes(at + 1),
    chance: jobs.chance,
  }));

  it(`tabular, ${weights.source} (${weights.status})`, () => {
    const { points, firstSignal } = tabularCusum(values, weights.settings);
    points.forEach(({ high, low, deviations }, at) => {
      near(high, weights.high[at]!, 1e-6);
      near(low, weights.low[at]!, 1e-6);
      near(deviations, weights.deviations[at]!, 1e-6);
    });
    expect(firstSignal).toBe(13);
    expect(points.flatMap(({ signals }, at) => (signals[0]?.side === 'above' ? [at + 1] : []))).toEqual(weights.signals);
    const mirrored = tabularCusum(
      values.map(({ label, value }) => ({ label, value: 650 - value })),
      weights.settings,
    );
    expect(mirrored.points.flatMap(({ signals }, at) => (signals[0]?.side === 'below' ? [at + 1] : []))).toEqual(weights.signals);
  });

  it(`single records by their own chances, ${jobs.source} (${jobs.status})`, () => {
    const { points, firstSignal } = bernoulliCusum(records, jobs);
    points.forEach(({ weight, sum }, at) => {
      near(weight, records[at]!.bad ? jobs.ifBad : jobs.ifGood);
      near(sum, jobs.sums[at]!);
    });
    expect(firstSignal).toBe(jobs.firstSignal - 1);
    const better = bernoulliCusum(records.slice(0, 30), { oddsRatio: 0.5, limit: 0.2 });
    expect(better.points.at(better.firstSignal ?? 0)?.signals[0]).toMatchObject({ side: 'below', rule: 'sum_beyond_limit' });
  });

  it('periods: the weight over log R is the count less the reference value of Lucas, Technometrics 27 (1985) 129-144', () => {
    const [usual, tripled] = [2.5, 7.5];
    const reference = (tripled - usual) / (Math.log(tripled) - Math.log(usual));
    const { points, firstSignal } = poissonCusum(labelled([2, 4, 7, 9].map((count) => ({ count, expected: usual }))), {
      rateRatio: 3,
      limit: 3,
    });
    let sum = 0;
    for (const [at, count] of [2, 4, 7, 9].entries()) {
      near(points[at]!.weight / Math.log(3), count - reference);
      near(points[at]!.sum / Math.log(3), (sum = Math.max(0, sum + count - reference)));
    }
    expect(firstSignal).toBe(3);
  });

  it.each([
    ['no interval', () => tabularCusum(values, { ...weights.settings, interval: 0 })],
    ['an allowance below 0', () => tabularCusum(values, { ...weights.settings, allowance: -1 })],
    ['no value', () => tabularCusum([{ label: 'a', value: Number.NaN }], weights.settings)],
    ['a chance of 0', () => bernoulliCusum([{ label: 'a', bad: true, chance: 0 }], jobs)],
    ['an odds ratio of 1', () => bernoulliCusum(records, { oddsRatio: 1, limit: 2 })],
    ['nothing expected', () => poissonCusum([{ label: 'a', count: 1, expected: 0 }], { rateRatio: 2, limit: 2 })],
    ['a count below 0', () => poissonCusum([{ label: 'a', count: -1, expected: 1 }], { rateRatio: 2, limit: 2 })],
  ])('refuses broken settings and values: %s', (_, broken) => {
    expect(broken).toThrow(RangeError);
  });
});

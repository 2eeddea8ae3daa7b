// Tag: time.
// Which control chart a step gets, against published gaps, and why some get none.
import { describe, expect, it } from 'vitest';
import { stepChart, type PlacedFailure, type StepChartFacts } from '@backsight/usecases/liability/steps/stepChart';
import { portrait } from '@backsight/usecases/liability/steps/words';
import { gaps } from '../../published/data/charts.ts';

const months = (times: readonly number[]) =>
  times.map((some, at) => ({ month: `${2020 + Math.floor(at / 12)}-${String((at % 12) + 1).padStart(2, '0')}`, times: some }));
const failure = (number: number, place: number, month: string): PlacedFailure => ({
  number,
  place,
  month,
  inspectedAt: new Date(`${month}-15T12:00:00Z`),
});
const facts = (part: Partial<StepChartFacts>): StepChartFacts => ({
  months: [],
  failures: [],
  changes: [],
  now: '2026-11',
  zone: 'America/Chicago',
  exact: true,
  ...part,
});
const many = (each: number, count = 24) =>
  Array.from({ length: each * count }, (_, at) =>
    failure(at + 1, at + 1, months(Array<number>(count).fill(9))[Math.floor(at / each)]!.month),
  );

describe('rare failures', () => {
  const places = gaps.between.reduce<number[]>((all, gap) => [...all, all.at(-1)! + gap + 1], [1]);
  const chart = stepChart(
    facts({
      months: months([400, 0, 100]),
      failures: places.map((place, at) => failure(at + 1, place, at < 8 ? '2020-01' : '2020-03')),
      changes: [
        { at: new Date('2020-02-10T12:00:00Z'), label: 'Revision 2' },
        { at: new Date('2019-01-01T12:00:00Z'), label: 'Revision 1' },
      ],
    }),
  );
  it(`are charted by the times between them, ${gaps.source} (${gaps.status})`, () => {
    if (!chart.ok) throw new Error(chart.sentence);
    expect(chart).toMatchObject({ kind: 'between', goodSide: 'above', since: 500 - places.at(-1)! });
    expect(chart.points.map(({ value }) => value)).toEqual(gaps.between);
    for (const { center, upper, lower } of chart.points)
      expect([center, upper, lower]).toEqual([expect.closeTo(gaps.median, 9), expect.closeTo(gaps.upper, 9), 0]);
  });
  it('a change stands before the first gap that ends after it; one from before the first point is no border', () =>
    expect(chart.ok && chart.marks).toEqual([{ at: 7, label: 'Revision 2' }]));
});

describe('frequent failures', () => {
  it.each([
    [2, 'months'],
    [1, 'quarters'],
  ])('with %s in every month are charted by %s', (each, kind) =>
    expect(stepChart(facts({ months: months(Array<number>(24).fill(9)), failures: many(each) }))).toMatchObject({ ok: true, kind }),
  );
  it('what is still coming in is left out of center and limits, and a low point of it is no good news', () => {
    const chart = stepChart(
      facts({ months: months(Array<number>(24).fill(900)), failures: many(30).filter(({ month }) => month < '2021-09'), now: '2021-12' }),
    );
    expect(chart).toMatchObject({
      ok: true,
      points: Array.from({ length: 24 }, () => ({ center: expect.closeTo(30 / 900, 9), signals: [] })),
    });
  });
  it('a failure in a month without a time it applied breaks nothing', () =>
    expect(
      stepChart(facts({ months: months([9, 0, ...Array<number>(8).fill(9)]), failures: [...many(3, 10), failure(31, 10, '2020-02')] })).ok,
    ).toBe(true));
});

it.each([
  [{}, 'Cannot be estimated because the step has not applied on any inspection yet.'],
  [{ months: months([5]) }, 'Cannot be estimated because no failure is known, and a chart takes at least 3.'],
  [{ months: months([5]), failures: many(2, 1) }, 'Cannot be estimated because only 2 failures are known, and a chart takes at least 3.'],
  [
    { months: months([5]), failures: [1, 2, 3].map((n) => failure(n, 1, '2020-01')) },
    'Cannot be estimated because every failure followed on the one before, with nothing between them.',
  ],
])('%o has no chart, and the page says why', (part, sentence) => expect(stepChart(facts(part))).toMatchObject({ ok: false, sentence }));

describe('the sentence of a step', () => {
  const nothing = { times: 0, jobs: 0, failures: 0, nearMisses: 0, incurredCents: 0, skipped: null, allFailures: 0, waiting: 0 };
  it.each([
    [{}, 'This step has not applied on any inspection yet, so nothing can be said of it.'],
    [{ times: 1, jobs: 1 }, 'It applied 1 time on 1 job, and no callback was traced to it; too few times to tell more.'],
    // F. Garwood, Biometrika 28 (1936) 437: upper 95 % limit of a Poisson mean when none is seen, 3.689.
    [
      { times: 1000, jobs: 800 },
      'It applied 1,000 times on 800 jobs, and no callback was traced to it; its rate of failure likely lies below 3.7 in 1,000 times.',
    ],
    [
      {
        times: 1000,
        jobs: 800,
        failures: 1,
        allFailures: 4,
        incurredCents: 12_345,
        skipped: { count: 5, total: 100, lower: 0.02, upper: 0.11, confidence: 0.95 },
      },
      "It applied 1,000 times on 800 jobs; 1 callback was traced to it: 1 in 1,000 times, likely 0 to 5.6, 25 % of all failures of the firm's steps; it has cost $123.45 so far. It was skipped in 5 of 100 times on sealed records.",
    ],
  ])('%o', (part, sentence) => expect(portrait({ ...nothing, ...part })).toBe(sentence));
});

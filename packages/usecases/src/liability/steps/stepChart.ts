// The control chart of one step: failures per time it applied, by month or quarter where there are enough, else the times between two.
import { DateTime } from 'luxon';
import { laneyUPrime, uChart } from '@backsight/statistics/charts/attributes';
import type { Chart, ChartPoint } from '@backsight/statistics/charts/chart';
import { dispersionTest } from '@backsight/statistics/charts/dispersionTest';
import { gChart } from '@backsight/statistics/charts/rareEvents';
import { cannot, type Estimate } from '@backsight/statistics/estimate';

/** A month YYYY-MM with the times that the step applied; months follow each other without a gap. */
export type MonthTimes = { month: string; times: number };
/** `place` counts the times that the step applied up to this failure, from 1 on. */
export type PlacedFailure = { number: number; month: string; inspectedAt: Date; place: number };
/** A change of the step's text and when it came into force. */
export type StepChange = { at: Date; label: string };

export type StepChartFacts = {
  months: readonly MonthTimes[];
  /** By when their jobs were inspected. */
  failures: readonly PlacedFailure[];
  changes: readonly StepChange[];
  /** The present month, YYYY-MM. */
  now: string;
  zone: string;
  /** Whether places are counted one by one, or taken evenly from the sums of their months. */
  exact: boolean;
};

export type StepChart = {
  kind: 'months' | 'quarters' | 'between';
  /** Which chart, and why this one. */
  choice: string;
  /** What is to be seen. */
  summary: string;
  goodSide: Chart['goodSide'];
  /** Failures per time the step applied; or times it applied between two failures. */
  points: (ChartPoint & { of: string })[];
  /** Changes of the text: each stands before the point `at`. */
  marks: { at: number; label: string }[];
  /** Times that the step applied since its last failure. */
  since: number;
};

/** Failures that a month or a quarter should have on average, and the share of them that may have none (common practice). */
const ENOUGH = 2;
const MAY_BE_EMPTY = 0.25;
const FEWEST = 3;
/** Months or quarters from which on their scatter makes limits (common practice). */
const FEWEST_PERIODS = 8;
/** Months in which more callbacks are still to be expected (common practice); they are left out of center and limits. */
const YOUNG_MONTHS = 6;
/** Scatter beyond chance widens the limits from this p on. */
const ALPHA = 0.05;

/** A chart, or why there is none. J. C. Benneyan, Health Care Management Science 4 (2001) 305-318: rare failures are charted by the gaps between them. */
export function stepChart(facts: StepChartFacts): Estimate<StepChart> {
  const total = facts.months.reduce((sum, { times }) => sum + times, 0);
  if (total === 0) return cannot('no_exposure', 'the step has not applied on any inspection yet');
  const { length } = facts.failures;
  if (length < FEWEST)
    return cannot(
      'too_few',
      `${length === 0 ? 'no failure is' : length === 1 ? 'only 1 failure is' : `only ${length} failures are`} known, and a chart takes at least ${FEWEST}`,
    );
  for (const grain of ['months', 'quarters'] as const) {
    const samples = samplesOf(facts, grain);
    if (isEnough(samples)) return byPeriod(facts, samples, grain, total);
  }
  return between(facts, total);
}

type Sample = { label: string; first: string; count: number; exposure: number; leaveOut: boolean };

const quarterOf = (month: string): string => `Q${Math.ceil(Number(month.slice(5)) / 3)} ${month.slice(0, 4)}`;
const nameOf = (month: string): string => DateTime.fromISO(`${month}-01`, { zone: 'utc', locale: 'en-US' }).toFormat('LLL yyyy');
const monthOf = (at: Date, zone: string): string => DateTime.fromJSDate(at, { zone }).toFormat('yyyy-MM');

function samplesOf({ months, failures, now }: StepChartFacts, grain: 'months' | 'quarters'): Sample[] {
  const youngFrom = DateTime.fromISO(`${now}-01`, { zone: 'utc' })
    .minus({ months: YOUNG_MONTHS - 1 })
    .toFormat('yyyy-MM');
  const samples = new Map<string, Sample>();
  for (const { month, times } of months) {
    const label = grain === 'months' ? nameOf(month) : quarterOf(month);
    const sample = samples.get(label) ?? { label, first: month, count: 0, exposure: 0, leaveOut: false };
    const count = times > 0 ? failures.filter((failure) => failure.month === month).length : 0;
    samples.set(label, {
      ...sample,
      count: sample.count + count,
      exposure: sample.exposure + times,
      leaveOut: sample.leaveOut || month >= youngFrom,
    });
  }
  return [...samples.values()];
}

function isEnough(samples: readonly Sample[]): boolean {
  const kept = samples.filter(({ exposure, leaveOut }) => exposure > 0 && !leaveOut);
  const counted = kept.reduce((sum, { count }) => sum + count, 0);
  const empty = kept.filter(({ count }) => count === 0).length;
  return kept.length >= FEWEST_PERIODS && counted >= ENOUGH * kept.length && empty <= MAY_BE_EMPTY * kept.length;
}

const say = (n: number): string => n.toLocaleString('en-US', { maximumFractionDigits: 1 });

function byPeriod(facts: StepChartFacts, samples: readonly Sample[], grain: 'months' | 'quarters', total: number): Estimate<StepChart> {
  const kept = samples.filter(({ exposure, leaveOut }) => exposure > 0 && !leaveOut);
  const scatter = dispersionTest(
    'poisson',
    kept.map(({ count, exposure }) => ({ count, size: exposure })),
  );
  const laney = scatter.ok && scatter.varianceRatio > 1 && scatter.p < ALPHA ? laneyUPrime(samples) : null;
  const widened = laney?.ok && laney.sigmaZ > 1 ? laney : null;
  const chart = widened ?? uChart(samples);
  if (!chart.ok) return chart;
  const mean = kept.reduce((sum, { count }) => sum + count, 0) / kept.length;
  const one = grain === 'months' ? 'month' : 'quarter';
  const width = widened
    ? `They scatter more than chance alone would have it, so the limits are ${widened.sigmaZ.toFixed(2)} times as wide (Laney).`
    : 'Limits are those of chance alone.';
  const points = chart.points.map((point, at) => ({
    ...(samples[at]!.leaveOut ? withoutPraise(point, chart.goodSide) : point),
    of: `${samples[at]!.count} in ${say(samples[at]!.exposure)}`,
  }));
  return {
    ok: true,
    kind: grain,
    choice: `A ${one} has ${say(mean)} failures on average, enough to draw failures per time the step applied by ${one} (u chart). ${width} ${youngWords(samples.filter(({ leaveOut }) => leaveOut).length, one)}`,
    summary: summaryOf(points, `On average ${say(chart.center * 1000)} failures in 1,000 times the step applied.`),
    goodSide: chart.goodSide,
    points,
    marks: marksOf(facts.changes, samples.length, ({ at }) => {
      const month = monthOf(at, facts.zone);
      const next = samples.findIndex(({ first }) => first > month);
      return (next < 0 ? samples.length : next) - 1;
    }),
    since: sinceLast(facts.failures, total),
  };
}

function between(facts: StepChartFacts, total: number): Estimate<StepChart> {
  const youngFrom = DateTime.fromISO(`${facts.now}-01`, { zone: 'utc' })
    .minus({ months: YOUNG_MONTHS - 1 })
    .toFormat('yyyy-MM');
  const ends = facts.failures.slice(1);
  const gaps = ends.map((failure, at) => ({
    label: `Callback ${failure.number}, ${nameOf(failure.month)}`,
    between: Math.max(0, failure.place - facts.failures[at]!.place - 1),
    leaveOut: failure.month >= youngFrom,
  }));
  const kept = gaps.filter(({ leaveOut }) => !leaveOut).length;
  const used = kept >= 2 ? gaps : gaps.map((gap) => ({ ...gap, leaveOut: false }));
  const chart = gChart(used);
  if (!chart.ok) return chart;
  const points = chart.points.map((point, at) => ({
    ...(gaps[at]!.leaveOut ? withoutPraise(point, chart.goodSide) : point),
    of: `after callback ${facts.failures[at]!.number}`,
  }));
  const since = sinceLast(facts.failures, total);
  const counted = facts.exact ? '' : ' Within a month the times are taken as evenly spread.';
  return {
    ok: true,
    kind: 'between',
    choice: `Failures are too rare for a rate by month or quarter, so each point counts the times that the step applied between one failure and the next (g chart): a long way is good news. Jobs are in the order of their inspections.${counted} ${youngWords(kept >= 2 ? gaps.length - kept : 0, 'gap')}`,
    summary: summaryOf(
      points,
      `On average the step applied ${say(chart.meanGap)} times between two failures; ${say(since)} times since the last one.`,
    ),
    goodSide: chart.goodSide,
    points,
    marks: marksOf(facts.changes, points.length, ({ at }) => ends.filter(({ inspectedAt }) => inspectedAt < at).length),
    since,
  };
}

/** What is still coming in is never called better than it is. */
const withoutPraise = (point: ChartPoint, goodSide: Chart['goodSide']): ChartPoint => ({
  ...point,
  signals: point.signals.filter(({ side }) => side !== goodSide),
});

const youngWords = (young: number, one: string): string =>
  young === 0
    ? ''
    : `The newest ${young === 1 ? one : `${young} ${one}s`} (inspections of the last ${YOUNG_MONTHS} months) ${young === 1 ? 'is' : 'are'} left out of center and limits: callbacks about them may still come.`;

function summaryOf(points: readonly ChartPoint[], first: string): string {
  const signals = points.filter((point) => point.signals.length > 0).length;
  return `${first} ${signals === 0 ? 'No point is a signal.' : `${signals === 1 ? '1 point is a signal' : `${signals} points are signals`}: named below.`}`;
}

/** Changes before the first point or after the last are no borders between points. */
function marksOf(changes: readonly StepChange[], points: number, place: (change: StepChange) => number): StepChart['marks'] {
  return changes.map((change) => ({ at: place(change), label: change.label })).filter(({ at }) => at > 0 && at <= points);
}

const sinceLast = (failures: readonly PlacedFailure[], total: number): number => Math.max(0, total - failures.at(-1)!.place);

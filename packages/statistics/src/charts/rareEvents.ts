// Charts of rare failures: jobs, or time, from one failure to the next. A long gap is good news, a short one bad.
import { cannot, type Estimate } from '../estimate.ts';
import { requireCount } from '../interval.ts';
import { D2_OF_TWO, mean, meanMovingRange, tooFew, withSignals, type Chart, type Labelled } from './chart.ts';

/** Whole number of good units (jobs, times the step applied) between two failures: 0 when one followed on the other. */
export type GapSample = Labelled & { between: number };

/** Time from one failure to the next, at least 0, in any unit that the whole chart keeps to. */
export type TimeSample = Labelled & { time: number };

/** Limits such that 0.135 % of points lie beyond each, and the median, when only chance is at work. */
export type ProbabilityLimits = { lower: number; median: number; upper: number };

export type GChart = Chart & {
  /** Mean gap; the chart's centre is the median, 0.693 of it, so that runs mean something on so skewed a distribution. */
  meanGap: number;
  /** Chance of failure of one unit that goes with the mean gap. */
  chance: number;
  /** Of the geometric distribution, in whole units. */
  probability: ProbabilityLimits;
};

const TAIL = 0.00135;

/**
 * Chart of gaps counted in units, with the upper limit g + 3 sqrt(g (g + 1)); the lower one is 0, so that short gaps show as runs only.
 * J. C. Benneyan, "Number-between g-type statistical quality control charts for monitoring adverse events", Health Care
 * Management Science 4 (2001) 305-318; centre as in L. Provost & S. Murray, "The Health Care Data Guide" (2011) 228-229.
 * @throws RangeError on a gap that is no whole number of at least 0
 */
export function gChart(samples: readonly GapSample[]): Estimate<GChart> {
  for (const { label, between } of samples) requireCount(`gap of ${label}`, between);
  const kept = samples.filter(({ leaveOut }) => leaveOut !== true).map(({ between }) => between);
  const refused = tooFew(kept);
  if (refused) return refused;
  const meanGap = mean(kept);
  if (meanGap === 0) return cannot('no_scatter', 'every failure followed on the one before, with nothing between them');
  const chance = 1 / (meanGap + 1);
  const center = 0.693 * meanGap;
  const upper = meanGap + 3 * Math.sqrt(meanGap * (meanGap + 1));
  const quantile = (p: number): number => Math.max(0, Math.ceil(Math.log1p(-p) / Math.log1p(-chance) - 1));
  return {
    ok: true,
    center,
    goodSide: 'above',
    meanGap,
    chance,
    probability: { lower: quantile(TAIL), median: quantile(0.5), upper: quantile(1 - TAIL) },
    points: withSignals(samples.map(({ label, between }) => ({ label, value: between, center, lower: 0, upper }))),
  };
}

/** Transforms waiting times to something near to a normal distribution. */
const POWER = 0.2777;

export type TChart = Chart & {
  /** The chart that the limits come from: times to the power 0.2777, and centre +- 3 mean moving ranges over 1.128. */
  transformed: { values: number[]; center: number; lower: number; upper: number; meanMovingRange: number };
  meanTime: number;
  /** Of the exponential distribution, in the unit of the times. */
  probability: ProbabilityLimits;
};

/**
 * Chart of times between failures: an individuals chart of the transformed times, told in times again. There is no lower limit
 * where the transformed one lies below 0.
 * L. S. Nelson, "A control chart for parts-per-million nonconforming items", J. Quality Technology 26 (1994) 239-240;
 * Montgomery, "Introduction to Statistical Quality Control" (2009), section 7.3.5.
 * @throws RangeError on a time that is not finite or below 0
 */
export function tChart(samples: readonly TimeSample[]): Estimate<TChart> {
  for (const { label, time } of samples)
    if (!Number.isFinite(time) || time < 0) throw new RangeError(`time of ${label} must be at least 0, got ${time}`);
  const kept = samples.filter(({ leaveOut }) => leaveOut !== true).map(({ time }) => time);
  const refused = tooFew(kept);
  if (refused) return refused;
  const changed = kept.map((time) => time ** POWER);
  const range = meanMovingRange(changed);
  if (range === 0) return cannot('no_scatter', 'all times are the same, so that their scatter is unknown');
  const middle = mean(changed);
  const reach = (3 * range) / D2_OF_TWO;
  const back = (value: number): number => value ** (1 / POWER);
  const [center, upper, lower] = [back(middle), back(middle + reach), middle > reach ? back(middle - reach) : null];
  const meanTime = mean(kept);
  const quantile = (p: number): number => -meanTime * Math.log1p(-p);
  return {
    ok: true,
    center,
    goodSide: 'above',
    transformed: {
      values: samples.map(({ time }) => time ** POWER),
      center: middle,
      lower: middle - reach,
      upper: middle + reach,
      meanMovingRange: range,
    },
    meanTime,
    probability: { lower: quantile(TAIL), median: quantile(0.5), upper: quantile(1 - TAIL) },
    points: withSignals(samples.map(({ label, time }) => ({ label, value: time, center, lower, upper }))),
  };
}

// Charts of counts against 3 sigma limits, plain or widened by what scatters from sample to sample beyond chance (Laney).
import { cannot, type Estimate, type NotEstimable } from '../estimate.ts';
import { requireCount } from '../interval.ts';
import { D2_OF_TWO, meanMovingRange, tooFew, withSignals, type Chart, type ChartPoint, type Labelled } from './chart.ts';

/** `count` of `total` records, both whole; a sample of total 0 is kept as a gap. */
export type ShareSample = Labelled & { count: number; total: number };

/** `count` failures over an exposure (jobs, or times the step applied), whole or not; an exposure of 0 is kept as a gap. */
export type RateSample = Labelled & { count: number; exposure: number };

/** `count` failures, every sample over the same exposure. */
export type CountSample = Labelled & { count: number };

export type WidenedChart = Chart & {
  /** Factor on the limits: 1 where samples scatter as chance alone would have it. */
  sigmaZ: number;
};

/**
 * Chart of shares, 0 to 1, with limits p +- 3 sqrt(p (1 - p) / n), not below 0 or above 1.
 * D. C. Montgomery, "Introduction to Statistical Quality Control", chapter on attributes; NIST/SEMATECH e-Handbook, section 6.3.3.2.
 * @throws RangeError on a count that is broken or exceeds its total
 */
export const pChart = (samples: readonly ShareSample[]): Estimate<Chart> => draw(shares(samples), false);

/**
 * Chart of failures per unit of exposure, with limits u +- 3 sqrt(u / n), not below 0 (Montgomery, same chapter).
 * @throws RangeError on a broken count or an exposure below 0
 */
export const uChart = (samples: readonly RateSample[]): Estimate<Chart> => draw(rates(samples), false);

/**
 * Chart of counts over equal exposures, with limits c +- 3 sqrt(c), not below 0 (Montgomery, same chapter).
 * @throws RangeError on a broken count
 */
export const cChart = (samples: readonly CountSample[]): Estimate<Chart> => uChart(samples.map((sample) => ({ ...sample, exposure: 1 })));

/**
 * Chart of shares for samples so large, or of so mixed a kind, that the plain limits would call most of them signals: limits
 * p +- 3 sqrt(p (1 - p) / n) sigmaZ, where sigmaZ is the mean moving range of the standardized shares over 1.128.
 * D. B. Laney, "Improved control charts for attributes", Quality Engineering 14 (2002) 531-537.
 * @throws RangeError as pChart does
 */
export const laneyPPrime = (samples: readonly ShareSample[]): Estimate<WidenedChart> => draw(shares(samples), true);

/** The same of failures per unit of exposure: limits u +- 3 sqrt(u / n) sigmaZ (Laney 2002). @throws RangeError as uChart does */
export const laneyUPrime = (samples: readonly RateSample[]): Estimate<WidenedChart> => draw(rates(samples), true);

type Sized = Labelled & { count: number; size: number };
type Model = { samples: Sized[]; variance: (center: number) => number; most: number };

function shares(samples: readonly ShareSample[]): Model {
  for (const { label, count, total } of samples) {
    requireCount(`count of ${label}`, count);
    requireCount(`total of ${label}`, total);
    if (count > total) throw new RangeError(`count ${count} of ${label} exceeds its total ${total}`);
  }
  return {
    samples: samples.map(({ total, ...sample }) => ({ ...sample, size: total })),
    variance: (center) => center * (1 - center),
    most: 1,
  };
}

function rates(samples: readonly RateSample[]): Model {
  for (const { label, count, exposure } of samples) {
    requireCount(`count of ${label}`, count);
    if (!Number.isFinite(exposure) || exposure < 0) throw new RangeError(`exposure of ${label} must be at least 0, got ${exposure}`);
    if (exposure === 0 && count > 0) throw new RangeError(`${label} counts ${count} over an exposure of 0`);
  }
  return {
    samples: samples.map(({ exposure, ...sample }) => ({ ...sample, size: exposure })),
    variance: (center) => center,
    most: Infinity,
  };
}

function draw({ samples, variance, most }: Model, widen: boolean): Estimate<WidenedChart> {
  const kept = samples.filter(({ size, leaveOut }) => size > 0 && leaveOut !== true);
  const center = sum(kept, ({ count }) => count) / sum(kept, ({ size }) => size);
  const refused = tooFew(kept) ?? withoutScatter(center, most);
  if (refused) return refused;
  const deviation = (size: number): number => Math.sqrt(variance(center) / size);
  const z = kept.map(({ count, size }) => (count / size - center) / deviation(size));
  const sigmaZ = widen ? meanMovingRange(z) / D2_OF_TWO : 1;
  if (sigmaZ === 0) return cannot('no_scatter', 'all samples show the same value, so that their scatter is unknown');
  const point = ({ label, count, size }: Sized): Omit<ChartPoint, 'signals'> => {
    if (size === 0) return { label, value: null, center, lower: null, upper: null };
    const reach = 3 * deviation(size) * sigmaZ;
    return { label, value: count / size, center, lower: Math.max(0, center - reach), upper: Math.min(most, center + reach) };
  };
  return { ok: true, center, goodSide: 'below', sigmaZ, points: withSignals(samples.map(point)) };
}

function withoutScatter(center: number, most: number): NotEstimable | null {
  if (center === 0) return cannot('nothing_counted', 'nothing was counted in any sample');
  return center === most ? cannot('everything_counted', 'every record of every sample was counted') : null;
}

const sum = <T>(rows: readonly T[], of: (row: T) => number): number => rows.reduce((total, row) => total + of(row), 0);

// Control charts: what a point holds, and the two rules by which a point is a signal.
import { cannot, type NotEstimable } from '../estimate.ts';

/** A point that calls for a look at what happened; `sentence` says it in plain words. */
export type Signal = {
  rule: 'beyond_limits' | 'run' | 'sum_beyond_limit';
  side: 'above' | 'below';
  sentence: string;
};

/** Values and limits in the unit of the chart. */
export type ChartPoint = {
  label: string;
  /** null when there was nothing to count over: the point is not drawn, has no limits and belongs to no run. */
  value: number | null;
  center: number;
  /** null when there is no limit on that side. */
  lower: number | null;
  upper: number | null;
  signals: Signal[];
};

/** A chart that could be drawn; `goodSide` tells on which side of the centre points are good news. */
export type Chart = { center: number; goodSide: Signal['side']; points: ChartPoint[] };

/** What every sample may say of itself: a sample with a known cause, or after the baseline, is drawn but left out of centre and limits. */
export type Labelled = { label: string; leaveOut?: boolean };

/** Points in a row on one side of the centre that make a signal. */
const RUN = 8;

/**
 * Marks the points that are signals: beyond a 3 sigma limit (W. A. Shewhart, "Economic Control of Quality of Manufactured
 * Product", 1931), or the eighth or later in a row on one side of the centre (Western Electric, "Statistical Quality Control
 * Handbook", 1956; NIST/SEMATECH e-Handbook, section 6.3.2). A point on the centre ends a run.
 */
export function withSignals(points: readonly Omit<ChartPoint, 'signals'>[]): ChartPoint[] {
  let [row, rowSide]: [number, Signal['side'] | null] = [0, null];
  return points.map((point) => {
    if (point.value === null) return { ...point, signals: [] };
    const side = sideOf(point.value, point.center);
    row = side !== null && side === rowSide ? row + 1 : 1;
    rowSide = side;
    return { ...point, signals: [...beyond(point, point.value), ...inRow(point.label, side, row)] };
  });
}

function beyond({ label, lower, upper }: Omit<ChartPoint, 'signals'>, value: number): Signal[] {
  if (upper !== null && value > upper)
    return [{ rule: 'beyond_limits', side: 'above', sentence: `${label} lies above the upper control limit.` }];
  if (lower !== null && value < lower)
    return [{ rule: 'beyond_limits', side: 'below', sentence: `${label} lies below the lower control limit.` }];
  return [];
}

function inRow(label: string, side: Signal['side'] | null, row: number): Signal[] {
  if (side === null || row < RUN) return [];
  return [{ rule: 'run', side, sentence: `${label} is number ${row} in a row ${side} the center line.` }];
}

const sideOf = (value: number, center: number): Signal['side'] | null => (value > center ? 'above' : value < center ? 'below' : null);

/** Refuses a chart of fewer than two samples that count for centre and limits; null when there are enough. */
export const tooFew = (kept: readonly unknown[]): NotEstimable | null =>
  kept.length < 2 ? cannot('too_few', 'a chart needs at least two samples to take its centre and limits from') : null;

/** Mean of the distances between neighbours; at least two values. */
export function meanMovingRange(values: readonly number[]): number {
  const ranges = values.slice(1).map((value, at) => Math.abs(value - values[at]!));
  return mean(ranges);
}

/** Mean moving range of two normal values over their standard deviation, as printed in the tables of control chart factors. */
export const D2_OF_TWO = 1.128;

export const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

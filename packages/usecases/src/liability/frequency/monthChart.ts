// The control chart of the months: which fits, its points, and nothing praised that is still coming in.
import { chooseChart, widenedWords, withoutEarlyPraise } from '@backsight/domain/liability/frequency/choice';
import { monthName, type MonthFigures } from '@backsight/domain/liability/frequency/months';
import { laneyUPrime, uChart } from '@backsight/statistics/charts/attributes';
import type { ChartPoint } from '@backsight/statistics/charts/chart';
import { dispersionTest } from '@backsight/statistics/charts/dispersionTest';
import { gChart } from '@backsight/statistics/charts/rareEvents';
import { cannot, type Estimate } from '@backsight/statistics/estimate';
import type { PlacedCallback } from '@backsight/store/liability/frequency';

export type MonthChart = {
  kind: 'u' | 'g';
  /** Which chart and why, and whether its limits were widened. */
  sentence: string;
  goodSide: 'above' | 'below';
  /** u: callbacks per 100 jobs by month; g: jobs between two callbacks. `young`: still coming in, so outside center and limits. */
  points: (ChartPoint & { young: boolean })[];
};

const PER = 100;
/** Scatter beyond chance is corrected from this p of the dispersion test on. */
const ALPHA = 0.05;

/** `placed` is asked for only where callbacks are rare. */
export async function monthChart(months: readonly MonthFigures[], placed: () => Promise<PlacedCallback[]>): Promise<Estimate<MonthChart>> {
  if (months.every(({ jobs }) => jobs === 0)) return cannot('no_exposure', 'nothing was inspected in these months');
  const settled = months.filter(({ state }) => state === 'settled');
  if (settled.every(({ jobs }) => jobs === 0))
    return cannot('too_few', 'every month here is still coming in, and limits need months that are all there');
  const choice = chooseChart(settled);
  if (choice.kind === 'g') return rareChart(months, await placed(), choice.sentence);
  return countChart(months, choice.sentence);
}

function countChart(months: readonly MonthFigures[], sentence: string): Estimate<MonthChart> {
  const samples = months.map(({ month, jobs, callbacks, state }) => ({
    label: monthName(month),
    count: jobs > 0 ? Math.max(0, callbacks) : 0,
    exposure: jobs / PER,
    leaveOut: state !== 'settled',
  }));
  const kept = samples.filter(({ exposure, leaveOut }) => exposure > 0 && !leaveOut);
  const scatter = dispersionTest(
    'poisson',
    kept.map(({ count, exposure }) => ({ count, size: exposure })),
  );
  if (!scatter.ok) return scatter;
  const laney = scatter.varianceRatio > 1 && scatter.p < ALPHA ? laneyUPrime(samples) : null;
  // Limits are never made narrower than chance alone would have them.
  const widened = laney?.ok && laney.sigmaZ > 1 ? laney : null;
  const chart = widened ?? uChart(samples);
  if (!chart.ok) return chart;
  const young = months.map(({ state }) => state !== 'settled');
  return {
    ok: true,
    kind: 'u',
    sentence: `${sentence} ${widenedWords(scatter.varianceRatio, scatter.p, widened?.sigmaZ ?? null)}`,
    goodSide: chart.goodSide,
    points: withoutEarlyPraise(
      chart.points.map((point, at) => ({ ...point, young: young[at]! })),
      chart.goodSide,
    ),
  };
}

/** A gap ends at a callback; while the month of that inspection is young, a further callback may still cut it. */
function rareChart(months: readonly MonthFigures[], placed: readonly PlacedCallback[], sentence: string): Estimate<MonthChart> {
  const young = new Set(months.filter(({ state }) => state !== 'settled').map(({ month }) => month));
  const gaps = placed.slice(1).map((callback, at) => ({
    label: callback.inspectedOn,
    between: Math.max(0, callback.place - placed[at]!.place - 1),
    leaveOut: young.has(callback.month),
  }));
  const chart = gChart(gaps);
  if (!chart.ok) return chart;
  return {
    ok: true,
    kind: 'g',
    sentence,
    goodSide: chart.goodSide,
    points: withoutEarlyPraise(
      chart.points.map((point, at) => ({ ...point, young: gaps[at]!.leaveOut })),
      chart.goodSide,
    ),
  };
}

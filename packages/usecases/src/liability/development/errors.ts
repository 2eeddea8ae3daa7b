// How far estimates from jobs may be off: chance in what comes, and not knowing the cost of each age better.
import type { Development, Origin } from '@backsight/domain/liability/development/triangle';
import { cannot, type Estimate } from '@backsight/statistics/estimate';
import { exposureStandardError, poissonScatter, type PeriodToCome } from '@backsight/statistics/reserving/scatter';
import type { Pattern } from './pattern.ts';

/** Standard error of some ages to come, by how amounts of the triangle scattered. `certain`: what is expected of 100 jobs was said. */
export function errorByScatter(
  { of, origins }: Development,
  { triangle, shares }: Pattern,
  certain: boolean,
): Estimate<{ of: (periods: readonly PeriodToCome[]) => number }> {
  const found = poissonScatter(triangle);
  if (!found.ok) return found;
  if (origins.every(({ latest }) => latest <= 0)) return cannot('nothing_counted', 'nothing is left of what was known');
  const unseen = shares.findIndex((share, age) => age > 0 && share !== shares[age - 1] && jobsSeen(origins, age) === 0);
  if (unseen > 0) return cannot('no_exposure', `no job stands behind what is known of age ${unseen}`);
  // Counts scatter by chance alone at least as much as what is expected; less was luck.
  const scatter = of === 'callbacks' ? Math.max(1, found.scatter) : found.scatter;
  return { ok: true, of: (periods) => exposureStandardError(scatter, periods, certain) };
}

/** Jobs whose period was watched to the end of an age. */
const jobsSeen = (origins: readonly Origin[], age: number): number =>
  origins.reduce((sum, { jobs, whole }) => (whole >= age ? sum + jobs : sum), 0);

type Growing = { origin: Origin; share: number; /** Amount when a share of the end is known. */ at: (share: number) => number };

/** What is to come of one origin, age by age from the first; of the age that runs only the part of it that is left. */
export function periodsToCome({ origin, share, at }: Growing, shares: readonly number[], origins: readonly Origin[]): PeriodToCome[] {
  return shares.slice(1).map((end, index): PeriodToCome => {
    const [age, start] = [index + 1, shares[index]!];
    const from = origin.age >= age ? end : Math.max(origin.age, index) === index ? start : share;
    return {
      toCome: Math.abs(at(end) - at(from)),
      exposureToCome: end === start ? 0 : Math.abs((origin.jobs * (end - from)) / (end - start)),
      exposureSeen: jobsSeen(origins, age),
    };
  });
}

/** The same of all origins. */
export const together = (each: readonly (readonly PeriodToCome[])[]): PeriodToCome[] =>
  (each[0] ?? []).map(({ exposureSeen }, age) => ({
    exposureSeen,
    toCome: each.reduce((sum, periods) => sum + periods[age]!.toCome, 0),
    exposureToCome: each.reduce((sum, periods) => sum + periods[age]!.exposureToCome, 0),
  }));

// Do samples scatter more than chance alone would make them? If so, plain limits call too much a signal.
import { chiSquareCdf } from '../distributions.ts';
import { cannot, type Estimate } from '../estimate.ts';
import { requireCount, requirePositive } from '../interval.ts';

export type Dispersion = {
  /** Observed over expected variance: above 1 where samples scatter more than chance. */
  varianceRatio: number;
  /** varianceRatio x degrees, chi-square distributed when only chance is at work. */
  statistic: number;
  degrees: number;
  /** Chance of so much scatter or more by chance alone. */
  p: number;
};

/**
 * Dispersion test of counts over sizes: whole totals for `binomial`, exposures above 0 for `poisson`.
 * G. B. Wetherill & D. W. Brown, "Statistical Process Control: Theory and Practice" (1991) 212-218.
 * @throws RangeError on a broken count or size, or a count above its total
 */
export function dispersionTest(model: 'binomial' | 'poisson', samples: readonly { count: number; size: number }[]): Estimate<Dispersion> {
  for (const { count, size } of samples) {
    requireCount('count', count);
    requirePositive('size', size);
    if (model === 'binomial' && count > size) throw new RangeError(`count ${count} exceeds size ${size}`);
  }
  if (samples.length < 2) return cannot('too_few', 'scatter shows only between two samples or more');
  const center = total(samples, 'count') / total(samples, 'size');
  if (center === 0) return cannot('nothing_counted', 'nothing was counted in any sample');
  if (model === 'binomial' && center === 1) return cannot('everything_counted', 'every record of every sample was counted');
  const variance = model === 'binomial' ? center * (1 - center) : center;
  const statistic = samples.reduce((sum, { count, size }) => sum + (count - size * center) ** 2 / (size * variance), 0);
  const degrees = samples.length - 1;
  return { ok: true, varianceRatio: statistic / degrees, statistic, degrees, p: 1 - chiSquareCdf(statistic, degrees) };
}

const total = <K extends string>(rows: readonly Record<K, number>[], key: K): number => rows.reduce((sum, row) => sum + row[key], 0);

// Confidence intervals of a share: so many of so many records.
import { betaQuantile, normalQuantile } from './distributions.ts';
import { requireCount, requireProbability } from './interval.ts';
import type { ConfidenceInterval } from './interval.ts';

/** `count` of `total`: both whole numbers, count <= total, total >= 1. */
export type Share = { count: number; total: number };

/**
 * Score interval of a share, 0 to 1. Good coverage on average at any size, so the one to show.
 * Wilson, "Probable inference, the law of succession, and statistical inference", J. Am. Stat. Assoc. 22 (1927) 209-212.
 * @throws RangeError on a negative count, count > total or total 0
 */
export function wilsonInterval(share: Share, confidence = 0.95): ConfidenceInterval {
  check(share, confidence);
  const { count, total } = share;
  const z = normalQuantile(1 - (1 - confidence) / 2);
  const center = count + (z * z) / 2;
  const halfWidth = z * Math.sqrt((count * (total - count)) / total + (z * z) / 4);
  return {
    lower: count === 0 ? 0 : (center - halfWidth) / (total + z * z),
    upper: count === total ? 1 : (center + halfWidth) / (total + z * z),
  };
}

/**
 * Exact interval of a share, 0 to 1: covers the true share at least as often as promised, so it is the wider one.
 * Clopper & Pearson, "The use of confidence or fiducial limits illustrated in the case of the binomial",
 * Biometrika 26 (1934) 404-413, in its beta quantile form.
 * @throws RangeError on a negative count, count > total or total 0
 */
export function clopperPearsonInterval(share: Share, confidence = 0.95): ConfidenceInterval {
  check(share, confidence);
  const { count, total } = share;
  const tail = (1 - confidence) / 2;
  return {
    lower: count === 0 ? 0 : betaQuantile(tail, count, total - count + 1),
    upper: count === total ? 1 : betaQuantile(1 - tail, count + 1, total - count),
  };
}

/**
 * Difference of two independent shares, `first` minus `other` (-1 to 1), with its hybrid score interval.
 * Newcombe, "Interval estimation for the difference between independent proportions: comparison of eleven methods",
 * Statistics in Medicine 17 (1998) 873-890, method 10.
 * @throws RangeError as wilsonInterval does
 */
export function shareDifference(first: Share, other: Share, confidence = 0.95): ConfidenceInterval & { difference: number } {
  const a = wilsonInterval(first, confidence);
  const b = wilsonInterval(other, confidence);
  const p = first.count / first.total;
  const q = other.count / other.total;
  return {
    difference: p - q,
    lower: p - q - Math.hypot(p - a.lower, b.upper - q),
    upper: p - q + Math.hypot(a.upper - p, q - b.lower),
  };
}

function check({ count, total }: Share, confidence: number): void {
  requireCount('count', count);
  requireCount('total', total);
  requireProbability('confidence', confidence);
  if (total === 0) throw new RangeError('a share of nothing has no interval');
  if (count > total) throw new RangeError(`count ${count} exceeds total ${total}`);
}

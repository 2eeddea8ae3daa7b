// How many there were in all, from two who looked independently and what both of them saw.
import { normalQuantile } from './distributions.ts';
import { requireCount, requireProbability, type ConfidenceInterval } from './interval.ts';

/** `both` is at most the smaller of the two. */
export type TwoLooks = { first: number; second: number; both: number };
export type Estimate = { total: number; variance: number; seen: number; /** Estimated and seen by nobody. */ missed: number };

/**
 * Chapman, "Some properties of the hypergeometric distribution with applications to zoological sample censuses", Univ. California Publ. Stat. 1
 * (1951) 131-160; variance by Seber, "The effects of trap response on tag recapture estimates", Biometrics 26 (1970) 13-22. Nearly unbiased
 * where both together are at least as many as there are; assumes that every one is equally likely to be seen and that the looks are independent.
 * What is hidden from both makes it too low.
 * @throws RangeError on a negative count, or when both saw more than one of them did
 */
export function chapmanEstimate({ first, second, both }: TwoLooks): Estimate {
  for (const [count, name] of [
    [first, 'first'],
    [second, 'second'],
    [both, 'both'],
  ] as const)
    requireCount(name, count);
  if (both > Math.min(first, second)) throw new RangeError('both cannot have seen more than one of them');
  const total = ((first + 1) * (second + 1)) / (both + 1) - 1;
  const variance = ((first + 1) * (second + 1) * (first - both) * (second - both)) / ((both + 1) ** 2 * (both + 2));
  const seen = first + second - both;
  return { total, variance, seen, missed: total - seen };
}

/** Interval by the normal approximation; never below what was seen. */
export function chapmanInterval(estimate: Estimate, confidence = 0.95): ConfidenceInterval {
  requireProbability('confidence', confidence);
  const half = normalQuantile(1 - (1 - confidence) / 2) * Math.sqrt(estimate.variance);
  return { lower: Math.max(estimate.total - half, estimate.seen), upper: estimate.total + half };
}

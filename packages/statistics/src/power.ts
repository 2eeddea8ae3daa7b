// How many failures must be seen before a change of the rate can be told from chance?
import { binomialLowerTail, binomialUpperTail, normalQuantile } from './distributions.ts';
import { requirePositive, requireProbability } from './interval.ts';

export type Comparison = {
  /** Rate of the group over rate of the reference that is to be told apart from 1: 0.5 is a halving. */
  ratio: number;
  /** The group's share of the whole exposure, 0 to 1: 0.5 when before and after are equally long. */
  groupShare?: number;
  /** Two-sided error of the first kind, half on each side. */
  alpha?: number;
  /** Chance of telling the change when it is there. */
  power?: number;
};

export type RequiredFailures = {
  /** Failures in group and reference together. */
  total: number;
  /** How the total is expected to fall if the rates stand in the given ratio, rounded to whole failures that add up to it. */
  inReference: number;
  inGroup: number;
};

/**
 * Smallest total of failures from which on the exact conditional test of two Poisson rates (Przyborowski & Wilenski 1940,
 * alpha / 2 on each side) keeps at least the wanted power. The power of an exact test climbs in a saw-tooth, so a smaller
 * total may reach it by luck of rounding and the next one miss it again: the answer is the total after the last miss.
 * @throws RangeError when ratio is negative or 1, or a share, alpha or power is not between 0 and 1
 */
export function requiredFailures({ ratio, groupShare = 0.5, alpha = 0.05, power = 0.8 }: Comparison): RequiredFailures {
  check({ ratio, groupShare, alpha, power });
  const underChange = (ratio * groupShare) / (ratio * groupShare + 1 - groupShare);
  let total = beyondLastMiss(groupShare, underChange, alpha, power);
  while (total > 1 && exactPower(total - 1, groupShare, underChange, alpha) >= power) total--;
  const inGroup = Math.round(total * underChange);
  return { total, inReference: total - inGroup, inGroup };
}

export type WantedExposure = {
  /** Failures per unit of exposure before the change, above 0. */
  rate: number;
  /** Rate after over rate before that is to be told apart from 1. */
  ratio: number;
  alpha?: number;
  power?: number;
  /** Exposure before the change, when that is over and cannot grow; without it both sides are planned equally long. */
  referenceExposure?: number;
};

export type RequiredExposure = {
  /** Exposure of the group (after), in the unit of the rate. */
  group: number;
  /** Exposure of the reference (before). */
  reference: number;
  /** Failures that both are expected to bring together: as many as the exact test needs. */
  failures: number;
};

/** Beyond so many times the reference's exposure a longer group tells next to nothing more. */
const MOST_TIMES = 200;

/**
 * Exposure after a change from which on the exact conditional test of two Poisson rates is expected to hold the failures that it
 * needs (see `requiredFailures`): rate x (reference + ratio x group) >= total needed at that share of the exposure. Null when the
 * reference is fixed and so short that no exposure after it is enough. From four failures in 2,000 jobs a halving takes some
 * 25,000 jobs on each side.
 * @throws RangeError when a rate or an exposure is not above 0, and as requiredFailures does
 */
export function requiredExposure({ rate, ratio, alpha = 0.05, power = 0.8, referenceExposure }: WantedExposure): RequiredExposure | null {
  requirePositive('rate', rate);
  if (referenceExposure === undefined) {
    const failures = requiredFailures({ ratio, alpha, power }).total;
    const each = failures / (rate * (1 + ratio));
    return { group: each, reference: each, failures };
  }
  requirePositive('referenceExposure', referenceExposure);
  const lacks = (times: number): boolean => {
    const needed = requiredFailures({ ratio, alpha, power, groupShare: times / (1 + times) }).total;
    return rate * referenceExposure * (1 + ratio * times) < needed;
  };
  if (lacks(MOST_TIMES)) return null;
  let [low, high] = [0, MOST_TIMES];
  while (high - low > Math.max(1e-3, high * 1e-3)) {
    const middle = (low + high) / 2;
    if (lacks(middle)) low = middle;
    else high = middle;
  }
  const group = high * referenceExposure;
  return { group, reference: referenceExposure, failures: Math.ceil(rate * (referenceExposure + ratio * group)) };
}

/** Chance that the exact test rejects `share` among `total` failures when the true share is `truth`. */
function exactPower(total: number, share: number, truth: number, alpha: number): number {
  const low = lowestKept(total, share, alpha) - 1;
  const high = total - lowestKept(total, 1 - share, alpha) + 1;
  return binomialLowerTail(low, total, truth) + binomialUpperTail(high, total, truth);
}

/** Smallest count whose lower tail exceeds alpha / 2, found by stepping from the normal approximation. */
function lowestKept(total: number, share: number, alpha: number): number {
  const guess = total * share + normalQuantile(alpha / 2) * Math.sqrt(total * share * (1 - share));
  let count = Math.max(0, Math.floor(guess));
  while (count > 0 && binomialLowerTail(count - 1, total, share) > alpha / 2) count--;
  while (binomialLowerTail(count, total, share) <= alpha / 2) count++;
  return count;
}

/** A total safely above the answer: the normal approximation, moved by one whole failure in each critical value, and a third more. */
function beyondLastMiss(share: number, truth: number, alpha: number, power: number): number {
  const difference = Math.abs(truth - share);
  const spread =
    normalQuantile(1 - alpha / 2) * Math.sqrt(share * (1 - share)) + Math.max(0, normalQuantile(power)) * Math.sqrt(truth * (1 - truth));
  const smooth = (spread / difference) ** 2;
  const stepped = (smooth / 4) * (1 + Math.sqrt(1 + 4 / (smooth * difference))) ** 2;
  return Math.ceil(stepped * 1.35) + 20;
}

function check({ ratio, groupShare, alpha, power }: Required<Comparison>): void {
  if (!Number.isFinite(ratio) || ratio < 0 || ratio === 1) throw new RangeError(`ratio must be at least 0 and not 1, got ${ratio}`);
  requireProbability('groupShare', groupShare);
  requireProbability('alpha', alpha);
  requireProbability('power', power);
}

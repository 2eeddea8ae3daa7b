// A funnel of units (people, pairs, steps) of unlike size against one target: never a ranking.
import { chiSquareCdf } from './distributions.ts';
import { cannot, type Estimate } from './estimate.ts';
import { chanceVariance, funnelLimits, normalFunnelLimits, type FunnelLine } from './funnelLimits.ts';
import { requireCount, requirePositive } from './interval.ts';
import type { ConfidenceInterval } from './interval.ts';

/** `size` as in FunnelLine. */
export type FunnelUnit = { name: string; count: number; size: number };

export type FunnelPoint = FunnelUnit & {
  value: number;
  /** Count that the target makes of the unit's size. */
  expected: number;
  limits95: ConfidenceInterval;
  limits998: ConfidenceInterval;
  position: 'within' | 'beyond_95' | 'beyond_998';
  side: 'above' | 'below' | null;
  sentence: string;
};

export type FunnelDispersion = {
  /** Mean of the squared standardized differences from the target, their outer tenths drawn in: about 1 when only chance is at work. */
  phi: number;
  /** Chance of so large a phi or a larger one by chance alone (chi-square). */
  p: number;
  /** Variance between units beyond chance, in the squared unit of the target; 0 when there is none to speak of. */
  between: number;
};

export type Funnel = {
  target: number;
  dispersion: FunnelDispersion;
  /** `exact` while units scatter as chance would have it, `widened` by the variance between units otherwise. */
  limits: 'exact' | 'widened';
  points: FunnelPoint[];
};

/**
 * Places units in their funnel; without a target it is the figure of all together. When units scatter more than chance, limits
 * are widened by the variance between units (additive model), so that nobody stands out for what all share.
 * Spiegelhalter, Statistics in Medicine 24 (2005) 1185-1202, and "Handling over-dispersion of performance indicators", Quality
 * and Safety in Health Care 14 (2005) 347-351.
 * @throws RangeError on broken counts or sizes, or a count above its total
 */
export function funnel(model: FunnelLine['model'], units: readonly FunnelUnit[], given?: number): Estimate<Funnel> {
  for (const { name, count, size } of units) {
    requireCount(`count of ${name}`, count);
    requirePositive(`size of ${name}`, size);
    if (model === 'binomial' && count > size) throw new RangeError(`count ${count} of ${name} exceeds its total ${size}`);
  }
  if (units.length === 0) return cannot('too_few', 'there is nobody to compare');
  const target = given ?? total(units, 'count') / total(units, 'size');
  if (target === 0) return cannot('nothing_counted', 'nothing was counted for anybody');
  if (model === 'binomial' && target === 1) return cannot('everything_counted', 'every record of everybody was counted');
  const lines = units.map(({ size }): FunnelLine => ({ model, target, size }));
  const dispersion = overDispersion(
    units.map(({ count, size }) => count / size),
    lines,
  );
  const limits = dispersion.between > 0 ? 'widened' : 'exact';
  const points = units.map((unit, at) => {
    const limitsAt = (confidence: number): ConfidenceInterval =>
      limits === 'exact' ? funnelLimits(lines[at]!, confidence) : normalFunnelLimits(lines[at]!, confidence, dispersion.between);
    return place(unit, target, limitsAt(0.95), limitsAt(0.998));
  });
  return { ok: true, target, dispersion, limits, points };
}

/**
 * Phi with the outer tenths drawn in (winsorized) and the variance between units by moments: (I phi - (I - 1)) / (sum w - sum w^2 / sum w),
 * w = 1 / chance variance, 0 where I phi < I - 1 (Spiegelhalter 2005).
 */
function overDispersion(values: readonly number[], lines: readonly FunnelLine[]): FunnelDispersion {
  const count = values.length;
  const z = values.map((value, at) => (value - lines[at]!.target) / Math.sqrt(chanceVariance(lines[at]!)));
  const [low, high] = [quantile(z, 0.1), quantile(z, 0.9)];
  const scatter = z.reduce((sum, each) => sum + Math.min(high, Math.max(low, each)) ** 2, 0);
  const weights = lines.map((line) => 1 / chanceVariance(line));
  const all = weights.reduce((sum, w) => sum + w, 0);
  const spread = all - weights.reduce((sum, w) => sum + w * w, 0) / all;
  const between = count > 1 ? Math.max(0, (scatter - (count - 1)) / spread) : 0;
  return { phi: scatter / count, p: 1 - chiSquareCdf(scatter, count), between };
}

/** Linear between the ordered values, as R's default (Hyndman & Fan, type 7). */
function quantile(values: readonly number[], p: number): number {
  const ordered = [...values].sort((a, b) => a - b);
  const at = (ordered.length - 1) * p;
  const [below, above] = [ordered[Math.floor(at)]!, ordered[Math.ceil(at)]!];
  return below + (at - Math.floor(at)) * (above - below);
}

function place(unit: FunnelUnit, target: number, limits95: ConfidenceInterval, limits998: ConfidenceInterval): FunnelPoint {
  const value = unit.count / unit.size;
  const outside = ({ lower, upper }: ConfidenceInterval): boolean => value < lower || value > upper;
  const position = outside(limits998) ? 'beyond_998' : outside(limits95) ? 'beyond_95' : 'within';
  const side = position === 'within' ? null : value > target ? 'above' : 'below';
  const sentence =
    side === null ? `${unit.name} lies where chance alone would place nineteen of twenty.` : outsideWords(unit.name, side, position);
  return { ...unit, value, expected: target * unit.size, limits95, limits998, position, side, sentence };
}

const outsideWords = (name: string, side: 'above' | 'below', position: FunnelPoint['position']): string =>
  position === 'beyond_998'
    ? `${name} lies ${side} the 99.8 % limit: by chance two in a thousand lie outside, so look for a cause.`
    : `${name} lies ${side} the 95 % limit: one in twenty lies outside by chance.`;

const total = (units: readonly FunnelUnit[], key: 'count' | 'size'): number => units.reduce((sum, unit) => sum + unit[key], 0);

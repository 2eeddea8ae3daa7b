// Band speeds and factors between towns, fitted to the firm's own recorded drives.
import { BANDS, greatCircleKm, PARKING_MINUTES, roadMinutes, SAME_PLACE_KM, STANDARD_SPEEDS } from './travel.ts';
import type { Place } from './travel.ts';
import { pairKey, townOf } from './travelModel.ts';
import type { NamedPlace, PairFactor } from './travelModel.ts';

/** A drive as it was recorded; minutes from setting out to being at the door. */
export type Drive = { from: Place; to: Place; minutes: number };

/** Fewest drives in a band before its speed is fitted; a median of fewer moves by chance (our choice). */
export const ENOUGH_IN_BAND = 20;
/** Fewest drives between two towns before they get a factor of their own (our choice). */
export const ENOUGH_BETWEEN_TOWNS = 8;
/** Beyond these a record is a stop on the way or a mark set too late, not a drive (our choice). */
const MOST_MINUTES = 240;
const RATIO = { least: 0.25, most: 4 };
/** A fitted speed is the standard one divided by the median ratio, within these multiples of it. */
const SPEED = { least: 0.33, most: 2 };
/** Factors nearer to 1 than this are chance. */
const WORTH_A_FACTOR = 0.1;

export type FittedBand = {
  upToKm: number | null;
  drives: number;
  /** Median of real over estimated minutes; null without drives. */
  ratio: number | null;
  standardKmh: number;
  /** The standard speed when the drives are too few. */
  kmh: number;
  fitted: boolean;
};
export type FittedPair = PairFactor & { drives: number };
export type Fit = {
  speeds: number[];
  bands: FittedBand[];
  factors: FittedPair[];
  used: number;
  leftOut: number;
  /** Median distance from the real minutes, before and after. */
  missBefore: number | null;
  missAfter: number | null;
};

/** Middle value, of an even number the mean of the two in the middle; null of none. */
export function median(values: readonly number[]): number | null {
  if (values.length === 0) return null;
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

type Known = { km: number; road: number; pair: string };

function plausible(drives: readonly Drive[], towns: readonly NamedPlace[]): Known[] {
  return drives.flatMap(({ from, to, minutes }) => {
    const km = greatCircleKm(from, to);
    const ratio = minutes / (PARKING_MINUTES + roadMinutes(km));
    if (km < SAME_PLACE_KM || !(minutes > 0 && minutes <= MOST_MINUTES) || ratio < RATIO.least || ratio > RATIO.most) return [];
    return [{ km, road: Math.max(0.5, minutes - PARKING_MINUTES), pair: pairKey(townOf(from, towns), townOf(to, towns)) }];
  });
}

const clamp = (value: number, least: number, most: number): number => Math.min(most, Math.max(least, value));
const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));

function bandsOf(known: readonly Known[]): { speeds: number[]; bands: FittedBand[] } {
  const speeds = [...STANDARD_SPEEDS];
  const bands = BANDS.map((band, at): FittedBand => {
    const from = at === 0 ? 0 : BANDS[at - 1]!.upToKm;
    const own = known.filter(({ km }) => km > from && km <= band.upToKm);
    const ratio = median(own.map(({ km, road }) => road / roadMinutes(km)));
    const fitted = own.length >= ENOUGH_IN_BAND;
    if (fitted) speeds[at] = rounded(band.kmh / clamp(ratio!, 1 / SPEED.most, 1 / SPEED.least), 1);
    return {
      upToKm: band.upToKm === Infinity ? null : band.upToKm,
      drives: own.length,
      ratio: ratio === null ? null : rounded(ratio, 2),
      standardKmh: band.kmh,
      kmh: speeds[at]!,
      fitted,
    };
  });
  return { speeds, bands };
}

/** Towns between which drives take clearly longer or shorter than the fitted speeds say. */
function factorsOf(known: readonly Known[], speeds: readonly number[]): FittedPair[] {
  const byPair = new Map<string, Known[]>();
  for (const one of known) byPair.set(one.pair, [...(byPair.get(one.pair) ?? []), one]);
  return [...byPair].flatMap(([pair, own]) => {
    const [a = '', b = ''] = pair.split('|');
    if (own.length < ENOUGH_BETWEEN_TOWNS || a === '' || a === b) return [];
    const factor = rounded(median(own.map(({ km, road }) => road / roadMinutes(km, speeds)))!, 2);
    return Math.abs(factor - 1) < WORTH_A_FACTOR ? [] : [{ a, b, factor, drives: own.length }];
  });
}

/** Fits speeds and factors. Bands and towns with too few drives stay as they are; records that cannot be a drive are left out and counted. */
export function fitTravel(drives: readonly Drive[], towns: readonly NamedPlace[]): Fit {
  const known = plausible(drives, towns);
  const { speeds, bands } = bandsOf(known);
  const factors = factorsOf(known, speeds).sort((x, y) => (pairKey(x.a, x.b) < pairKey(y.a, y.b) ? -1 : 1));
  const factor = new Map(factors.map((one) => [pairKey(one.a, one.b), one.factor]));
  const miss = (minutes: (one: Known) => number): number | null => {
    const value = median(known.map((one) => Math.abs(one.road - minutes(one))));
    return value === null ? null : rounded(value, 1);
  };
  return {
    speeds,
    bands,
    factors,
    used: known.length,
    leftOut: drives.length - known.length,
    missBefore: miss(({ km }) => roadMinutes(km)),
    missAfter: miss(({ km, pair }) => roadMinutes(km, speeds) * (factor.get(pair) ?? 1)),
  };
}

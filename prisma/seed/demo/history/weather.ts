// The weather of a past day, the same at every house: cold and snow by the month, rain by chance, both as usual in east-central Wisconsin.
import { chanceOf } from '../chance.ts';

/** Usual degrees Fahrenheit by noon, January to December, and the share of days with rain in the two days before (common practice). */
const NOON_F = [24, 28, 40, 53, 66, 76, 80, 78, 70, 56, 42, 29];
const WET = [0.1, 0.12, 0.3, 0.45, 0.5, 0.48, 0.4, 0.4, 0.45, 0.42, 0.3, 0.15];
const SNOW_MONTHS = [12, 1, 2, 3];
const HEAVY = 0.25;

export type Weather = { outdoorF: number; rain48: 'none' | 'some' | 'heavy'; snow: 'none' | 'patches' | 'covered' };

export function weatherOf(day: string): Weather {
  const chance = chanceOf(Number(day.replaceAll('-', '')));
  const month = Number(day.slice(5, 7));
  const outdoorF = NOON_F[month - 1]! + chance.between(-9, 9);
  const rained = chance.odds(WET[month - 1]!);
  const rain48 = rained ? (chance.odds(HEAVY) ? 'heavy' : 'some') : 'none';
  const snow = SNOW_MONTHS.includes(month) ? chance.pick(['none', 'patches', 'covered', 'covered'] as const) : 'none';
  return { outdoorF, rain48, snow };
}

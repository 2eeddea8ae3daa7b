// What each disadvantage of a start is worth, in minutes of one person's time.
import type { Minute } from './time.ts';

export const WEIGHTS = {
  /** Per minute of a free gap that is left too short for another visit. */
  idle: 0.25,
  /** Gaps at least this long (minutes) can still take a visit with its driving. */
  usefulGap: 180,
  /** Shorter gaps come from starts being on the quarter hour and cannot be helped. */
  roundingGap: 15,
  /** Per minute of arriving home after the working hours. */
  overtime: 1.5,
  /** Per booked minute of the last four weeks above the least loaded licensed person. */
  fairness: 0.01,
  /** Two people who went together yesterday; falls by one for each day since. */
  rotation: 12,
  wishedPerson: 20,
  wishedHalf: 15,
  wishedDay: 15,
} as const;

/** Quarter minutes add up without rounding, so that equal scores are equal whatever the order of the sum. */
export const toQuarters = (minutes: number): number => Math.round(minutes * 4) / 4;

/** Cost of leaving `minutes` free beside a visit. */
export const idleCost = (minutes: Minute): number =>
  minutes >= WEIGHTS.roundingGap && minutes < WEIGHTS.usefulGap ? toQuarters(minutes * WEIGHTS.idle) : 0;

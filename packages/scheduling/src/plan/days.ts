// Several days in one plan: minutes count on from the first midnight, 1440 for each day.
import { addDays } from '../time.ts';
import type { Day, Minute } from '../time.ts';

const MINUTES = 1440;

/** Which day of the plan a minute lies in, 0 for the first. */
export const dayIndex = (minute: Minute): number => Math.floor(minute / MINUTES);

/** The day and its own minute. */
export const dayAndMinute = (first: Day, minute: Minute): { day: Day; minute: Minute } => ({
  day: addDays(first, dayIndex(minute)),
  minute: minute - dayIndex(minute) * MINUTES,
});

/** A minute of a day of the plan, counted from the first midnight. */
export const minuteOn = (index: number, minute: Minute): Minute => index * MINUTES + minute;

/** The days of a plan. */
export const daysOf = ({ day, span = 1 }: { day: Day; span?: number }): Day[] =>
  Array.from({ length: span }, (_, index) => addDays(day, index));

// Between instants and the wall clock of the firm, on days with clock changes too.
import { DateTime } from 'luxon';
import { accept, refuse, type Outcome } from '../shared/outcome.ts';

export type WallTime = { day: string; minute: number };

const two = (n: number): string => String(n).padStart(2, '0');

const midnightIn = (day: string, zone: string): DateTime =>
  DateTime.fromObject({ year: Number(day.slice(0, 4)), month: Number(day.slice(5, 7)), day: Number(day.slice(8)) }, { zone });

/** Instant of a minute of the local day. Refuses a minute that the clock skips; of one that comes twice, the first is meant. */
export function instantOf(day: string, minute: number, zone: string): Outcome<Date> {
  const at = midnightIn(day, zone).set({ hour: Math.floor(minute / 60), minute: minute % 60 });
  const skipped = at.hour * 60 + at.minute !== minute;
  return skipped
    ? refuse('start-not-real', { day, time: `${two(Math.floor(minute / 60))}:${two(minute % 60)}` }, 'start')
    : accept(at.toJSDate());
}

/** Day and minute that the firm's clock shows at an instant. */
export function wallTime(at: Date, zone: string): WallTime {
  const local = DateTime.fromJSDate(at, { zone });
  return { day: local.toISODate()!, minute: local.hour * 60 + local.minute };
}

/** Offset from UTC at noon of each day, minutes east positive. */
export const offsetsOf = (days: readonly string[], zone: string): Record<string, number> =>
  Object.fromEntries(days.map((day) => [day, midnightIn(day, zone).set({ hour: 12 }).offset]));

const DAY = 86_400_000;
const midnight = (day: string): number => Date.parse(`${day}T00:00:00Z`);

/** ISO days from `from`, `count` of them. */
export const daysFrom = (from: string, count: number): string[] =>
  Array.from({ length: count }, (_, n) => new Date(midnight(from) + n * DAY).toISOString().slice(0, 10));

/** ISO weekday, 1 = Monday. */
export const weekdayOf = (day: string): number => new Date(midnight(day)).getUTCDay() || 7;

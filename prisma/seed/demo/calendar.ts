// Days around the day of the start: working days of the firm before and after it, and instants of its wall clock.
import { DateTime } from 'luxon';
import { federalHolidays, isBusinessDay, shiftDay, type BusinessCalendar } from '@backsight/domain/shared/calendar';
import { OFFICE_HOURS } from '../starter/rulePack.ts';

export const ZONE = 'America/Chicago';
const KEPT = ['New Year', 'Memorial', 'Independence', 'Labor', 'Thanksgiving', 'Christmas'];

export type DemoCalendar = {
  today: string;
  /** Days on which the firm is closed, around today. */
  closed: { day: string; name: string }[];
  business: BusinessCalendar;
  /** The nth working day after today (before it when negative); 0 is today, or the next working day. */
  workday: (n: number) => string;
  /** An instant of the firm's wall clock. */
  at: (day: string, hour: number, minute?: number) => Date;
};

export function calendarOf(now: Date): DemoCalendar {
  const local = DateTime.fromJSDate(now, { zone: ZONE });
  const today = local.toFormat('yyyy-MM-dd');
  const years = [local.year - 3, local.year - 2, local.year - 1, local.year, local.year + 1];
  const closed = years
    .flatMap(federalHolidays)
    .filter(({ name }) => KEPT.some((word) => name.includes(word)))
    .map(({ day, name }) => ({ day, name }));
  const hours = Object.fromEntries(
    Object.entries(OFFICE_HOURS).map(([weekday, span]) => [weekday, span === null ? null : { start: span[0], end: span[1] }]),
  );
  const business: BusinessCalendar = { zone: ZONE, hours: hours as BusinessCalendar['hours'], closedDays: closed.map(({ day }) => day) };
  const step = (day: string, by: 1 | -1): string => {
    let next = shiftDay(day, by);
    while (!isBusinessDay(next, business)) next = shiftDay(next, by);
    return next;
  };
  const known = new Map<number, string>([
    [0, isBusinessDay(today, business) ? today : step(today, 1)],
    [-1, step(today, -1)],
  ]);
  const reckon = (n: number): string => step(workday(n + (n < 0 ? 1 : -1)), n < 0 ? -1 : 1);
  const workday = (n: number): string => known.get(n) ?? known.set(n, reckon(n)).get(n)!;
  const at = (day: string, hour: number, minute = 0): Date => DateTime.fromISO(day, { zone: ZONE }).set({ hour, minute }).toJSDate();
  return { today, closed, business, workday, at };
}

export const minutesAfter = (at: Date, minutes: number): Date => new Date(at.getTime() + minutes * 60_000);
export const hoursAfter = (at: Date, hours: number): Date => minutesAfter(at, hours * 60);
export const dayOf = (at: Date): string => DateTime.fromJSDate(at, { zone: ZONE }).toFormat('yyyy-MM-dd');

// The firm's working calendar: which days are business days, and the US federal holidays it may start from.
import { DateTime } from 'luxon';

export type IsoWeekday = 1 | 2 | 3 | 4 | 5 | 6 | 7;

/** Minutes of the local wall clock since midnight; `end` is at most 1440. */
export type OpeningHours = { start: number; end: number };

/** `hours` by ISO weekday (1 = Monday), null = closed; `closedDays` are ISO days on which the office is closed besides. */
export type BusinessCalendar = {
  zone: string;
  hours: Record<IsoWeekday, OpeningHours | null>;
  closedDays: readonly string[];
};

/** `inLieuOf` is set on a weekday kept in place of a holiday that falls on a weekend. */
export type Holiday = { day: string; name: string; inLieuOf?: string };

const date = (year: number, month: number, day: number): DateTime => DateTime.utc(year, month, day);

/** The nth Monday (weekday 1) ... of a month; n = -1 is the last. */
const nthWeekday = (year: number, month: number, weekday: number, n: number): DateTime => {
  const first = date(year, month, 1);
  const earliest = first.plus({ days: (weekday - first.weekday + 7) % 7 });
  if (n > 0) return earliest.plus({ weeks: n - 1 });
  const fifth = earliest.plus({ weeks: 4 });
  return fifth.month === month ? fifth : fifth.minus({ weeks: 1 });
};

const legalHolidays = (year: number): { at: DateTime; name: string }[] => [
  { at: date(year, 1, 1), name: "New Year's Day" },
  { at: nthWeekday(year, 1, 1, 3), name: 'Birthday of Martin Luther King, Jr.' },
  { at: nthWeekday(year, 2, 1, 3), name: "Washington's Birthday" },
  { at: nthWeekday(year, 5, 1, -1), name: 'Memorial Day' },
  { at: date(year, 6, 19), name: 'Juneteenth National Independence Day' },
  { at: date(year, 7, 4), name: 'Independence Day' },
  { at: nthWeekday(year, 9, 1, 1), name: 'Labor Day' },
  { at: nthWeekday(year, 10, 1, 2), name: 'Columbus Day' },
  { at: date(year, 11, 11), name: 'Veterans Day' },
  { at: nthWeekday(year, 11, 4, 4), name: 'Thanksgiving Day' },
  { at: date(year, 12, 25), name: 'Christmas Day' },
];

const isoDay = (at: DateTime): string => at.toISODate()!;

const withInLieu = ({ at, name }: { at: DateTime; name: string }): Holiday[] => {
  const legal: Holiday = { day: isoDay(at), name };
  if (at.weekday < 6) return [legal];
  const kept = at.plus({ days: at.weekday === 6 ? -1 : 1 });
  return [legal, { day: isoDay(kept), name: `${name} (observed)`, inLieuOf: legal.day }];
};

/**
 * Federal holidays that fall into the calendar year, in order, each legal day and each day kept in its place
 * (5 U.S.C. 6103(b): Saturday is kept on Friday; Executive Order 11582: Sunday on Monday). New Year's Day on a Saturday is
 * kept on December 31 of the year before and belongs to that year. Only for years since 2021, when the list last changed.
 */
export const federalHolidays = (year: number): readonly Holiday[] => {
  if (!Number.isInteger(year) || year < 2021 || year > 9998) {
    throw new RangeError(`Federal holidays are known from 2021 on, not for ${year}.`);
  }
  const worked = workedOut.get(year) ?? holidaysOf(year);
  workedOut.set(year, worked);
  return worked;
};

/** Every deadline asks for some years of them, and they never change. */
const workedOut = new Map<number, readonly Holiday[]>();

const holidaysOf = (year: number): readonly Holiday[] =>
  [...legalHolidays(year), ...legalHolidays(year + 1).slice(0, 1)]
    .flatMap(withInLieu)
    .filter((holiday) => holiday.day.startsWith(`${year}-`))
    .sort((a, b) => (a.day < b.day ? -1 : 1));

const DAY_MS = 86_400_000;
const written = (ms: number): string => new Date(ms).toISOString().slice(0, 10);

/** Milliseconds of UTC at its midnight: days are counted by the thousand, and plain numbers are many times as fast as dates with zones. */
const parseDay = (day: string): number => {
  const ms = /^\d{4}-\d{2}-\d{2}$/.test(day) ? Date.parse(`${day}T00:00:00Z`) : NaN;
  if (Number.isNaN(ms) || written(ms) !== day) throw new RangeError(`"${day}" is not a day like 2026-05-01.`);
  return ms;
};

/** The day some days later (or earlier, when negative), as ISO day. */
export const shiftDay = (day: string, days: number): string => written(parseDay(day) + days * DAY_MS);

/** Opening hours of one day, null when closed. Throws RangeError for hours that do not end after they start on the same day. */
export const openingHours = (day: string, calendar: BusinessCalendar): OpeningHours | null => {
  const hours = calendar.hours[(new Date(parseDay(day)).getUTCDay() || 7) as IsoWeekday];
  if (!hours || calendar.closedDays.includes(day)) return null;
  const sound = hours.start >= 0 && hours.start < hours.end && hours.end <= 1440;
  if (!sound) throw new RangeError(`Opening hours ${hours.start}-${hours.end} are not valid.`);
  return hours;
};

export const isBusinessDay = (day: string, calendar: BusinessCalendar): boolean => openingHours(day, calendar) !== null;

/** Two years without a business day: the calendar is broken, and counting on would never end. */
const LONGEST_CLOSURE = 731;

/** The nearest business day strictly after `day` (step 1) or strictly before it (step -1). */
export const nextBusinessDay = (day: string, calendar: BusinessCalendar, step: 1 | -1 = 1): string => {
  let next = day;
  for (let tries = 0; tries < LONGEST_CLOSURE; tries += 1) {
    next = shiftDay(next, step);
    if (isBusinessDay(next, calendar)) return next;
  }
  throw new RangeError('The calendar has no business day within two years.');
};

/** Counts business days after `day` (or before it, when negative); `day` itself is not counted, and 0 answers `day`. */
export const addBusinessDays = (day: string, count: number, calendar: BusinessCalendar): string => {
  if (!Number.isInteger(count)) throw new RangeError(`${count} is not a whole number of business days.`);
  let result = day;
  for (let left = Math.abs(count); left > 0; left -= 1) result = nextBusinessDay(result, calendar, count > 0 ? 1 : -1);
  return result;
};

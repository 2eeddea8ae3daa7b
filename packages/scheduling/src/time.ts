// Days and minutes of the local wall clock, without time zones: the engine never asks what instant a minute is.

/** Minutes since midnight of the local wall clock; 540 is 9:00 AM on every day, also when clocks change. */
export type Minute = number;

/** Calendar day 'YYYY-MM-DD'. Days compare as strings. */
export type Day = string;

const DAYS_PER_ERA = 146_097;
const EPOCH_SHIFT = 719_468;

/**
 * Days since 1970-01-01. Throws RangeError for anything but 'YYYY-MM-DD'.
 * Source: H. Hinnant, "chrono-Compatible Low-Level Date Algorithms", days_from_civil.
 */
export function dayNumber(day: Day): number {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(day);
  if (!match) throw new RangeError(`Not a day: ${day}`);
  const month = Number(match[2]);
  const year = Number(match[1]) - (month <= 2 ? 1 : 0);
  const era = Math.floor(year / 400);
  const yearOfEra = year - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + Number(match[3]) - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * DAYS_PER_ERA + dayOfEra - EPOCH_SHIFT;
}

/** Year, month 1-12 and day of the month of a day number. Source: as above, civil_from_days. */
function civil(number: number): { year: number; month: number; date: number } {
  const shifted = number + EPOCH_SHIFT;
  const era = Math.floor(shifted / DAYS_PER_ERA);
  const dayOfEra = shifted - era * DAYS_PER_ERA;
  const leaps = Math.floor(dayOfEra / 1460) - Math.floor(dayOfEra / 36_524) + Math.floor(dayOfEra / 146_096);
  const yearOfEra = Math.floor((dayOfEra - leaps) / 365);
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const shiftedMonth = Math.floor((5 * dayOfYear + 2) / 153);
  const month = shiftedMonth + (shiftedMonth < 10 ? 3 : -9);
  const date = dayOfYear - Math.floor((153 * shiftedMonth + 2) / 5) + 1;
  return { year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0), month, date };
}

/** The day that has this number (days since 1970-01-01). */
export function dayOf(number: number): Day {
  const { year, month, date } = civil(number);
  return `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(date).padStart(2, '0')}`;
}

/** The day `count` days later (earlier when negative). */
export const addDays = (day: Day, count: number): Day => dayOf(dayNumber(day) + count);

/** Days from one day to another, negative when `to` is earlier. */
export const daysBetween = (from: Day, to: Day): number => dayNumber(to) - dayNumber(from);

const WEEKDAYS = ['Thu', 'Fri', 'Sat', 'Sun', 'Mon', 'Tue', 'Wed'] as const;
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const;

/** 'Tue, Jul 14'. */
export function sayDay(day: Day): string {
  const number = dayNumber(day);
  const { month, date } = civil(number);
  return `${WEEKDAYS[((number % 7) + 7) % 7]}, ${MONTHS[month - 1]} ${date}`;
}

/** '2:50 PM'; past midnight the clock starts again. */
export function sayTime(minute: Minute): string {
  const whole = ((Math.floor(minute) % 1440) + 1440) % 1440;
  const hour = Math.floor(whole / 60);
  return `${hour % 12 === 0 ? 12 : hour % 12}:${String(whole % 60).padStart(2, '0')} ${hour < 12 ? 'AM' : 'PM'}`;
}

/** '45 min', '3 h', '3 h 15 min'. */
export function sayMinutes(minutes: number): string {
  const whole = Math.round(minutes);
  const hours = Math.floor(whole / 60);
  const rest = whole % 60;
  if (hours === 0) return `${rest} min`;
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}

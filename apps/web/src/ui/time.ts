// Instants and days as the firm reads them: its own time zone, US order.
import type { DateTime } from 'luxon'; // the library itself would be a third of what a phone loads first

/** Making one takes a millisecond on a phone, and a list shows hundreds of times. */
const formats = new Map<string, Intl.DateTimeFormat>();
function formatOf(zone: string): Intl.DateTimeFormat {
  const known = formats.get(zone);
  if (known) return known;
  const made = new Intl.DateTimeFormat('en-US', {
    timeZone: zone,
    calendar: 'gregory',
    hourCycle: 'h23',
    ...{ weekday: 'short', year: 'numeric', month: 'short', day: 'numeric', hour: 'numeric', minute: '2-digit', second: '2-digit' },
  });
  formats.set(zone, made);
  return made;
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const two = (number: number): string => String(number).padStart(2, '0');

type Clock = { weekday: string; year: number; month: number; day: number; hour: number; minute: number; second: number };

/** What clock and calendar of the zone show at an instant (milliseconds). */
function clockAt(at: number, zone: string): Clock {
  const parts = Object.fromEntries(
    formatOf(zone)
      .formatToParts(at)
      .map(({ type, value }) => [type, value]),
  );
  const number = (name: string): number => Number(parts[name]);
  return {
    weekday: parts['weekday']!,
    month: MONTHS.indexOf(parts['month']!) + 1,
    ...{ year: number('year'), day: number('day'), hour: number('hour'), minute: number('minute'), second: number('second') },
  };
}

const dayWords = ({ weekday, month, day }: Clock): string => `${weekday}, ${MONTHS[month - 1]} ${day}`;
const timeWords = ({ hour, minute }: Clock): string => `${hour % 12 || 12}:${two(minute)} ${hour < 12 ? 'AM' : 'PM'}`;
const isoDay = ({ year, month, day }: Clock): string => `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;

/** 'Tue, May 12, 9:00 AM' in the zone; the year is named when it is not this one. */
export function instantText(iso: string, zone: string): string {
  const at = Date.parse(iso);
  if (Number.isNaN(at)) return iso;
  const clock = clockAt(at, zone);
  const year = clock.year === clockAt(Date.now(), zone).year ? '' : `, ${clock.year}`;
  return `${dayWords(clock)}${year}, ${timeWords(clock)}`;
}

/** '9:00 AM' in the zone. */
export function clockText(iso: string, zone: string): string {
  const at = Date.parse(iso);
  return Number.isNaN(at) ? iso : timeWords(clockAt(at, zone));
}

/** 'Tue, May 12, 2026' of an ISO day. */
export function dayText(day: string): string {
  const at = Date.parse(`${day.slice(0, 10)}T00:00:00Z`);
  if (Number.isNaN(at)) return day;
  const clock = clockAt(at, 'UTC');
  return `${dayWords(clock)}, ${clock.year}`;
}

/** Today where the firm is, as ISO day. */
export const todayIn = (zone: string): string => isoDay(clockAt(Date.now(), zone));

/** An instant as an input of type datetime-local takes it, in the zone. */
export function localInput(at: Date | DateTime, zone: string): string {
  const clock = clockAt(at.valueOf(), zone);
  return `${isoDay(clock)}T${two(clock.hour)}:${two(clock.minute)}`;
}

/** How far the zone's clock is ahead of UTC at an instant, in milliseconds. */
function aheadAt(at: number, zone: string): number {
  const { year, month, day, hour, minute, second } = clockAt(at, zone);
  return Date.UTC(year, month - 1, day, hour, minute, second) - Math.floor(at / 1000) * 1000;
}

/**
 * What such an input gives, as an instant; text that is no time stays as it is, and the service names it. A time that the clock skips in
 * spring is taken as if it had not yet been put forward; of one that comes twice in autumn the first is meant.
 */
export function toInstant(local: string, zone: string): string {
  const shown = Date.parse(`${local}Z`);
  if (Number.isNaN(shown)) return local;
  const [before, after] = [aheadAt(shown - DAY_MS, zone), aheadAt(shown + DAY_MS, zone)];
  const fits = [before, after].find((ahead) => aheadAt(shown - ahead, zone) === ahead) ?? before;
  return new Date(shown - fits).toISOString();
}
const DAY_MS = 86_400_000;

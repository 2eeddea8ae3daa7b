// When something is due: one function over the policy, the start, the pauses and the firm's calendar.
import { DateTime } from 'luxon';
import { nextBusinessDay, openingHours, shiftDay } from './calendar.ts';
import type { BusinessCalendar } from './calendar.ts';

/** How long there is: minutes while the office is open, business days, or plain days. Whole, at least 0. */
export type DeadlinePolicy = { amount: number; unit: 'businessMinutes' | 'businessDays' | 'days' };

/** The clock stands still from `from` until `to` (ISO instants, end excluded); null = it still stands still. */
export type Pause = { from: string; to: string | null };

/** Milliseconds since the epoch, end excluded. */
type Span = { from: number; to: number };

const millis = (iso: string): number => {
  const at = DateTime.fromISO(iso, { setZone: true });
  if (!at.isValid || !/(?:Z|[+-]\d{2}:?\d{2})$/.test(iso)) throw new RangeError(`"${iso}" is not an instant with its offset.`);
  return at.toMillis();
};

const spanOf = (pause: Pause): Span => {
  const span = { from: millis(pause.from), to: pause.to === null ? Infinity : millis(pause.to) };
  if (span.to < span.from) throw new RangeError(`A pause ends before it begins (${pause.from}).`);
  return span;
};

const utc = (at: number): string => DateTime.fromMillis(at, { zone: 'utc' }).toISO()!;

/** Instant of a wall-clock minute; 1440 is the midnight that ends the day. */
const wallClock = (day: string, minute: number, zone: string): number =>
  DateTime.fromISO(minute >= 1440 ? shiftDay(day, 1) : day, { zone })
    .set({ hour: Math.floor((minute % 1440) / 60), minute: minute % 60 })
    .toMillis();

const localDay = (at: number, zone: string): string => {
  const local = DateTime.fromMillis(at, { zone });
  if (!local.isValid) throw new RangeError(`"${zone}" is not a time zone.`);
  return local.toFormat('yyyy-MM-dd');
};

/** The day of an instant, or the business day after it. */
const firstBusinessDay = (at: number, calendar: BusinessCalendar): string =>
  nextBusinessDay(shiftDay(localDay(at, calendar.zone), -1), calendar);

/** When the office is open on a business day. */
const openSpan = (day: string, calendar: BusinessCalendar): Span => {
  const { start, end } = openingHours(day, calendar)!;
  return { from: wallClock(day, start, calendar.zone), to: wallClock(day, end, calendar.zone) };
};

const cut = (span: Span, pause: Span): Span[] =>
  [
    { from: span.from, to: Math.min(span.to, pause.from) },
    { from: Math.max(span.from, pause.to), to: span.to },
  ].filter(({ from, to }) => from < to);

const without = (span: Span, pauses: readonly Span[]): Span[] =>
  pauses.reduce<Span[]>((left, pause) => left.flatMap((piece) => cut(piece, pause)), [span]);

const stoppedForGood = (at: number, pauses: readonly Span[]): boolean => pauses.some(({ from, to }) => to === Infinity && from <= at);

const afterMillis = (amount: number, start: number, pauses: readonly Span[], calendar: BusinessCalendar): number | null => {
  let left = amount;
  if (left === 0) return start;
  for (let day = firstBusinessDay(start, calendar); ; day = nextBusinessDay(day, calendar)) {
    const open = openSpan(day, calendar);
    for (const { from, to } of without({ from: Math.max(open.from, start), to: Math.max(open.to, start) }, pauses)) {
      if (to - from >= left) return from + left;
      left -= to - from;
    }
    if (stoppedForGood(open.to, pauses)) return null;
  }
};

/** Closing time of a business day, or the last millisecond of a plain day. */
const endOf = (day: string, policy: DeadlinePolicy, calendar: BusinessCalendar): number =>
  policy.unit === 'days' ? wallClock(day, 1440, calendar.zone) - 1 : openSpan(day, calendar).to;

const afterDays = (policy: DeadlinePolicy, start: number, pauses: readonly Span[], calendar: BusinessCalendar): number | null => {
  const next = (day: string): string => (policy.unit === 'days' ? shiftDay(day, 1) : nextBusinessDay(day, calendar));
  const startDay = localDay(start, calendar.zone);
  let left = policy.amount;
  for (let day = policy.amount === 0 ? next(shiftDay(startDay, -1)) : next(startDay); ; day = next(day)) {
    const end = endOf(day, policy, calendar);
    if (stoppedForGood(end, pauses)) return null;
    const runs = end >= start && !pauses.some(({ from, to }) => from <= end && end < to);
    if (runs) left -= 1;
    if (runs && left <= 0) return end;
  }
};

/**
 * The instant by which something is due, in UTC; null while the clock is stopped by a pause without an end.
 *
 * - businessMinutes: minutes that really pass while the office is open and no pause runs, across clock changes too.
 * - businessDays: closing time of the nth business day after the day of the start; the day of the start is not counted.
 * - days: the last millisecond of the nth day after the day of the start.
 *
 * A day counts when the clock runs at its end; one that a pause covers then does not. An amount of 0 means the first
 * such end at or after the start ("the same day"). Throws RangeError for an amount, instant, pause or calendar that is
 * not valid.
 */
export const deadline = (policy: DeadlinePolicy, start: string, pauses: readonly Pause[], calendar: BusinessCalendar): string | null => {
  if (!Number.isInteger(policy.amount) || policy.amount < 0) throw new RangeError(`${policy.amount} is not a length of time.`);
  const from = millis(start);
  const stopped = pauses.map(spanOf);
  const due =
    policy.unit === 'businessMinutes'
      ? afterMillis(policy.amount * 60_000, from, stopped, calendar)
      : afterDays(policy, from, stopped, calendar);
  return due === null ? null : utc(due);
};

/** Milliseconds that the office is open between two instants (0 when they are the wrong way round), across clock changes too. */
export function businessTimeBetween(from: string, to: string, calendar: BusinessCalendar): number {
  const [start, end] = [millis(from), millis(to)];
  let sum = 0;
  for (let day = firstBusinessDay(start, calendar); ; day = nextBusinessDay(day, calendar)) {
    const open = openSpan(day, calendar);
    if (open.from >= end) return sum;
    sum += Math.max(0, Math.min(open.to, end) - Math.max(open.from, start));
  }
}

/** The instant (UTC) at which so many more milliseconds of office time have passed; none leaves the instant where it is. */
export const afterBusinessTime = (from: string, milliseconds: number, calendar: BusinessCalendar): string =>
  utc(afterMillis(milliseconds, millis(from), [], calendar)!);

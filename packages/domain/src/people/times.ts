// Rules about days and hours of people: when they work, when they are away, which booked visits that hits.
import { DateTime } from 'luxon';
import { accept, refuse, type Outcome, type Warning } from '../shared/outcome.ts';

/** Usual hours of one weekday (ISO, 1 = Monday), in minutes of the local wall clock. */
export type WorkSpan = { weekday: number; startMinute: number; endMinute: number };

/** A booked visit of a person, as a warning names it. */
export type VisitHit = { jobNumber: number; address: string; startsAt: Date; endsAt: Date };

const LONGEST_ABSENCE_DAYS = 366;

/** The last day is not before the first; null = open. ISO days. */
export const daysInOrder = (fromDay: string, untilDay: string | null, field = 'untilDay'): Outcome<null> =>
  untilDay !== null && untilDay < fromDay ? refuse('days-backwards', {}, field) : accept(null);

/** Every span ends after it begins, and no two of one weekday overlap. */
export function spansFit(spans: readonly WorkSpan[]): Outcome<null> {
  for (const [at, span] of spans.entries()) {
    if (span.endMinute <= span.startMinute) return refuse('work-hours-backwards', {}, `spans.${at}.endMinute`);
    const clash = spans.findIndex(
      (other, i) => i < at && other.weekday === span.weekday && other.startMinute < span.endMinute && span.startMinute < other.endMinute,
    );
    if (clash >= 0) return refuse('work-pattern-once-at-a-time', {}, `spans.${at}.startMinute`);
  }
  return accept(null);
}

/** The hours of one day: both ends or none, the end after the beginning. */
export function exceptionFits(startMinute: number | null, endMinute: number | null): Outcome<null> {
  if ((startMinute === null) !== (endMinute === null))
    return refuse('work-exception-hours', {}, startMinute === null ? 'startMinute' : 'endMinute');
  return startMinute !== null && endMinute !== null && endMinute <= startMinute
    ? refuse('work-hours-backwards', {}, 'endMinute')
    : accept(null);
}

/** Visits of a day that lie outside the hours of that day; all of them on a day off (null). */
export function visitsOutsideDay(hours: { start: number; end: number } | null, visits: readonly VisitHit[], zone: string): VisitHit[] {
  if (hours === null) return [...visits];
  return visits.filter((visit) => {
    const start = DateTime.fromJSDate(visit.startsAt, { zone });
    const minute = start.hour * 60 + start.minute;
    return minute < hours.start || minute + (visit.endsAt.getTime() - visit.startsAt.getTime()) / 60_000 > hours.end;
  });
}

/** An absence ends after it begins and lasts at most 366 days. */
export function absenceFits(startsAt: Date, endsAt: Date): Outcome<null> {
  if (endsAt <= startsAt) return refuse('absence-backwards', {}, 'endsAt');
  return endsAt.getTime() - startsAt.getTime() > LONGEST_ABSENCE_DAYS * 86_400_000
    ? refuse('absence-too-long', {}, 'endsAt')
    : accept(null);
}

/** Local days that [startsAt, endsAt) touches, in order, as ISO days. */
export function daysTouched(startsAt: Date, endsAt: Date, zone: string): string[] {
  const last = DateTime.fromJSDate(new Date(endsAt.getTime() - 1), { zone }).startOf('day');
  const days: string[] = [];
  for (let at = DateTime.fromJSDate(startsAt, { zone }).startOf('day'); at <= last; at = at.plus({ days: 1 }))
    days.push(at.toFormat('yyyy-MM-dd'));
  return days;
}

/** The visits that lie outside the usual hours given. */
export function visitsOutside(spans: readonly WorkSpan[], visits: readonly VisitHit[], zone: string): VisitHit[] {
  return visits.filter((visit) => {
    const start = DateTime.fromJSDate(visit.startsAt, { zone });
    const minute = start.hour * 60 + start.minute;
    const end = minute + (visit.endsAt.getTime() - visit.startsAt.getTime()) / 60_000;
    return !spans.some((span) => span.weekday === start.weekday && span.startMinute <= minute && end <= span.endMinute);
  });
}

/** 'Job 7, 12 Heron Lane, Birchmere, Mon, Dec 7, 9:00 AM'. */
export const sayHit = ({ jobNumber, address, startsAt }: VisitHit, zone: string): string =>
  `Job ${jobNumber}, ${address}, ${DateTime.fromJSDate(startsAt, { zone }).setLocale('en-US').toFormat('ccc, LLL d, h:mm a')}`;

/** One warning for each visit that the change hits. */
export const hitWarnings = (visits: readonly VisitHit[], zone: string): Warning[] =>
  visits.map((visit) => ({ code: 'visit-hit', text: `${sayHit(visit, zone)} stays booked: it needs somebody else or another time.` }));

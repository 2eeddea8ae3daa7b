// What stands in the way of a person on a day, in words: papers that lapse, acknowledgements with their grace, other hours.
import { DateTime } from 'luxon';
import { dayText } from '../../ui/time.ts';
import type { Person, WeekDay } from './geometry.ts';

export type Mark = { text: string; bars: boolean };

const cap = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const shortDay = (day: string): string => DateTime.fromISO(day, { zone: 'utc', locale: 'en-US' }).toFormat('ccc, LLL d');

/** `bars`: nobody is sent because of it on that day. Whoever let the grace of an acknowledgement pass is not sent after it. */
export function marksOf(person: Pick<Person, 'lapses' | 'missing'>, day: Pick<WeekDay, 'day'>, today: string): Mark[] {
  const lapsed = person.lapses.flatMap(({ what, lastDay }): Mark[] => {
    if (lastDay < day.day) return [{ text: `${what} lapsed`, bars: what === 'license' }];
    return lastDay === day.day ? [{ text: `last day of ${what}`, bars: false }] : [];
  });
  const late = person.missing.filter(({ afterDay }) => afterDay < day.day);
  const open = person.missing.filter(({ afterDay }) => afterDay === day.day);
  return [
    ...lapsed,
    ...late.map(({ revision, afterDay }) =>
      today > afterDay
        ? { text: `not sent: ${revision} not acknowledged`, bars: true }
        : { text: `only if ${revision} is acknowledged`, bars: false },
    ),
    ...open.map(({ revision }) => ({ text: `last day to acknowledge ${revision}`, bars: false })),
  ];
}

export const IN_TRAINING = 'in training';

/** What is to be known of a person in this week, for the head of the row. */
export function headNotes({ trainee, lapses, missing }: Pick<Person, 'trainee' | 'lapses' | 'missing'>, first: string): string[] {
  return [
    ...(trainee ? [IN_TRAINING] : []),
    ...lapses.map(({ what, lastDay }) =>
      lastDay < first ? `${cap(what)} lapsed ${shortDay(lastDay)}` : `${cap(what)} until ${dayText(lastDay)}`,
    ),
    ...missing.map(({ revision, afterDay }) => `Not acknowledged: ${revision}; not sent after ${dayText(afterDay)}`),
  ];
}

const hourText = (minute: number): string =>
  DateTime.fromObject({ hour: Math.floor(minute / 60) % 24, minute: minute % 60 }, { zone: 'utc', locale: 'en-US' }).toFormat('h:mm a');

export const sayException = ({ start, end }: NonNullable<WeekDay['exception']>): string =>
  start === null || end === null ? 'day off' : `other hours: ${hourText(start)} to ${hourText(end)}`;

/** What else is said of a day: other hours, writing of reports, or that nobody is at work. */
export function dayNotes(day: WeekDay): string[] {
  const { hours, visits, exception, writing, absent } = day;
  const free = hours.length === 0 && visits.length === 0 && absent.length === 0 && exception === null;
  return [
    ...(exception ? [sayException(exception)] : []),
    ...(free ? ['not at work'] : []),
    ...(writing.minutes > 0 ? [`writes ${writing.minutes} min${writing.late > 0 ? `, ${writing.late} overdue` : ''}`] : []),
  ];
}

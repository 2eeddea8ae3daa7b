// Which jobs are played and when: about three hundred around today, or half of them where the plain ones are written, made from nothing but the day of the start.
import type { Terms } from '@backsight/domain/jobs/words';
import { chanceOf, type Chance } from './chance.ts';
import { hoursAfter, type DemoCalendar } from './calendar.ts';

/** What becomes of a job, as far as its caller decides it. */
export type Fate = 'goes_through' | 'lapses' | 'cancelled' | 'held_now';
/** What makes a job a special one. */
export type Role =
  | 'freezer'
  | 'attic_one'
  | 'attic_two'
  | 'near_miss'
  | 'question'
  | 'damage'
  | 'legal'
  | 'declined'
  | 'conduct'
  | 'fee'
  | 'fresh'
  | 'acknowledged'
  | 'concluded'
  | 'override'
  | 'stopped'
  | 'near_now'
  | 'none';

export type JobPlan = {
  n: number;
  day: string;
  half: 'morning' | 'afternoon';
  bookedAt: Date;
  fate: Fate;
  role: Role;
  terms: Terms;
  chance: Chance;
  /** An instant at which the pair shall be on site; of a visit near now, its start. */ covers: Date | null;
};

/** Working days before today on which the first job is inspected that is played by acts of the service. */
export const PAST_WORKDAYS = 58;
/** Where years before are written, so are the plain jobs of days before so many working days ago: only those with a story are played. */
export const PLAYED_WORKDAYS = 15;
const FUTURE = [5, 5, 4, 5, 4, 4, 4, 3, 4, 3, 3, 3, 2, 2, 1];
/** Working days before today on which the special jobs are inspected; the roles of callbacks in all states among them. */
const SPECIAL: readonly (readonly [number, Role])[] = [
  [57, 'freezer'],
  [54, 'attic_one'],
  [50, 'declined'],
  [47, 'near_miss'],
  [44, 'damage'],
  [40, 'attic_two'],
  [36, 'legal'],
  [31, 'conduct'],
  [27, 'fee'],
  [22, 'concluded'],
  [17, 'question'],
  [19, 'stopped'],
  [15, 'override'],
  [12, 'acknowledged'],
  [8, 'fresh'],
];

const TERMS: readonly (readonly [Terms, number])[] = [
  ['due_at_visit', 0.45],
  ['due_at_booking', 0.3],
  ['billed_to_closing', 0.17],
  ['deposit', 1],
];
const termsOf = (chance: Chance): Terms => TERMS.find(([, share]) => chance.odds(share))![0];

/** Jobs of so many working days by the instant of their booking; the plain ones only of the last so many. */
export function plansOf(calendar: DemoCalendar, now: Date, plainDays?: number, workdays = PAST_WORKDAYS): JobPlan[] {
  const chance = chanceOf(20_260_101);
  const days: { offset: number; count: number }[] = [];
  for (let offset = -workdays; offset <= 0; offset++) days.push({ offset, count: offset % 5 === 0 ? 5 : chance.between(3, 5) });
  FUTURE.forEach((count, at) => days.push({ offset: at + 1, count }));
  const plans = days.flatMap(({ offset, count }) =>
    Array.from({ length: count }, (_, seat) => dayJob(calendar, { offset, seat, now }, chance)),
  );
  const sorted = [...plans, ...heldNow(calendar, now), ...nearNow(calendar, now)]
    .filter(({ bookedAt }) => bookedAt <= now)
    .sort((a, b) => a.bookedAt.getTime() - b.bookedAt.getTime());
  const playedFrom = calendar.workday(-(plainDays ?? workdays));
  return sorted.map((plan, n) => ({ ...plan, n, chance: chanceOf(7_000 + n) })).filter((plan) => hasStory(plan) || plan.day >= playedFrom);
}

/** A special one, one that came to nothing, one that is paid late. */
const hasStory = ({ role, fate, terms }: JobPlan): boolean => role !== 'none' || fate !== 'goes_through' || terms === 'billed_to_closing';

type Draft = Omit<JobPlan, 'n' | 'chance'>;

function dayJob(calendar: DemoCalendar, { offset, seat, now }: { offset: number; seat: number; now: Date }, chance: Chance): Draft {
  const role = seat === 0 ? (SPECIAL.find(([ago]) => ago === -offset)?.[1] ?? 'none') : 'none';
  const lead = offset > 0 ? offset + chance.between(1, 5) : chance.between(2, 8);
  const bookedOn = calendar.workday(offset - (offset > 0 ? Math.max(lead, offset + 1) : lead));
  const bookedAt = new Date(
    calendar.at(bookedOn, 8, 5).getTime() + chance.between(0, 8 * 60 + 20) * 60_000 + (Math.abs(offset) * 7 + seat) * 1000,
  );
  const fate: Fate = role !== 'none' ? 'goes_through' : chance.odds(0.025) ? 'lapses' : chance.odds(0.03) ? 'cancelled' : 'goes_through';
  const day = calendar.workday(offset);
  const covers = seat === 1 && day === calendar.today && calendar.at(day, 9) <= now && now <= calendar.at(day, 16) ? now : null;
  return {
    day,
    half: seat % 2 === 0 ? 'morning' : 'afternoon',
    bookedAt,
    fate: covers ? 'goes_through' : fate,
    role,
    terms: role === 'fee' || covers ? 'due_at_visit' : termsOf(chance),
    covers,
  };
}

/** Callers who are still thinking about it. */
const heldNow = (calendar: DemoCalendar, now: Date): Draft[] =>
  [3, 7, 12].map((minutes, at) => ({
    day: calendar.workday(3 + at),
    half: 'morning',
    bookedAt: new Date(now.getTime() - minutes * 60_000),
    fate: 'held_now',
    role: 'none',
    terms: 'due_at_visit',
    covers: null,
  }));

/** First and last hour at which a visit near now begins. */
const [EARLIEST_HOUR, LATEST_HOUR] = [1, 20];
const BETWEEN_STARTS = 4;

/**
 * Starts of visits at hours at which the firm does not go out by itself, the first about to begin, so that the day on site can be
 * tried at any time; none while the firm is at work.
 */
export function quietStarts({ today, workday, at }: DemoCalendar, now: Date): Date[] {
  if (workday(0) === today && now >= at(today, 6) && now < at(today, 16)) return [];
  const quarter = 15 * 60_000;
  const soon = new Date(Math.ceil((now.getTime() + quarter) / quarter) * quarter);
  const first = new Date(Math.min(Math.max(soon.getTime(), at(today, EARLIEST_HOUR).getTime()), at(today, LATEST_HOUR).getTime()));
  return [first, hoursAfter(first, BETWEEN_STARTS)].filter((start) => start <= at(today, LATEST_HOUR));
}

/** Visits of one pair that day at a quiet hour. */
const nearNow = (calendar: DemoCalendar, now: Date): Draft[] =>
  quietStarts(calendar, now).map((covers, nth) => ({
    day: calendar.today,
    half: 'morning',
    bookedAt: calendar.at(calendar.workday(-1), 10, 7 + 40 * nth),
    fate: 'goes_through',
    role: 'near_now',
    terms: 'due_at_visit',
    covers,
  }));

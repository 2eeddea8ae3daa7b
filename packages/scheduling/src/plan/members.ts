// The stretches of a day in which a person can be on the road: the free gaps of booking, from where he was before to where he
// must be next.
import { freeGaps } from '../gaps.ts';
import type { Commitment } from '../gaps.ts';
import type { Day, Minute } from '../time.ts';
import type { Place, Travel } from '../travel.ts';
import type { Shift } from '../world.ts';
import { awayOf } from './away.ts';
import { daysOf, minuteOn } from './days.ts';
import type { PlanInput, PlanPerson, PlanVisit } from './model.ts';

/** One stretch of one person. What a person does in one stretch binds nothing in another. */
export type Member = {
  /** Position in the people sorted by id. */
  person: number;
  /** Where he sets out and where he must be next: the base, or what he does besides the planned visits. */
  origin: Place;
  destination: Place;
  /** The drive from the one to the other that happens anyway. */
  direct: Minute;
  /** Sets out at the earliest. */
  from: Minute;
  /** A visit ends by then; driving later counts as overtime. */
  closes: Minute;
  /** Has arrived by then. */
  until: Minute;
  /** The stretch's share of the person's target. */
  target: Minute;
  /** Outside the hours: there only for a visit that has begun. */
  began: boolean;
};

type Stretch = Omit<Member, 'person' | 'target'>;

/** The spans of one of the days, in minutes from the first midnight. */
const onDay = <T extends { day: Day; start: Minute; end: Minute }>(index: number, day: Day, spans: readonly T[]): T[] =>
  spans.filter((one) => one.day === day).map((one) => ({ ...one, start: minuteOn(index, one.start), end: minuteOn(index, one.end) }));

/** The gaps of one day that hold some working time; none reaches into the next shift. */
function stretchesOfDay(shifts: readonly Shift[], away: readonly Commitment[], person: PlanPerson, travel: Travel): Stretch[] {
  return freeGaps(shifts, person.base, away, person.overtimeLimit, travel)
    .map(({ from, until, closes, prev, next, direct, toBase }) => {
      const following = Math.min(...shifts.map(({ start }) => start).filter((start) => start >= closes));
      const latest = Math.min(until, following);
      return {
        origin: prev,
        destination: next,
        direct,
        from,
        closes: toBase ? closes : Math.min(closes, until),
        until: latest,
        began: false,
      };
    })
    .filter((one) => one.from < one.closes);
}

/** A visit that has begun binds whatever the hours say now. */
function stretchFor(visit: PlanVisit, person: PlanPerson, list: Stretch[], travel: Travel): void {
  const { start } = visit.current!;
  if (list.some((one) => one.from <= start && start < one.until)) return;
  const closes = start + visit.durationMinutes;
  const until = closes + travel.minutes(visit.place, person.base);
  const from = start - travel.minutes(person.base, visit.place);
  list.push({ origin: person.base, destination: person.base, direct: 0, from, closes, until, began: true });
}

const inCrew = (visit: PlanVisit, id: string): boolean => visit.current?.first === id || visit.current?.second === id;

/** The stretches of one person, in time order; none when he does not work that day. */
export function stretchesOfPerson(input: PlanInput, person: PlanPerson, travel: Travel): Omit<Member, 'person'>[] {
  const away = awayOf(input, person);
  const list = daysOf(input).flatMap((day, index) =>
    stretchesOfDay(onDay(index, day, person.shifts), onDay(index, day, away), person, travel),
  );
  for (const visit of input.visits) if (visit.underWay && inCrew(visit, person.id)) stretchFor(visit, person, list, travel);
  const total = list.reduce((sum, one) => sum + one.closes - one.from, 0);
  return list
    .sort((a, b) => a.from - b.from)
    .map((one) => ({ ...one, target: Math.round((person.targetMinutes * (one.closes - one.from)) / total) }));
}

/** All stretches of all people, the people in the order given. */
export const membersOf = (input: PlanInput, people: readonly PlanPerson[], travel: Travel): Member[] =>
  people.flatMap((person, at) => stretchesOfPerson(input, person, travel).map((one) => ({ person: at, ...one })));

// The stretches of a day in which a person can be on the road: his working hours less the times away, base to base.
import type { Day, Minute } from '../time.ts';
import type { Travel } from '../travel.ts';
import { awayOf } from './away.ts';
import { daysOf, minuteOn } from './days.ts';
import type { PlanInput, PlanPerson, PlanVisit } from './model.ts';

/** One stretch of one person. What a person does in one stretch binds nothing in another. */
export type Member = {
  /** Position in the people sorted by id. */
  person: number;
  /** Leaves the base at the earliest. */
  from: Minute;
  /** A visit ends by then; driving home later counts as overtime. */
  closes: Minute;
  /** Is back at the base by then. */
  until: Minute;
  /** The stretch's share of the person's target. */
  target: Minute;
  /** Outside the hours: there only for a visit that has begun. */
  began: boolean;
};

type Stretch = Pick<Member, 'from' | 'closes' | 'until' | 'began'>;

type Span = { start: Minute; end: Minute };

/** The spans of the days, in minutes from the first midnight. */
const onDays = (days: readonly Day[], spans: readonly (Span & { day: Day })[]): Span[] =>
  days
    .flatMap((day, index) =>
      spans.filter((one) => one.day === day).map(({ start, end }) => ({ start: minuteOn(index, start), end: minuteOn(index, end) })),
    )
    .sort((a, b) => a.start - b.start || a.end - b.end);

/** What is left of a shift between the times away, each bounded by what follows it. */
function stretchesOf(shift: Span, offs: readonly Span[], limit: Minute): Stretch[] {
  const list: Omit<Stretch, 'began'>[] = [];
  let from = shift.start;
  for (const off of offs) {
    if (off.end <= from) continue;
    if (off.start >= limit) break;
    if (off.start > from) list.push({ from, closes: Math.min(shift.end, off.start), until: Math.min(limit, off.start) });
    from = Math.max(from, off.end);
  }
  if (from < shift.end) list.push({ from, closes: shift.end, until: offs.find((off) => off.start >= from)?.start ?? limit });
  return list.filter((one) => one.from < one.closes).map((one) => ({ ...one, until: Math.min(one.until, limit), began: false }));
}

/** A visit that has begun binds whatever the hours say now. */
function stretchFor(visit: PlanVisit, person: PlanPerson, list: Stretch[], travel: Travel): void {
  const { start } = visit.current!;
  if (list.some((one) => one.from <= start && start < one.until)) return;
  const closes = start + visit.durationMinutes;
  const until = closes + travel.minutes(visit.place, person.base);
  list.push({ from: start - travel.minutes(person.base, visit.place), closes, until, began: true });
}

const inCrew = (visit: PlanVisit, id: string): boolean => visit.current?.first === id || visit.current?.second === id;

/** The stretches of one person, in time order; none when he does not work that day. */
export function stretchesOfPerson(input: PlanInput, person: PlanPerson, travel: Travel): Omit<Member, 'person'>[] {
  const shifts = onDays(daysOf(input), person.shifts);
  const offs = onDays(daysOf(input), awayOf(input, person, travel));
  const list = shifts.flatMap((shift, at) => {
    const next = shifts[at + 1]?.start ?? Infinity;
    return stretchesOf(shift, offs, Math.min(shift.end + person.overtimeLimit, next));
  });
  for (const visit of input.visits) if (visit.underWay && inCrew(visit, person.id)) stretchFor(visit, person, list, travel);
  const total = list.reduce((sum, one) => sum + one.closes - one.from, 0);
  return list
    .sort((a, b) => a.from - b.from)
    .map((one) => ({ ...one, target: Math.round((person.targetMinutes * (one.closes - one.from)) / total) }));
}

/** All stretches of all people, the people in the order given. */
export const membersOf = (input: PlanInput, people: readonly PlanPerson[], travel: Travel): Member[] =>
  people.flatMap((person, at) => stretchesOfPerson(input, person, travel).map((one) => ({ person: at, ...one })));

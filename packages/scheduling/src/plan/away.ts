// What keeps people of a plan besides the visits that it places: other visits of the calendar, and coming along as an observer.
import type { Commitment } from '../gaps.ts';
import type { Day } from '../time.ts';
import type { Busy } from '../world.ts';
import { dayAndMinute, daysOf } from './days.ts';
import type { PlanInput, PlanPerson, PlanVisit } from './model.ts';

const takes = ({ personIds, observerIds = [] }: Busy, id: string): boolean => personIds.includes(id) || observerIds.includes(id);

/** A visit with observers stays where it is; nobody of its crew is named, because that is the plan's to say. */
function observed(input: PlanInput, { id, observers, current, durationMinutes, place }: PlanVisit): Busy[] {
  if (!observers || observers.length === 0 || current === null) return [];
  const { day, minute } = dayAndMinute(input.day, current.start);
  return [{ id, personIds: [], observerIds: observers, day, start: minute, end: minute + durationMinutes, place, kit: [] }];
}

/** The calendar without the visits that are planned. */
export const calendarAround = (input: PlanInput): Busy[] => [
  ...(input.around ?? []),
  ...input.visits.flatMap((visit) => observed(input, visit)),
];

/** Whether the person has something else to do on a day of the plan. */
export const isEngaged = (input: PlanInput, id: string, day: string): boolean =>
  calendarAround(input).some((busy) => busy.day === day && takes(busy, id));

/** What keeps a person on a day: times away at the base, and what he does elsewhere. */
export function awayOf(input: PlanInput, person: PlanPerson): (Commitment & { day: Day })[] {
  const days = daysOf(input);
  const elsewhere = calendarAround(input).filter((busy) => days.includes(busy.day) && takes(busy, person.id));
  return [
    ...person.off.map(({ day, start, end }) => ({ day, start, end, place: person.base })),
    ...elsewhere.map(({ day, start, end, place }) => ({ day, start, end, place })),
  ];
}

// The people of a day's plan: their fair share of the work, and what keeps them from a visit.
import type { PlanPerson, PlanVisit } from '@backsight/scheduling/plan/model';
import type { World } from '@backsight/scheduling/world';
import type { PlanVisitRow } from '@backsight/store/schedule/planFacts';

/** Working days over which a lead of the last four weeks is made up for. */
const MAKE_UP_DAYS = 10;

/**
 * Everybody with a target: an equal share of the day's work, more for whoever worked less than the others in the last four
 * weeks, less for whoever worked more, never beyond his hours.
 */
export function plannedPeople(world: World, day: string, visits: readonly PlanVisit[]): PlanPerson[] {
  const hours = (id: string): number =>
    world.people
      .find((person) => person.id === id)!
      .shifts.filter((shift) => shift.day === day)
      .reduce((sum, { start, end }) => sum + end - start, 0);
  const here = world.people.filter(({ id }) => hours(id) > 0);
  const mean = here.reduce((sum, { recentMinutes }) => sum + recentMinutes, 0) / Math.max(1, here.length);
  const work = visits.reduce((sum, { durationMinutes, crewSize, reportMinutes }) => sum + durationMinutes * crewSize + reportMinutes, 0);
  const share = work / Math.max(1, here.length);
  return world.people.map((person) => ({
    ...person,
    overtimeLimit: person.overtimeLimit ?? world.overtimeLimit ?? 0,
    targetMinutes: Math.round(Math.min(hours(person.id), Math.max(0, share + (mean - person.recentMinutes) / MAKE_UP_DAYS))),
  }));
}

/**
 * No two of those who did the inspection make up the pair of its callback visit: all but one of them are kept from it, the
 * one who is planned now if any is.
 */
export const keptApart = (people: readonly PlanPerson[], visits: readonly PlanVisitRow[]): PlanPerson[] =>
  people.map((person) => {
    const kept = visits.filter(
      (visit) => visit.firstPeople.length > 1 && visit.firstPeople.includes(person.id) && stayer(visit) !== person.id,
    );
    return kept.length === 0 ? person : { ...person, barredFrom: [...(person.barredFrom ?? []), ...kept.map(({ id }) => id)] };
  });

const stayer = ({ firstPeople, first, second }: PlanVisitRow): string =>
  firstPeople.find((id) => id === first || id === second) ?? firstPeople[0]!;

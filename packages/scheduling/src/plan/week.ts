// Several days planned as one: visits may move between the days that their promise allows, and the fair share of a person is
// spread over all of them. The same search with the same proof; a visit that cannot move stays on its day.
import { dayIndex, minuteOn } from './days.ts';
import type { Plan, PlanInput, PlanPerson, PlanVisit } from './model.ts';
import { addDays } from '../time.ts';
import type { Minute } from '../time.ts';
import type { Busy } from '../world.ts';

/** Where else a visit may take place: position of the day among the inputs, and the starts possible there. */
export type Elsewhere = { visitId: string; days: { day: number; from: Minute; until: Minute }[] };

const shifted = (window: { from: Minute; until: Minute }, index: number) => ({
  from: minuteOn(index, window.from),
  until: minuteOn(index, window.until),
});

function visitOn(visit: PlanVisit, index: number, elsewhere: ReadonlyMap<string, Elsewhere>): PlanVisit {
  const { window, promise, current } = visit;
  const others = visit.locked || visit.underWay ? [] : (elsewhere.get(visit.id)?.days ?? []);
  return {
    ...visit,
    window: shifted(window, index),
    promise: promise && shifted(promise, index),
    current: current && { ...current, start: minuteOn(index, current.start) },
    elsewhere: others.filter(({ day }) => day !== index).map((other) => shifted(other, other.day)),
  };
}

/** One person of all days: hours, times away and bars of every day, and the sum of the days' targets. */
function personOf(person: PlanPerson, days: readonly PlanInput[]): PlanPerson {
  const each = days.flatMap(({ people }) => people.filter(({ id }) => id === person.id));
  const once = <T>(list: readonly T[]): T[] => [...new Map(list.map((one) => [JSON.stringify(one), one])).values()];
  return {
    ...person,
    shifts: once(each.flatMap(({ shifts }) => shifts)),
    off: once(each.flatMap(({ off }) => off)),
    barredFrom: once(each.flatMap(({ barredFrom = [] }) => barredFrom)),
    targetMinutes: each.reduce((sum, { targetMinutes }) => sum + targetMinutes, 0),
  };
}

/** What is on the calendar beside the visits of all days. */
function aroundAll(days: readonly PlanInput[]): Busy[] {
  const planned = new Set(days.flatMap(({ visits }) => visits.map(({ id }) => id)));
  const known = new Map(days.flatMap(({ around = [] }) => around.map((one) => [one.id, one] as const)));
  return [...known.values()].filter(({ id }) => !planned.has(id));
}

/**
 * The days as one question. `days` are of consecutive dates in order, with the same people, rules, kit and weights; the first
 * one's settings count. Throws RangeError when a date is missing.
 */
export function weekInput(days: readonly [PlanInput, ...PlanInput[]], movable: readonly Elsewhere[]): PlanInput {
  const [first] = days;
  days.forEach(({ day }, index) => {
    if (day !== addDays(first.day, index)) throw new RangeError(`The days planned together must follow each other: ${day}`);
  });
  const elsewhere = new Map(movable.map((one) => [one.visitId, one]));
  const people = new Map(days.flatMap((one) => one.people.map((person) => [person.id, person] as const)));
  return {
    ...first,
    span: days.length,
    around: aroundAll(days),
    people: [...people.values()].map((person) => personOf(person, days)),
    visits: days.flatMap(({ visits }, index) => visits.map((visit) => visitOn(visit, index, elsewhere))),
  };
}

/** The part of a plan of several days that lies on one of them, in that day's own minutes. */
export function planOfDay(plan: Plan, index: number): Plan {
  const routes = plan.routes.map((route) => ({
    ...route,
    stops: route.stops
      .filter(({ start }) => dayIndex(start) === index)
      .map((stop) => ({ ...stop, start: stop.start - minuteOn(index, 0) })),
  }));
  return { routes: routes.filter(({ stops }) => stops.length > 0) };
}

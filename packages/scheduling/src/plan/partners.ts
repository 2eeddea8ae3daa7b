// Partners that change at midday, after a plan whose crews stay together all day: visits left out are given to two people of
// different crews, and crews exchange a member for the rest of the day, wherever that is cheaper and every rule holds. A
// search of neighbours without a bound: the proof of the plan before still speaks of crews that stay together.
import type { Travel } from '../travel.ts';
import { checkPlan } from './checkPlan.ts';
import { costOf } from './cost.ts';
import { placementsOf, planFrom } from './difference.ts';
import type { Placement, Plan, PlanInput, PlanVisit, Route } from './model.ts';
import { isFixed, startsOf } from './starts.ts';

export type Partners = { plan: Plan; cost: number; /** Exchanges and late placements that were made. */ changes: number };

const GAIN = 0.05;

const crewOf = ({ first, second }: Pick<Placement, 'first' | 'second'>): string[] => (second === null ? [first] : [first, second]);

/** Cost of what some people do, the rest of the day left aside. */
function costAmong(input: PlanInput, plan: Plan, ids: ReadonlySet<string>, visitIds: ReadonlySet<string>, travel: Travel): number {
  const routes = plan.routes.filter((route) => crewOf(route).some((id) => ids.has(id)));
  const people = input.people.filter(({ id }) => ids.has(id));
  const inRoutes = new Set(routes.flatMap(({ stops }) => stops.map(({ visitId }) => visitId)));
  const visits = input.visits.filter(({ id }) => inRoutes.has(id) || visitIds.has(id));
  return costOf({ ...input, people, visits }, { routes }, travel).cost;
}

/** People who could be at the visit then, their other visits considered. */
function freeAt(input: PlanInput, placements: ReadonlyMap<string, Placement>, visit: PlanVisit, start: number, travel: Travel): string[] {
  const end = start + visit.durationMinutes;
  const visits = new Map(input.visits.map((one) => [one.id, one]));
  const busy = new Set<string>();
  for (const [id, placement] of placements) {
    const other = visits.get(id)!;
    const ready = placement.start + other.durationMinutes + travel.minutes(other.place, visit.place);
    if (ready > start && end + travel.minutes(visit.place, other.place) > placement.start)
      for (const one of crewOf(placement)) busy.add(one);
  }
  return input.people.filter(({ id }) => !busy.has(id)).map(({ id }) => id);
}

function crews(visit: PlanVisit, free: readonly string[]): Pick<Placement, 'first' | 'second'>[] {
  if (visit.crewSize === 1) return free.map((first) => ({ first, second: null }));
  return free.flatMap((first) => free.filter((id) => id !== first).map((second) => ({ first, second })));
}

/** Places a visit that was left out where it costs least, if it can be anywhere. */
function placeLeftOut(input: PlanInput, plan: Plan, visit: PlanVisit, travel: Travel): Plan | null {
  const placements = placementsOf(plan);
  let best: { plan: Plan; more: number } | null = null;
  for (const start of startsOf(input, visit)) {
    for (const crew of crews(visit, freeAt(input, placements, visit, start, travel))) {
      const ids = new Set(crewOf(crew));
      const after = planFrom(new Map([...placements, [visit.id, { ...crew, start }]]));
      const own = new Set([visit.id]);
      const more = costAmong(input, after, ids, own, travel) - costAmong(input, plan, ids, own, travel);
      if (more < (best?.more ?? -GAIN) && checkPlan(input, after, travel, ids).length === 0) best = { plan: after, more };
    }
  }
  return best?.plan ?? null;
}

/** The two ways in which two crews can exchange one member each. */
function exchanges(one: Route, two: Route): [Pick<Placement, 'first' | 'second'>, Pick<Placement, 'first' | 'second'>][] {
  if (one.second === null || two.second === null) return [];
  return [
    [
      { first: one.first, second: two.second },
      { first: two.first, second: one.second },
    ],
    [
      { first: one.first, second: two.first },
      { first: one.second, second: two.second },
    ],
  ];
}

/** Both routes with their stops from `from` on given to the exchanged crews; null when nothing is left to exchange. */
function exchanged(plan: Plan, one: Route, two: Route, from: number, crewsThen: ReturnType<typeof exchanges>[number]): Plan | null {
  const rest = [one, two].map((route) => ({
    before: route.stops.filter(({ start }) => start < from),
    after: route.stops.filter(({ start }) => start >= from),
  }));
  if (rest.every(({ after }) => after.length === 0) || rest.every(({ before }) => before.length === 0)) return null;
  const routes = [one, two].flatMap((route, at) => [
    { ...route, stops: rest[at]!.before },
    { ...crewsThen[at]!, stops: rest[at]!.after },
  ]);
  return { routes: [...plan.routes.filter((route) => route !== one && route !== two), ...routes.filter(({ stops }) => stops.length > 0)] };
}

function exchange(input: PlanInput, plan: Plan, fixed: ReadonlySet<string>, travel: Travel): Plan | null {
  for (const [at, one] of plan.routes.entries()) {
    for (const two of plan.routes.slice(at + 1)) {
      const ids = new Set([...crewOf(one), ...crewOf(two)]);
      if (ids.size < 4 || [...one.stops, ...two.stops].some(({ visitId }) => fixed.has(visitId))) continue;
      const now = costAmong(input, plan, ids, new Set(), travel);
      for (const from of new Set([...one.stops, ...two.stops].map(({ start }) => start))) {
        for (const then of exchanges(one, two)) {
          const after = exchanged(plan, one, two, from, then);
          if (after === null || costAmong(input, after, ids, new Set(), travel) > now - GAIN) continue;
          if (checkPlan(input, after, travel, ids).length === 0) return after;
        }
      }
    }
  }
  return null;
}

/**
 * Improves a plan by letting partners change during the day. Deterministic; at most `most` changes. What is locked or under way
 * stays. The cost never rises, and the plan keeps every rule that it kept before.
 */
export function changePartners(input: PlanInput, plan: Plan, travel: Travel, most = 50): Partners {
  const fixed = new Set(input.visits.filter(isFixed).map(({ id }) => id));
  let best = plan;
  let changes = 0;
  for (const visit of input.visits) {
    if (placementsOf(best).has(visit.id) || isFixed(visit)) continue;
    const placed = placeLeftOut(input, best, visit, travel);
    if (placed) [best, changes] = [placed, changes + 1];
  }
  for (let next = exchange(input, best, fixed, travel); next !== null && changes < most; next = exchange(input, best, fixed, travel)) {
    best = next;
    changes++;
  }
  return { plan: best, cost: costOf(input, best, travel).cost, changes };
}

// People whose fixed visits bind them to different partners on one day: a route of one crew cannot say that, so their day
// stays as it is and the search plans around them.
import { crewKey } from '../kit.ts';
import { currentPlan } from './currentPlan.ts';
import type { PlanInput, PlanVisit, Route } from './model.ts';
import { isFixed } from './starts.ts';

export type Frozen = { routes: Route[]; /** Pieces of each kind out with those crews. */ taken: Map<string, number> };

const crewOf = ({ current }: PlanVisit): string[] =>
  current === null ? [] : [current.first, ...(current.second === null ? [] : [current.second])];

/** Whether one route, with at most one visit alone before or after it, can hold these fixed visits of one person. */
function fitOneRoute(visits: readonly PlanVisit[]): boolean {
  const firsts = new Map(visits.map((visit) => [crewKey(crewOf(visit)), visit.current!.first]));
  if (visits.some((visit) => firsts.get(crewKey(crewOf(visit))) !== visit.current!.first)) return false;
  const alone = visits.filter((visit) => visit.crewSize === 1);
  const beside = alone.length < visits.length && alone.length > 0;
  return beside ? firsts.size === 2 && alone.length === 1 && !visits.some((visit) => visit.underWay) : firsts.size === 1;
}

function frozenPeople(fixed: readonly PlanVisit[]): Set<string> {
  const byPerson = new Map<string, PlanVisit[]>();
  for (const visit of fixed) for (const id of crewOf(visit)) byPerson.set(id, [...(byPerson.get(id) ?? []), visit]);
  const frozen = new Set<string>();
  const waiting = [...byPerson].filter(([, visits]) => !fitOneRoute(visits)).map(([id]) => id);
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    if (frozen.has(id)) continue;
    frozen.add(id);
    for (const visit of byPerson.get(id) ?? []) waiting.push(...crewOf(visit));
  }
  return frozen;
}

/** Takes such people out of the day, with the visits that only they have. */
export function freezeSplitCrews(input: PlanInput): { input: PlanInput; frozen: Frozen } {
  const people = frozenPeople(input.visits.filter(isFixed));
  const stays = (visit: PlanVisit) => visit.current !== null && crewOf(visit).every((id) => people.has(id));
  const routes = currentPlan({ ...input, visits: input.visits.filter(stays) }).routes;
  const carried = new Set(input.visits.filter(stays).flatMap((visit) => visit.kit.map((kind) => `${kind}|${crewKey(crewOf(visit))}`)));
  const taken = new Map<string, number>();
  for (const one of carried) {
    const kind = one.slice(0, one.indexOf('|'));
    taken.set(kind, (taken.get(kind) ?? 0) + 1);
  }
  const rest = { people: input.people.filter(({ id }) => !people.has(id)), visits: input.visits.filter((visit) => !stays(visit)) };
  return { input: { ...input, ...rest }, frozen: { routes, taken } };
}

// People whose fixed visits bind them to different partners on one day, or who have something else to do beside them: a route
// of one crew cannot say that, so their day stays as it is and the search plans around them.
import { crewKey, piecesOf } from '../kit.ts';
import { addDays } from '../time.ts';
import { isEngaged } from './away.ts';
import { currentPlan } from './currentPlan.ts';
import { dayAndMinute, dayIndex, daysOf } from './days.ts';
import type { PlanInput, PlanVisit, Route } from './model.ts';
import { isFixed } from './starts.ts';

export type Frozen = { routes: Route[]; /** Pieces out with those crews, by day|pool. */ taken: Map<string, number> };

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

/** A person's day, by name and position of the day. */
const dayKey = (id: string, visit: PlanVisit): string => `${dayIndex(visit.current!.start)}|${id}`;

function frozenDays(input: PlanInput, fixed: readonly PlanVisit[]): Set<string> {
  const byDay = new Map<string, PlanVisit[]>();
  for (const visit of fixed) {
    for (const id of crewOf(visit)) byDay.set(dayKey(id, visit), [...(byDay.get(dayKey(id, visit)) ?? []), visit]);
  }
  const frozen = new Set<string>();
  const engaged = (key: string) => {
    const [index = '', id = ''] = key.split('|');
    return isEngaged(input, id, addDays(input.day, Number(index)));
  };
  const waiting = [...byDay].filter(([key, visits]) => !fitOneRoute(visits) || engaged(key)).map(([key]) => key);
  for (let key = waiting.pop(); key !== undefined; key = waiting.pop()) {
    if (frozen.has(key)) continue;
    frozen.add(key);
    for (const visit of byDay.get(key) ?? []) waiting.push(...crewOf(visit).map((id) => dayKey(id, visit)));
  }
  return frozen;
}

/** Pieces of each pool that the visits' crews carry, and those of visits that are not planned, by day|kind. */
function carriedBy(input: PlanInput, visits: readonly PlanVisit[]): Map<string, number> {
  const pieces = (day: string, kit: readonly string[], crew: readonly string[]): string[] =>
    piecesOf(input, kit, crew).map(({ pool, holder }) => `${day}|${pool}\n${holder}`);
  const crews = new Set(visits.flatMap((visit) => pieces(dayAndMinute(input.day, visit.current!.start).day, visit.kit, crewOf(visit))));
  for (const { day, kit, personIds } of input.around ?? [])
    if (daysOf(input).includes(day)) for (const piece of pieces(day, kit, personIds)) crews.add(piece);
  const taken = new Map<string, number>();
  for (const one of crews) {
    const [key = ''] = one.split('\n');
    taken.set(key, (taken.get(key) ?? 0) + 1);
  }
  return taken;
}

/** Takes the days of such people out of the plan, with the visits that only they have. */
export function freezeSplitCrews(input: PlanInput): { input: PlanInput; frozen: Frozen } {
  const frozen = frozenDays(input, input.visits.filter(isFixed));
  const stays = (visit: PlanVisit) => visit.current !== null && crewOf(visit).every((id) => frozen.has(dayKey(id, visit)));
  const staying = input.visits.filter(stays);
  const routes = currentPlan({ ...input, visits: staying }).routes;
  const people = input.people.map((person) => {
    const off = daysOf(input)
      .filter((_, index) => frozen.has(`${index}|${person.id}`))
      .map((day) => ({ day, start: 0, end: 1440, why: 'stays as it is' }));
    return off.length === 0 ? person : { ...person, off: [...person.off, ...off] };
  });
  return {
    input: { ...input, people, visits: input.visits.filter((visit) => !stays(visit)) },
    frozen: { routes, taken: carriedBy(input, staying) },
  };
}

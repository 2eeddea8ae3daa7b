// The plan as it is now, and a first plan made from it: what the search has to beat.
import { layoutOf, mayForm, pairUp, skipOfColumn } from './columns.ts';
import type { Column, Space } from './columns.ts';
import { dayIndex } from './days.ts';
import { entriesOfColumn } from './master.ts';
import type { Pricing } from './pricing.ts';
import type { Plan, PlanInput, Route } from './model.ts';

/** Visits as they are placed now, one route per crew, in time order. */
export function currentPlan(input: PlanInput): Plan {
  const routes = new Map<string, Route>();
  for (const { id, current } of input.visits) {
    if (current === null) continue;
    const key = `${current.first}|${current.second ?? ''}|${dayIndex(current.start)}`;
    const route = routes.get(key) ?? { first: current.first, second: current.second, stops: [] };
    route.stops.push({ visitId: id, start: current.start });
    routes.set(key, route);
  }
  const list = [...routes.values()].map((route) => ({ ...route, stops: route.stops.sort((a, b) => a.start - b.start) }));
  return { routes: list.sort((a, b) => a.stops[0]!.start - b.stops[0]!.start || (a.first < b.first ? -1 : 1)) };
}

type Crew = { ids: string[]; day: number; visits: number[]; /** Visits that a member does alone besides. */ alone: Map<string, number> };

/** Crews of a plan, the current one when null, with their visits; a single visit of somebody who also goes in a pair belongs to that pair. */
function crewsOf({ tables }: Space, plan: Plan | null): Crew[] {
  const crews = new Map<string, Crew>();
  const placed = new Map(
    (plan?.routes ?? []).flatMap(({ first, second, stops }) => stops.map(({ visitId, start }) => [visitId, { first, second, start }])),
  );
  tables.visits.forEach(({ id, current: now }, visit) => {
    const current = plan ? (placed.get(id) ?? null) : now;
    if (current === null) return;
    const ids = [current.first, ...(current.second === null ? [] : [current.second])].sort();
    const key = `${ids.join('|')}|${dayIndex(current.start)}`;
    const crew = crews.get(key) ?? { ids, day: dayIndex(current.start), visits: [], alone: new Map<string, number>() };
    crew.visits.push(visit);
    crews.set(key, crew);
  });
  const pairs = [...crews.values()].filter((crew) => crew.ids.length === 2);
  for (const [key, { ids, day, visits }] of crews) {
    const isSingle = ids.length === 1 && visits.length === 1;
    const pair = isSingle ? pairs.find((one) => one.day === day && one.ids.includes(ids[0]!)) : undefined;
    if (!pair) continue;
    pair.alone.set(ids[0]!, visits[0]!);
    crews.delete(key);
  }
  return [...crews.values()];
}

/** The cheapest column of a crew on one route, if it can go that way. */
function columnOf(space: Space, crew: Crew, route: number): Column | null {
  const { tables, entries } = space;
  const entryOf = (id: string | undefined): number => {
    for (let entry = entries.first[route]!; entry < entries.first[route + 1]!; entry++) {
      const person = tables.people[tables.members[entries.member[entry]!]!.person]!.id;
      if (person === id && entries.alone[entry] === (crew.alone.get(id) ?? -1)) return entry;
    }
    return -1;
  };
  const [a, b] = [entryOf(crew.ids[0]), entryOf(crew.ids[1])];
  if (a < 0) return null;
  if (crew.ids.length === 1) return { route, first: a, second: -1, cost: entries.costFirst[a]! };
  return b >= 0 && mayForm(space, route, a, b) ? pairUp(space, route, a, b) : null;
}

/** For every crew of the plan, the current one when null, its cheapest route through the same visits, where it can still go. */
export function columnsOfPlan(space: Space, plan: Plan | null): Column[] {
  const { routes } = space;
  const setOf = (visits: Iterable<number>) => [...visits].sort((a, b) => a - b).join();
  const crews = new Map<string, { crew: Crew; best: Column | null }>(
    crewsOf(space, plan).map((crew) => [setOf(crew.visits), { crew, best: null }]),
  );
  for (let route = 0; route < routes.count; route++) {
    const wanted = crews.get(setOf(routes.visits.subarray(routes.first[route], routes.first[route + 1])));
    const column = wanted ? columnOf(space, wanted.crew, route) : null;
    if (wanted && column && column.cost < (wanted.best?.cost ?? Infinity)) wanted.best = column;
  }
  return [...crews.values()].flatMap(({ best }) => (best ? [best] : []));
}

/** Takes columns in the order given while no row is full. */
export function withoutClashes(space: Space, columns: readonly Column[]): Column[] {
  const layout = layoutOf(space.tables);
  const left = new Float64Array(layout.cuts).fill(1);
  space.tables.kitLimit.forEach((limit, kind) => (left[layout.kit + kind] = limit));
  left[layout.count] = Infinity;
  return columns.filter((column) => {
    const entries = entriesOfColumn(space, layout, [], column);
    if (entries.some(([row, value]) => left[row]! < value)) return false;
    for (const [row, value] of entries) left[row]! -= value;
    return true;
  });
}

/** Crews of one route among which the first plan chooses. */
const PER_ROUTE = 3;

/** The plan, the current one when null, as far as it goes, then the cheapest crews for what is open. Made at once, without the solver. */
export function firstPlan(space: Space, pricing: Pricing, plan: Plan | null): Column[] {
  const duals = new Float64Array(layoutOf(space.tables).cuts);
  const others: { column: Column; worth: number }[] = [];
  const emit = (column: Column & { reduced: number }) => {
    others.push({ column, worth: column.reduced });
  };
  pricing.run({ duals, cuts: [], limit: 0, perRoute: PER_ROUTE, step: 1, offset: 0, emit });
  const ranked = others.sort((a, b) => a.worth - b.worth).map(({ column }) => column);
  return withoutClashes(space, [...columnsOfPlan(space, plan), ...ranked]);
}

/** Cost of the columns, the visits that they leave out included. */
export function costOfColumns(space: Space, columns: readonly Column[]): number {
  const all = space.tables.skip.reduce((sum, skip) => sum + skip, 0);
  return columns.reduce((sum, column) => sum + column.cost - skipOfColumn(space, column), all);
}

// A column of the master problem: one crew on one route. Its rows, cost and the plan that chosen columns make.
import { dayIndex } from './days.ts';
import type { Entries } from './entries.ts';
import type { Plan, Stop } from './model.ts';
import type { Routes } from './routeList.ts';
import type { Tables } from './tables.ts';

/** Everything enumerated once for a day. */
export type Space = { tables: Tables; routes: Routes; entries: Entries };

/** `first` and `second` are entries of the route; `second` is -1 when one person goes alone. */
export type Column = { route: number; first: number; second: number; cost: number };

export type Layout = {
  /** Row of the first visit (0), member, kind of kit; row of the count of visits; first row of the cuts. */
  members: number;
  kit: number;
  count: number;
  cuts: number;
};

export const layoutOf = ({ visits, members, kitLimit }: Tables): Layout => {
  const kit = visits.length + members.length;
  return { members: visits.length, kit, count: kit + kitLimit.length, cuts: kit + kitLimit.length + 1 };
};

/** Names a column; below 2^53 for every number of entries that fits into memory. */
export const columnKey = ({ entries }: Space, { first, second }: Column): number => {
  const [low, high] = first < second ? [first, second] : [second, first];
  return (low + 1) * (entries.member.length + 1) + high;
};

export const membersOfColumn = ({ entries }: Space, { first, second }: Column): number[] =>
  second < 0 ? [entries.member[first]!] : [entries.member[first]!, entries.member[second]!];

/** Visits of the column: those of the route and those that a member does alone. */
export function visitsOfColumn({ routes, entries }: Space, { route, first, second }: Column): number[] {
  const list: number[] = [];
  for (let at = routes.first[route]!; at < routes.first[route + 1]!; at++) list.push(routes.visits[at]!);
  if (entries.alone[first]! >= 0) list.push(entries.alone[first]!);
  if (second >= 0 && entries.alone[second]! >= 0) list.push(entries.alone[second]!);
  return list;
}

/** Position of a kind of kit among the limits, on the day of the route. */
export const kitRow = ({ tables, routes }: Space, route: number, kind: number): number =>
  dayIndex(routes.begins[route]!) * tables.kinds + kind;

/** Pools of what the member of an entry wears, on the route or at his visit alone. */
export function wornBy({ tables, routes, entries }: Space, route: number, entry: number): number {
  const alone = entries.alone[entry]!;
  return (routes.kit[route]! | (alone < 0 ? 0 : tables.kitOf[alone]!)) & tables.wears[entries.member[entry]!]!;
}

/** Pieces of a pool that the column takes: the crew one, a member one who carries it to a visit alone, and each what he wears. */
export function kitOfColumn({ tables, routes, entries }: Space, { route, first, second }: Column, kind: number): number {
  const carries = (bits: number) => (bits >> kind) & 1;
  if (carries(tables.worn)) {
    const wears = (entry: number) => (entry < 0 ? 0 : carries(wornBy({ tables, routes, entries }, route, entry)));
    return wears(first) + wears(second);
  }
  const alone = (entry: number) => (entry >= 0 && entries.alone[entry]! >= 0 ? carries(tables.kitOf[entries.alone[entry]!]!) : 0);
  return carries(routes.kit[route]!) + alone(first) + alone(second);
}

/** What leaving out the column's visits would cost. */
export function skipOfColumn(space: Space, column: Column): number {
  return visitsOfColumn(space, column).reduce((sum, visit) => sum + space.tables.skip[visit]!, 0);
}

/** Whether two entries of a route may make up a pair: pairing rules, qualifications between them, no visit alone twice. */
export function mayForm({ tables, routes, entries }: Space, route: number, a: number, b: number): boolean {
  const one = entries.member[a]!;
  const two = entries.member[b]!;
  if (tables.members[one]!.person === tables.members[two]!.person) return false;
  if (tables.mayPair[one * tables.members.length + two] === 0 && !tables.visits[routes.visits[routes.first[route]!]!]!.underWay)
    return false;
  const needs = routes.needs[route]!;
  if (needs !== 0 && ((tables.holds[one]! | tables.holds[two]!) & needs) !== needs) return false;
  return entries.alone[a]! < 0 || entries.alone[a] !== entries.alone[b];
}

/** Person that goes first on the route whatever it costs, -1 when that is open. */
function fixedFirst({ tables, routes }: Space, route: number): number {
  for (let at = routes.first[route]!; at < routes.first[route + 1]!; at++) {
    const crew = tables.fixedCrew[routes.visits[at]!];
    if (crew) return crew[0];
  }
  return -1;
}

/** A crew on a route; whoever of the two costs less there goes first, unless that is fixed. Infinity when neither may. */
export function pairUp(space: Space, route: number, a: number, b: number): Column {
  const { tables, entries } = space;
  const [one, two] = [entries.member[a]!, entries.member[b]!];
  const rotation = tables.rotation[one * tables.members.length + two]!;
  const [ab, ba] = [entries.costFirst[a]! + entries.cost[b]!, entries.cost[a]! + entries.costFirst[b]!];
  const [personA, personB] = [tables.members[one]!.person, tables.members[two]!.person];
  const fixed = fixedFirst(space, route);
  const aFirst = fixed >= 0 ? fixed === personA : ab < ba || (ab === ba && personA < personB);
  return aFirst ? { route, first: a, second: b, cost: ab + rotation } : { route, first: b, second: a, cost: ba + rotation };
}

/** The plan that the columns make, routes in order of their first start. */
export function planOf(space: Space, columns: readonly Column[]): Plan {
  const { tables, routes, entries } = space;
  const nameOf = (entry: number) => tables.people[tables.members[entries.member[entry]!]!.person]!.id;
  const list = columns.flatMap((column) => {
    const stops: Stop[] = [];
    for (let at = routes.first[column.route]!; at < routes.first[column.route + 1]!; at++) {
      stops.push({ visitId: tables.visits[routes.visits[at]!]!.id, start: routes.starts[at]! });
    }
    const alone = [column.first, column.second].flatMap((entry) => {
      const visit = entry < 0 ? -1 : entries.alone[entry]!;
      if (visit < 0) return [];
      return [{ first: nameOf(entry), second: null, stops: [{ visitId: tables.visits[visit]!.id, start: entries.aloneStart[entry]! }] }];
    });
    return [{ first: nameOf(column.first), second: column.second < 0 ? null : nameOf(column.second), stops }, ...alone];
  });
  const byStart = list.sort((a, b) => a.stops[0]!.start - b.stops[0]!.start || (a.first < b.first ? -1 : 1));
  return { routes: byStart };
}

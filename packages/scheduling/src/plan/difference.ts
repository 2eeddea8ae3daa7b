// A plan told as moves against the plan of now, in groups each of which can be accepted or refused by itself.
import { sayDay, sayTime } from '../time.ts';
import type { Travel } from '../travel.ts';
import { checkPlan } from './checkPlan.ts';
import { costOf } from './cost.ts';
import { currentPlan } from './currentPlan.ts';
import { dayAndMinute, dayIndex } from './days.ts';
import { linkedMoves } from './links.ts';
import type { MoveGroup, Placement, Plan, PlanDifference, PlanInput, PlanMove, Route } from './model.ts';

const same = (a: Placement | null, b: Placement | null): boolean =>
  a === b || (a !== null && b !== null && a.first === b.first && a.second === b.second && a.start === b.start);

/** Where each visit is in a plan. */
export function placementsOf(plan: Plan): Map<string, Placement> {
  return new Map(
    plan.routes.flatMap(({ first, second, stops }) => stops.map(({ visitId, start }) => [visitId, { first, second, start }] as const)),
  );
}

/** The plan that these placements make, one route per crew and day. */
export function planFrom(placements: ReadonlyMap<string, Placement>): Plan {
  const routes = new Map<string, Route>();
  for (const [visitId, { first, second, start }] of placements) {
    const key = `${first}|${second ?? ''}|${dayIndex(start)}`;
    const route = routes.get(key) ?? { first, second, stops: [] };
    route.stops.push({ visitId, start });
    routes.set(key, route);
  }
  for (const route of routes.values()) route.stops.sort((a, b) => a.start - b.start);
  return { routes: [...routes.values()] };
}

function sayer(input: PlanInput) {
  const names = new Map(input.people.map(({ id, name }) => [id, name]));
  const name = (id: string): string => names.get(id) ?? 'somebody';
  const crew = ({ first, second }: Placement): string =>
    second === null ? `${name(first)} alone` : `${name(first)} first, ${name(second)} second`;
  const when = ({ start }: Placement): string => {
    const at = dayAndMinute(input.day, start);
    return (input.span ?? 1) > 1 ? `${sayDay(at.day)}, ${sayTime(at.minute)}` : sayTime(at.minute);
  };
  const at = (placement: Placement): string => `${(input.span ?? 1) > 1 ? 'on' : 'at'} ${when(placement)}`;
  return (label: string, before: Placement | null, after: Placement | null): string => {
    if (after === null) return `${label} is left out${before ? `; now ${at(before)}, ${crew(before)}` : ''}.`;
    if (before === null) return `${label} ${at(after)}: ${crew(after)}.`;
    const moved = after.start === before.start ? '' : ` instead of ${when(before)}`;
    const others = crew(after) === crew(before) ? '' : `, instead of ${crew(before)}`;
    return `${label} ${at(after)}${moved}: ${crew(after)}${others}.`;
  };
}

/** Every visit that is placed otherwise in the plan than now, in order of its label. */
function movesOf(input: PlanInput, plan: Plan): PlanMove[] {
  const after = placementsOf(plan);
  const say = sayer(input);
  return input.visits
    .filter((visit) => !same(visit.current, after.get(visit.id) ?? null))
    .map((visit) => {
      const move = { visitId: visit.id, label: visit.label, before: visit.current, after: after.get(visit.id) ?? null };
      return { ...move, sentence: say(visit.label, move.before, move.after) };
    });
}

/** The plan of now with some moves made. */
export function withMoves(input: PlanInput, moves: readonly PlanMove[]): Plan {
  const placements = placementsOf(currentPlan(input));
  for (const { visitId, after } of moves) {
    if (after === null) placements.delete(visitId);
    else placements.set(visitId, after);
  }
  return planFrom(placements);
}

const peopleOf = (moves: readonly PlanMove[]): Set<string> =>
  new Set(
    moves.flatMap(({ before, after }) => [before, after].flatMap((one) => (one === null ? [] : [one.first, one.second ?? one.first]))),
  );

/** Groups of which some do not stand by themselves are joined with those that share their people, until all do. */
function standing(input: PlanInput, groups: PlanMove[][], travel: Travel): PlanMove[][] {
  const isBroken = (moves: readonly PlanMove[]) => checkPlan(input, withMoves(input, moves), travel, peopleOf(moves)).length > 0;
  const all = groups.flat();
  const falls = groups.filter((group) => isBroken(group) || (groups.length > 2 && isBroken(all.filter((move) => !group.includes(move)))));
  if (falls.length === 0 || groups.length === 1) return groups;
  const touched = peopleOf(falls.flat());
  const joins = (group: PlanMove[]) => falls.includes(group) || [...peopleOf(group)].some((id) => touched.has(id));
  const joined = groups.filter(joins);
  if (joined.length === 1) return groups;
  return standing(input, [joined.flat(), ...groups.filter((group) => !joins(group))], travel);
}

/**
 * The moves from the plan of now to `plan`. Any set of groups may be accepted: moves that could clash are in one group. What
 * a group saves holds when it alone is accepted; the whole may save more or less than the sum, because people are shared.
 */
export function planDifference(input: PlanInput, plan: Plan, travel: Travel): PlanDifference {
  const now = costOf(input, currentPlan(input), travel);
  const saved = (moves: readonly PlanMove[]) => {
    const then = costOf(input, withMoves(input, moves), travel);
    return { savingMinutes: now.cost - then.cost, drivingSavedMinutes: now.drivingMinutes - then.drivingMinutes };
  };
  const moves = movesOf(input, plan);
  const groups: MoveGroup[] = standing(input, linkedMoves(input, moves, travel), travel).map((group) => ({
    moves: group,
    ...saved(group),
  }));
  return { groups: groups.sort((a, b) => b.savingMinutes - a.savingMinutes), ...saved(moves) };
}

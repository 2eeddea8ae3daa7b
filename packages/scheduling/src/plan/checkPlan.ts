// Every rule that a plan breaks, asked of the rules of booking visit by visit: shares nothing with the planner's search.
import { checkStart } from '../checkStart.ts';
import type { Violation } from '../checkStart.ts';
import { sayTime } from '../time.ts';
import type { Travel } from '../travel.ts';
import type { Busy, World } from '../world.ts';
import { dayAndMinute } from './days.ts';
import type { Placement, Plan, PlanInput, PlanVisit } from './model.ts';
import { bindingWindow, isFixed } from './starts.ts';

export type PlanViolation = { code: Violation['code'] | 'unknown' | 'twice' | 'window' | 'fixed'; visitId: string; sentence: string };

type Placed = Placement & { visit: PlanVisit };

const crewOf = ({ first, second }: Placement): string[] => (second === null ? [first] : [first, second]);

function placedOf(input: PlanInput, plan: Plan): { placed: Placed[]; violations: PlanViolation[] } {
  const visits = new Map(input.visits.map((visit) => [visit.id, visit]));
  const placed: Placed[] = [];
  const violations: PlanViolation[] = [];
  for (const { first, second, stops } of plan.routes) {
    for (const { visitId, start } of stops) {
      const visit = visits.get(visitId);
      if (!visit) violations.push({ code: 'unknown', visitId, sentence: 'The visit is not one of the day.' });
      else if (placed.some((one) => one.visit.id === visitId))
        violations.push({ code: 'twice', visitId, sentence: `${visit.label} is in the plan twice.` });
      else placed.push({ visit, first, second, start });
    }
  }
  return { placed, violations };
}

const busyOf = (first: string, one: Placed): Busy => {
  const { visit } = one;
  const { day, minute } = dayAndMinute(first, one.start);
  return {
    id: visit.id,
    personIds: crewOf(one),
    day,
    start: minute,
    end: minute + visit.durationMinutes,
    place: visit.place,
    kit: visit.kit,
    reportMinutes: visit.reportMinutes,
    ...(visit.observers && { observerIds: visit.observers }),
  };
};

/** The visits as they stand in the calendar once the plan is made. */
export const calendarOf = (input: PlanInput, plan: Plan): Busy[] => placedOf(input, plan).placed.map((one) => busyOf(input.day, one));

/** What is fixed is where it was; everything else starts within its window. */
function ownViolations(input: PlanInput, { visit, first, second, start }: Placed): PlanViolation[] {
  const { current } = visit;
  if (isFixed(visit)) {
    const same = current?.first === first && current.second === second && current.start === start;
    return same ? [] : [{ code: 'fixed', visitId: visit.id, sentence: `${visit.label} keeps its crew and its start.` }];
  }
  const own = bindingWindow(input, visit);
  if ([own, ...(visit.elsewhere ?? [])].some(({ from, until }) => from <= start && start <= until)) return [];
  const { from, until } = own;
  return [{ code: 'window', visitId: visit.id, sentence: `${visit.label} starts between ${sayTime(from)} and ${sayTime(until)}.` }];
}

function bookingViolations(input: PlanInput, placed: readonly Placed[], one: Placed, travel: Travel): PlanViolation[] {
  const { visit, start, first, second } = one;
  const { day, minute } = dayAndMinute(input.day, start);
  const busy = [...(input.around ?? []), ...placed.filter((other) => other !== one).map((other) => busyOf(input.day, other))];
  const world: World = { people: input.people, busy, pairRules: input.pairRules, kit: input.kit };
  const query = {
    place: visit.place,
    durationMinutes: visit.durationMinutes,
    reportMinutes: visit.reportMinutes,
    crewSize: visit.crewSize,
    needEach: visit.needEach,
    needAny: visit.needAny,
    kit: visit.kit,
    involves: visit.involves,
    days: [day],
    earliest: 0,
    latestEnd: 1440,
    grid: 15 as const,
    limit: 1,
    utcOffsetMinutesByDay: {},
  };
  return checkStart(world, query, { day, start: minute, first, second }, travel).map(({ code, sentence }) => ({
    code,
    visitId: visit.id,
    sentence,
  }));
}

/**
 * Every rule that the plan breaks, empty when it may be booked as a whole. A visit that is left out breaks none. Visits under
 * way keep their people whatever the rules say now, and are checked only for being where they were. With `only`, visits of
 * other people are taken as right.
 */
export function checkPlan(input: PlanInput, plan: Plan, travel: Travel, only?: ReadonlySet<string>): PlanViolation[] {
  const { placed: all, violations } = placedOf(input, plan);
  const placed = only ? all.filter((one) => crewOf(one).some((id) => only.has(id))) : all;
  return [
    ...violations,
    ...placed.flatMap((one) => [...ownViolations(input, one), ...(one.visit.underWay ? [] : bookingViolations(input, all, one, travel))]),
  ];
}

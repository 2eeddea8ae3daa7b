// The cost of a plan, straight from the plan: each person's day stop by stop, then the crews and what is left out.
import { daysBetween } from '../time.ts';
import type { Minute } from '../time.ts';
import type { Travel } from '../travel.ts';
import { dayAndMinute } from './days.ts';
import { stretchesOfPerson } from './members.ts';
import type { Member } from './members.ts';
import type { Plan, PlanInput, PlanParts, PlanPerson, PlanVisit, PlanWeights } from './model.ts';
import { leftOutCost, movedCost, otherPartCost, promiseCost } from './starts.ts';

export type PlanCost = { cost: number; parts: PlanParts; /** Minutes on the road, all people together. */ drivingMinutes: number };

/** A visit as one person has it. */
type Own = { visit: PlanVisit; start: Minute; goesFirst: boolean };

/** Where a stretch begins and ends, and the drive between the two that happens anyway. */
type Ends = Pick<Member, 'origin' | 'destination' | 'direct'>;

type Tour = { driving: Minute; waiting: Minute; leaves: Minute; home: Minute; writing: Minute };

/** Cost of `work` minutes against a target. */
export const fairnessCost = (weights: PlanWeights, work: Minute, target: Minute): number =>
  work > target ? weights.overTarget * (work - target) : weights.underTarget * (target - work);

/** What it costs to send two people together who went together lately; `days` are the days of it. */
export function rotationCost(weights: PlanWeights, day: string, days: readonly string[]): number {
  const others = days.filter((one) => one !== day).map((one) => Math.abs(daysBetween(one, day)));
  return others.length === 0 ? 0 : Math.max(0, weights.rotation - Math.min(...others));
}

export const pairKey = (a: string, b: string): string => (a < b ? `${a}|${b}` : `${b}|${a}`);

/** Days on which two people went together, by `pairKey`. */
export function daysTogether(input: Pick<PlanInput, 'together'>): Map<string, string[]> {
  const days = new Map<string, string[]>();
  for (const { a, b, day } of input.together) {
    const known = days.get(pairKey(a, b));
    if (known) known.push(day);
    else days.set(pairKey(a, b), [day]);
  }
  return days;
}

function tourOf(own: readonly Own[], { origin, destination, direct }: Ends, travel: Travel): Tour {
  let at = origin;
  let ready = -Infinity;
  const tour: Tour = { driving: 0, waiting: 0, leaves: 0, home: 0, writing: 0 };
  own.forEach(({ visit, start, goesFirst }, index) => {
    const drive = travel.minutes(at, visit.place);
    tour.driving += drive;
    if (index === 0) tour.leaves = start - drive;
    else tour.waiting += Math.max(0, start - ready - drive);
    if (goesFirst) tour.writing += visit.reportMinutes;
    ready = start + visit.durationMinutes;
    at = visit.place;
  });
  const back = travel.minutes(at, destination);
  return { ...tour, driving: tour.driving + back - direct, home: ready + back };
}

function addTour(parts: PlanParts, weights: PlanWeights, tour: Tour, stretch: Pick<Member, 'closes' | 'target'>): void {
  parts.travel += weights.travel * tour.driving;
  parts.wait += weights.wait * tour.waiting;
  parts.overtime += weights.overtime * Math.max(0, tour.home - stretch.closes);
  parts.fairness += fairnessCost(weights, tour.home - tour.leaves + tour.writing, stretch.target);
}

/** The stretch in which a visit lies; one that fits no stretch is costed by the whole day. */
const stretchAt = (stretches: readonly Omit<Member, 'person'>[], start: Minute): number =>
  Math.max(
    0,
    stretches.findIndex((one) => one.from <= start && start < one.until),
  );

function ownOf(input: PlanInput, plan: Plan, id: string): Own[] {
  const visits = new Map(input.visits.map((visit) => [visit.id, visit]));
  const own = plan.routes
    .filter((route) => route.first === id || route.second === id)
    .flatMap((route) => route.stops.map(({ visitId, start }) => ({ visit: visits.get(visitId)!, start, goesFirst: route.first === id })));
  return own.sort((a, b) => a.start - b.start);
}

function addPerson(input: PlanInput, plan: Plan, person: PlanPerson, travel: Travel, parts: PlanParts): number {
  const own = ownOf(input, plan, person.id);
  if (own.length === 0) return 0;
  const stretches = stretchesOfPerson(input, person, travel);
  let driving = 0;
  const anywhere = { origin: person.base, destination: person.base, direct: 0, closes: Infinity, target: 0 };
  for (const [at, stretch] of (stretches.length > 0 ? stretches : [anywhere]).entries()) {
    const inside = own.filter((one) => stretchAt(stretches, one.start) === at);
    if (inside.length === 0) continue;
    const tour = tourOf(inside, stretch, travel);
    driving += tour.driving;
    addTour(parts, input.weights, tour, stretch);
  }
  return driving;
}

function addChanges(input: PlanInput, plan: Plan, parts: PlanParts): void {
  const placed = new Map(plan.routes.flatMap((route) => route.stops.map((stop) => [stop.visitId, { route, start: stop.start }] as const)));
  for (const visit of input.visits) {
    const at = placed.get(visit.id);
    if (!at) {
      parts.leftOut += leftOutCost(input.weights, visit);
      continue;
    }
    const crew = at.route.second === null ? [at.route.first] : [at.route.first, at.route.second];
    const known = [visit.current?.first, visit.current?.second];
    const strangers = visit.announced ? crew.filter((id) => !known.includes(id)).length : 0;
    const otherParts = crew.reduce((sum, id) => sum + otherPartCost(input.weights, visit, id, id === at.route.first), 0);
    parts.change += input.weights.unannounced * strangers + otherParts + movedCost(input.weights, visit, at.start) * crew.length;
    parts.promises += promiseCost(input.weights, visit, at.start);
  }
}

/** Each crew of two counts once for each stretch in which it goes, however many routes it has. */
function addPairing(input: PlanInput, plan: Plan, travel: Travel, parts: PlanParts): void {
  const people = new Map(input.people.map((person) => [person.id, person]));
  const counted = new Set<string>();
  const together = daysTogether(input);
  for (const { first, second, stops } of plan.routes) {
    const low = people.get(second !== null && second < first ? second : first);
    if (second === null || !low) continue;
    const key = `${pairKey(first, second)}|${stretchAt(stretchesOfPerson(input, low, travel), stops[0]?.start ?? 0)}`;
    if (!counted.has(key))
      parts.pairing += rotationCost(
        input.weights,
        dayAndMinute(input.day, stops[0]?.start ?? 0).day,
        together.get(pairKey(first, second)) ?? [],
      );
    counted.add(key);
  }
}

/** Cost of a plan in minutes of one person's time, by parts; people without visits cost nothing. */
export function costOf(input: PlanInput, plan: Plan, travel: Travel): PlanCost {
  const parts: PlanParts = { travel: 0, wait: 0, overtime: 0, fairness: 0, pairing: 0, change: 0, promises: 0, leftOut: 0 };
  const drivingMinutes = input.people.reduce((sum, person) => sum + addPerson(input, plan, person, travel, parts), 0);
  addChanges(input, plan, parts);
  addPairing(input, plan, travel, parts);
  const cost = Object.values(parts).reduce((sum, part) => sum + part, 0);
  return { cost: Math.round(cost * 1e6) / 1e6, parts, drivingMinutes };
}

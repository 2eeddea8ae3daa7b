// The days of a plan as the planner is asked: visits with what they demand and what was promised, people with their fair share.
import { wallTime, offsetsOf } from '@backsight/domain/schedule/wallClock';
import { requirements, type RequirementRule, type Requirements } from '@backsight/domain/schedule/requirements';
import { latestRoofStart } from '@backsight/scheduling/searchDay';
import { addDays, daysBetween } from '@backsight/scheduling/time';
import { closedSpans, type ClosedSpan } from '@backsight/scheduling/weather';
import { PLAN_BUDGET } from '@backsight/scheduling/plan/defaults';
import type { PlanInput, PlanVisit, PlanWeights } from '@backsight/scheduling/plan/model';
import type { World } from '@backsight/scheduling/world';
import type { Reader } from '@backsight/store/database';
import type { OfficeRow } from '@backsight/store/jobs/catalog';
import { findPlanVisits, findRequirements, type PlanVisitRow } from '@backsight/store/schedule/planFacts';
import { openFrame } from './demand.ts';
import { keptApart, plannedPeople } from './planPeople.ts';
import { startOfDay, loadWorld } from './loadWorld.ts';

const GRID = 15;
const SOON = 30;

/** What is known of the days of a plan, before anything is asked. */
export type PlanFacts = {
  office: OfficeRow;
  now: Date;
  days: string[];
  world: World;
  visits: PlanVisitRow[];
  rules: Map<string, RequirementRule[]>;
};

/** Reads the days in one go, with the same people, visits and rules that a booking looks at. */
export async function loadPlanFacts(reader: Reader, q: { office: OfficeRow; days: string[]; now: Date }): Promise<PlanFacts> {
  const { office, days, now } = q;
  const [first, last] = [days[0]!, days.at(-1)!];
  const span = { from: startOfDay(first, office.zone), until: startOfDay(addDays(last, 1), office.zone) };
  const world = await loadWorld(reader, { from: first, to: last, now, officeId: office.id, zone: office.zone });
  const visits = await findPlanVisits(reader, { ...span, zone: office.zone, now, officeId: office.id });
  const rules = await findRequirements(
    reader,
    visits.map(({ rulesId }) => rulesId),
  );
  return { ...q, world, visits, rules };
}

export type PlanAsk = {
  weights: PlanWeights;
  keepPromises: boolean;
  /** Days up to this one are known to the crews and clients: changes of them cost. */
  announcedUntil: string;
};

/** The question about one day of the facts. */
export function planInputOf(facts: PlanFacts, day: string, ask: PlanAsk): PlanInput {
  const visits = facts.visits.filter((visit) => visit.day === day && isPlanned(facts, visit));
  const asked = visits.map((visit) => planVisitOf(facts, visit, ask));
  const ids = new Set(asked.map(({ id }) => id));
  return {
    day,
    people: keptApart(plannedPeople(facts.world, day, asked), visits),
    visits: asked,
    around: facts.world.busy.filter(({ id }) => !ids.has(id)),
    pairRules: facts.world.pairRules,
    kit: facts.world.kit,
    together: togetherBefore(facts, day),
    weights: ask.weights,
    grid: GRID,
    keepPromises: ask.keepPromises,
    budget: PLAN_BUDGET,
    seed: 1,
  };
}

/** What the rules of the job demand of this visit; only the inspection itself demands anything. */
export function demandsOf({ rules }: Pick<PlanFacts, 'rules'>, visit: PlanVisitRow): Omit<Requirements, 'reasons'> {
  if (visit.kind !== 'inspection') return { needEach: [], needAny: [], kit: [] };
  return requirements(rules.get(visit.rulesId) ?? [], {
    facts: visit.facts,
    services: visit.services,
    day: visit.day,
    serviceNames: {},
  });
}

/** What a visit is called among the moves of a plan. */
export const labelOf = ({ address, town }: Pick<PlanVisitRow, 'address' | 'town'>): string => `${address}, ${town}`;

/** What a visit asks for on any day. */
function asksOf(facts: PlanFacts, visit: PlanVisitRow) {
  const { needEach, needAny, roofWork } = demandsOf(facts, visit);
  const closed = closedSpans(facts.world, { place: visit, ...(roofWork ? { roofWork } : {}) }, visit.day);
  const asks = {
    id: visit.id,
    label: labelOf(visit),
    place: { lat: visit.lat, lon: visit.lon },
    durationMinutes: visit.minutes,
    crewSize: visit.crewSize,
    needEach,
    needAny,
    kit: visit.kit,
    involves: [visit.id, visit.propertyId, ...visit.partyIds],
    reportMinutes: visit.reportMinutes,
    observers: visit.observers,
  };
  return { asks, roofWork, closed };
}

function planVisitOf(facts: PlanFacts, visit: PlanVisitRow, ask: PlanAsk): PlanVisit {
  const { asks, roofWork, closed } = asksOf(facts, visit);
  const underWay = !['held', 'booked'].includes(visit.state);
  const shut = hits(closed, visit.start, visit.minutes);
  const open = openHours(facts, visit, roofWork);
  const { start } = visit;
  const forced = shut || crewAway(facts, visit);
  const byHand = start < open.from || start > open.until;
  const window = forced || !byHand ? open : { from: start, until: start };
  return {
    ...asks,
    window: openPart(visit.outside ? { from: start, until: start } : window, closed, visit),
    promise: shut ? null : { from: visit.promisedFrom ?? start, until: visit.promisedUntil ?? start },
    current: crewKnown(facts, visit) ? { first: visit.first, second: visit.second, start } : null,
    announced: visit.day <= ask.announcedUntil || visit.state === 'held',
    locked: !underWay && (stays(facts, visit, forced) || (!forced && (byHand || comesAlong(facts, visit)))),
    underWay,
  };
}

/** A visit that goes to another day, where nobody expects it yet. */
export function visitOn(facts: PlanFacts, visit: PlanVisitRow, day: string): PlanVisit {
  const later = daysBetween(visit.day, day) * 1440;
  const there = {
    ...visit,
    day,
    notBefore: visit.notBefore === null ? null : visit.notBefore - later,
    notAfter: visit.notAfter === null ? null : visit.notAfter - later,
  };
  const { asks, roofWork, closed } = asksOf(facts, there);
  const window = openPart(openHours(facts, there, roofWork), closed, there);
  return { ...asks, window, promise: null, current: null, announced: false, locked: false, underWay: false };
}

/** Whether a booked visit cannot take place as it is because of the weather. */
export const isClosed = (facts: PlanFacts, visit: PlanVisitRow): boolean =>
  visit.state === 'booked' &&
  Date.parse(visit.startsAt) > facts.now.getTime() &&
  hits(asksOf(facts, visit).closed, visit.start, visit.minutes);

/** Whether everybody of the crew is with the firm. */
const crewKnown = ({ world }: PlanFacts, { first, second }: PlanVisitRow): boolean =>
  [first, second].every((id) => id === null || world.people.some((person) => person.id === id));

/** Whether somebody of the crew is absent at the time of the visit. */
const crewAway = ({ world }: PlanFacts, { day, start, minutes, first, second }: PlanVisitRow): boolean =>
  world.people.some(
    ({ id, off }) =>
      (id === first || id === second) && off.some((one) => one.day === day && one.start < start + minutes && one.end > start),
  );

/** Whether somebody of the crew comes along to another visit of the day: between the two he drives as he is booked now. */
const comesAlong = ({ visits }: PlanFacts, { day, first, second }: PlanVisitRow): boolean =>
  visits.some((other) => other.day === day && other.observers.some((id) => id === first || id === second));

/** What the planner can say nothing about: a hold or a visit under way whose people are not there. */
const isPlanned = (facts: PlanFacts, visit: PlanVisitRow): boolean =>
  visit.state === 'booked' || (crewKnown(facts, visit) && (visit.state !== 'held' || !crewAway(facts, visit)));

/**
 * A hold is being spoken about on the phone, and what should have begun is not planned. What somebody wants to stay, and where
 * an observer comes along, moves only when it cannot take place as it is (`forced`).
 */
const stays = ({ now }: PlanFacts, visit: PlanVisitRow, forced: boolean): boolean =>
  visit.state === 'held' || Date.parse(visit.startsAt) <= now.getTime() || (!forced && (visit.locked || visit.observers.length > 0));

const hits = (closed: readonly ClosedSpan[], start: number, minutes: number): boolean =>
  closed.some((one) => start < one.end && start + minutes > one.start);

type Window = { from: number; until: number };

/** Office hours, daylight, what is past, and the bounds between a device and its pick-up. A start booked by hand may lie outside, and is kept. */
function openHours({ office, now }: PlanFacts, visit: PlanVisitRow, roofWork: Requirements['roofWork']): Window {
  const frame = openFrame(office);
  const soon = wallTime(new Date(now.getTime() + SOON * 60_000), office.zone);
  const light = roofWork
    ? latestRoofStart({ place: visit, roofWork, utcOffsetMinutesByDay: offsetsOf([visit.day], office.zone) }, visit.day)
    : Infinity;
  return {
    from: Math.max(frame.earliest, soon.day === visit.day ? soon.minute : 0, visit.notBefore ?? 0),
    until: Math.floor(Math.min(frame.latestEnd - visit.minutes, light, visit.notAfter ?? Infinity)),
  };
}

/** The part between closed times that holds the present start, else the longest; empty (from after until) when there is none. */
function openPart(window: Window, closed: readonly ClosedSpan[], { start, minutes }: PlanVisitRow): Window {
  let parts = [window];
  for (const one of closed)
    parts = parts.flatMap((part) => [
      { from: part.from, until: Math.min(part.until, one.start - minutes) },
      { from: Math.max(part.from, one.end), until: part.until },
    ]);
  const real = parts.filter(({ from, until }) => from <= until).sort((a, b) => b.until - b.from - (a.until - a.from));
  return real.find(({ from, until }) => from <= start && start <= until) ?? real[0] ?? { from: window.until + 1, until: window.until };
}

/** Who went together on the days before, also on those that are planned too. */
function togetherBefore({ world }: PlanFacts, day: string): PlanInput['together'] {
  const planned = world.busy.filter((busy) => busy.day < day && busy.personIds.length === 2);
  return [...(world.together ?? []), ...planned.map(({ personIds, day: on }) => ({ a: personIds[0]!, b: personIds[1]!, day: on }))];
}

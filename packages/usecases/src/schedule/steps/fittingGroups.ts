// Which groups of moves still fit the days as they are now: every rule of booking, asked once more with all moves made at once.
import type { KeptGroup, KeptMove, Spot } from '@backsight/domain/schedule/plans';
import { checkStart } from '@backsight/scheduling/checkStart';
import { sayDay, sayTime } from '@backsight/scheduling/time';
import type { Busy, World } from '@backsight/scheduling/world';
import type { PlanVisitRow } from '@backsight/store/schedule/planFacts';
import { keepApart } from './apart.ts';
import { queryOf, type Demand } from './demand.ts';
import { demandsOf, type PlanFacts } from './planInput.ts';

export type RefusedGroup = { key: string; sentences: string[] };
export type Fitting = { fitting: KeptGroup[]; refused: RefusedGroup[] };

/** What a visit demands, as a booking of it would. */
export function demandOfVisit(facts: Pick<PlanFacts, 'rules'>, visit: PlanVisitRow): Demand {
  const { needEach, needAny, roofWork } = demandsOf(facts, visit);
  return {
    kind: visit.kind,
    crewSize: visit.crewSize,
    minutes: visit.minutes,
    reportMinutes: visit.reportMinutes,
    place: { lat: visit.lat, lon: visit.lon },
    needEach,
    needAny,
    kit: visit.kit,
    ...(roofWork ? { roofWork } : {}),
    involves: [visit.propertyId, ...visit.partyIds],
    neverAlone: visit.firstPeople,
  };
}

/** Groups whose visits changed since the plan, or that break a rule now, are refused with the reasons; the others fit together. */
export function fittingGroups(facts: PlanFacts, groups: readonly KeptGroup[]): Fitting {
  const refused: RefusedGroup[] = [];
  let fitting = groups.filter((group) => {
    const sentences = group.moves.flatMap((move) => changedSince(facts, move));
    if (sentences.length > 0) refused.push({ key: group.key, sentences });
    return sentences.length === 0;
  });
  for (;;) {
    const world = worldAfter(facts, fitting);
    const broken = fitting.flatMap((group) => {
      const sentences = [...new Set(group.moves.flatMap((move) => brokenRules(facts, world, move)))];
      return sentences.length > 0 ? [{ key: group.key, sentences }] : [];
    });
    if (broken.length === 0) return { fitting, refused };
    refused.push(...broken);
    fitting = fitting.filter(({ key }) => !broken.some((one) => one.key === key));
  }
}

function changedSince({ visits }: PlanFacts, move: KeptMove): string[] {
  const visit = visits.find(({ id }) => id === move.visitId);
  if (!visit) return [`${move.label} is no longer on these days.`];
  return visit.version !== move.version || visit.state !== 'booked' ? [`${move.label} was changed since the plan was made.`] : [];
}

/** The calendar as it would be with all the moves. */
function worldAfter({ world }: PlanFacts, groups: readonly KeptGroup[]): World {
  const after = new Map(groups.flatMap(({ moves }) => moves.map(({ visitId, after: spot }) => [visitId, spot] as const)));
  const busy = world.busy.flatMap((one) => {
    const spot = after.get(one.id);
    return spot === undefined ? [one] : spot === null ? [] : [placedAt(one, spot)];
  });
  return { ...world, busy };
}

const placedAt = (one: Busy, { day, start, first, second }: Spot): Busy => ({
  ...one,
  day,
  start,
  end: start + (one.end - one.start),
  personIds: second === null ? [first] : [first, second],
});

function brokenRules(facts: PlanFacts, world: World, { visitId, after, label }: KeptMove): string[] {
  if (after === null) return [];
  const { office, now } = facts;
  const visit = { ...facts.visits.find(({ id }) => id === visitId)!, day: after.day };
  const demand = demandOfVisit(facts, visit);
  const without = keepApart({ ...world, busy: world.busy.filter(({ id }) => id !== visitId) }, demand);
  const query = queryOf(office, demand, { days: [after.day], now, limit: 1 });
  const at = `${label} on ${sayDay(after.day)} at ${sayTime(after.start)}`;
  const soon = query.notBefore!;
  return [
    ...checkStart(without, query, after).map(({ sentence }) => `${at}: ${sentence}`),
    ...(after.day < soon.day || (after.day === soon.day && after.start < soon.minute)
      ? [`${at}: this start is past or about to begin.`]
      : []),
  ];
}

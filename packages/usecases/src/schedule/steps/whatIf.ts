// What if: the visits of the same weeks of last year, or of the weeks themselves, planned again by today's people as they are and as they would be.
import type { WhatIfAnswer, WhatIfChain, WhatIfChange, WhatIfSide, WhatIfWeek } from '@backsight/domain/schedule/plans';
import { PLAN_BUDGET, PLAN_WEIGHTS } from '@backsight/scheduling/plan/defaults';
import type { PlanInput, PlanVisit } from '@backsight/scheduling/plan/model';
import { replanWeights } from '@backsight/scheduling/plan/replan';
import { minutesDriven } from '@backsight/scheduling/plan/driven';
import { addDays, daysBetween } from '@backsight/scheduling/time';
import { atSpeed, exactMinutes } from '@backsight/scheduling/travelModel';
import type { PersonInput, World } from '@backsight/scheduling/world';
import { visitOn, type PlanFacts } from './planInput.ts';
import { plannedPeople } from './planPeople.ts';
import type { PlanRun, Prepared, RunAnswer } from './planTask.ts';

/** From a day to the same weekday of the year before. */
export const LAST_YEAR = 364;
const NOON = 720;
const FOREVER = '9999-12-31';

type Town = { name: string; lat: number; lon: number };
const placeOf = (towns: readonly Town[], name: string): { lat: number; lon: number } | undefined => {
  const town = towns.find((one) => one.name === name);
  return town && { lat: town.lat, lon: town.lon };
};

/** Papers, absences and acknowledgements are today's matter, not that of a whole season. */
const always = (person: PersonInput, today: string): PersonInput => ({
  ...person,
  licensedUntil: person.licensedUntil !== null && person.licensedUntil >= today ? FOREVER : null,
  off: [],
  missingAcknowledgements: [],
  recentMinutes: 0,
});

/** The people with the change; the change of speed is one of the driving data. */
function changed(people: readonly PersonInput[], change: WhatIfChange, towns: readonly Town[]): PersonInput[] {
  if (change.kind === 'base')
    return people.map((one) => (one.id === change.personId ? { ...one, base: placeOf(towns, change.town) ?? one.base } : one));
  if (change.kind === 'speed') return [...people];
  const like = people.find(({ id }) => id === change.likeId);
  if (!like) return [...people];
  const base = change.town === null ? like.base : (placeOf(towns, change.town) ?? like.base);
  return [...people, { ...like, id: `${like.id}+`, name: `One more like ${like.name}`, base }];
}

/** Each visit in the half of the day in which it took place. */
function inItsHalf(visit: PlanVisit, start: number): PlanVisit {
  const half = start < NOON ? { from: 0, until: NOON - 1 } : { from: NOON, until: 1440 };
  return { ...visit, promise: { from: Math.max(half.from, visit.window.from), until: Math.min(half.until, visit.window.until) } };
}

function dayOf(world: World, day: string, visits: PlanVisit[], keepPromises: boolean): PlanInput {
  const weights = replanWeights(PLAN_WEIGHTS, 1);
  const rest = { pairRules: world.pairRules, kit: world.kit, together: [], weights, grid: 15, keepPromises, budget: PLAN_BUDGET, seed: 1 };
  return { day, people: plannedPeople(world, day, visits), visits, ...rest };
}

/** `facts.visits` each on its day of the weeks asked about. */
export function whatIfRuns(
  facts: PlanFacts,
  change: WhatIfChange,
  today: string,
): { runs: PlanRun[]; travels: Prepared['task']['travels'] } {
  const people = facts.world.people.map((person) => always(person, today));
  const world = { ...facts.world, people, busy: [], closures: [] };
  const other = { ...world, people: changed(people, change, facts.world.travel?.towns ?? []) };
  const sides: [WhatIfChain, World, boolean][] = [
    ['now', world, false],
    ['now_full', world, true],
    ['then', other, false],
    ['then_full', other, true],
  ];
  const runs = sides.flatMap(([chain, firm, full]) =>
    facts.days.flatMap((day) => {
      const visits = facts.visits.filter((visit) => visit.day === day);
      const asked = visits.map((visit) => ({ ...visitOn({ ...facts, world: firm }, visit, day), start: visit.start }));
      const once = asked.map(({ start, ...visit }) => inItsHalf(visit, start));
      const twice = asked.flatMap(({ start: _, ...visit }) => [visit, { ...visit, id: `${visit.id}+` }]);
      const input = dayOf(firm, day, full ? twice : once, !full);
      return visits.length === 0 ? [] : [{ chain, input, changing: 'never' as const, joining: [], movable: [], onlyJoined: false }];
    }),
  );
  if (change.kind !== 'speed') return { runs, travels: {} };
  const slow = atSpeed(facts.world.travel, change.percent);
  return { runs, travels: { then: slow, then_full: slow } };
}

const mondayOf = (day: string, from: string): string => addDays(from, Math.floor(daysBetween(from, day) / 7) * 7);

/** Minutes driven in a plan of one chain, by the driving data of that chain. */
function drivingOf({ travel, travels }: Prepared['task']) {
  const usual = exactMinutes(travel ?? undefined);
  const own = new Map(Object.entries(travels).map(([chain, data]) => [chain, exactMinutes(data)]));
  return (chain: WhatIfChain, { input }: PlanRun, { plan }: NonNullable<RunAnswer>['result']): number =>
    minutesDriven(input, plan, own.get(chain) ?? usual);
}

/** The figures of each week. `from.monday` is that of the first week asked about. */
export function whatIfAnswer(
  { task }: Pick<Prepared, 'task'>,
  answers: readonly RunAnswer[],
  from: NonNullable<Prepared['weeksFrom']>,
): WhatIfAnswer {
  const driving = drivingOf(task);
  const all = task.runs.flatMap((run, at) =>
    answers[at] ? [{ run, result: answers[at].result, week: mondayOf(run.input.day, from.monday) }] : [],
  );
  const weeks = [...new Set(all.map(({ week }) => week))].sort();
  return {
    of: from.back === 0 ? 'these_weeks' : 'last_year',
    weeks: weeks.map((week): WhatIfWeek => {
      const of = (chain: WhatIfChain) => all.filter((one) => one.week === week && one.run.chain === chain);
      const placed = (chain: WhatIfChain): number =>
        of(chain).reduce((sum, { run, result }) => sum + run.input.visits.length - result.leftOut.length, 0);
      const side = (chain: 'now' | 'then'): WhatIfSide => ({
        placed: placed(chain),
        driving: Math.round(of(chain).reduce((sum, { run, result }) => sum + driving(chain, run, result), 0)),
        fit: placed(`${chain}_full`),
        unproven: [...of(chain), ...of(`${chain}_full`)].filter(({ result }) => !result.proven).length,
      });
      const visits = of('now').reduce((sum, { run }) => sum + run.input.visits.length, 0);
      return { monday: addDays(week, -from.back), visits, now: side('now'), then: side('then') };
    }),
  };
}

// What the planner's thread gets for a plan that was asked: the facts of its days, one question per day and variant.
import { daysFrom } from '@backsight/domain/schedule/wallClock';
import type { PlanVariant, WhatIfChange } from '@backsight/domain/schedule/plans';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { addDays, daysBetween, sayDay } from '@backsight/scheduling/time';
import { PLAN_WEIGHTS } from '@backsight/scheduling/plan/defaults';
import type { PlanWeights } from '@backsight/scheduling/plan/model';
import { replanWeights } from '@backsight/scheduling/plan/replan';
import type { Reader } from '@backsight/store/database';
import { findCatalog } from '@backsight/store/jobs/catalog';
import { findPlan, type PlanRow } from '@backsight/store/schedule/plans';
import { localDay } from '../firm/steps/localDay.ts';
import { joiningOn } from './steps/joining.ts';
import { loadPlanFacts, planInputOf, type PlanFacts } from './steps/planInput.ts';
import { fingerprintOf, seenOf, type PlanRun, type Prepared } from './steps/planTask.ts';
import { LAST_YEAR, whatIfRuns } from './steps/whatIf.ts';

/** Reads the days as they are now. */
export async function preparePlan(reader: Reader, now: Date, id: string): Promise<Outcome<Prepared>> {
  const plan = await findPlan(reader, id);
  if (!plan || plan.state !== 'asked') return refuse('plan-ended');
  if (plan.kind === 'what_if') return prepareWhatIf(reader, now, plan);
  const facts = await factsOf(reader, now, plan);
  if (!facts.ok) return facts;
  const { today } = await localDay(reader, now);
  const reportDueDays = (await findCatalog(reader, now))?.firm.reportDueDays ?? 0;
  const task = {
    travel: facts.value.world.travel ?? null,
    travels: {},
    runs: runsOf(plan, facts.value, { tomorrow: addDays(today, 1), reportDueDays }),
  };
  return accept({ task, seen: seenOf(facts.value), fingerprint: fingerprintOf(facts.value), weeksFrom: null });
}

/** The days of a plan as they are now. */
export async function factsOf(reader: Reader, now: Date, plan: Pick<PlanRow, 'fromDay' | 'toDay'>): Promise<Outcome<PlanFacts>> {
  const catalog = await findCatalog(reader, now);
  if (!catalog) return refuse('not-set-up', { what: 'office' });
  const days = daysFrom(plan.fromDay, daysBetween(plan.fromDay, plan.toDay) + 1);
  return accept(await loadPlanFacts(reader, { office: catalog.office, days, now }));
}

type Variant = { key: PlanVariant; weights: PlanWeights; keepPromises: boolean };

/** How dear it is to change what people know already: each of the three plans weighs it otherwise. */
const CHANGES: readonly (readonly [PlanVariant, number])[] = [
  ['fewest_changes', 4],
  ['balanced', 1],
  ['cheapest', 0],
];

function variantsOf(plan: PlanRow): Variant[] {
  const weights = { ...PLAN_WEIGHTS, ...(plan.ask as { weights: Partial<PlanWeights> }).weights };
  if (plan.kind === 'day_plan') return [{ key: 'plan', weights, keepPromises: true }];
  return CHANGES.map(([key, times]) => ({ key, weights: replanWeights(weights, times), keepPromises: plan.kind === 'weather' }));
}

/** Each day is a question of its own; days without visits are none. */
function runsOf(plan: PlanRow, facts: PlanFacts, ask: { tomorrow: string; reportDueDays: number }): PlanRun[] {
  const announcedUntil = plan.kind === 'day_plan' ? ask.tomorrow : plan.toDay;
  return variantsOf(plan).flatMap(({ key, weights, keepPromises }) =>
    facts.days
      .map((day) => ({
        chain: key,
        input: planInputOf(facts, day, { weights, keepPromises, announcedUntil }),
        ...(plan.kind === 'weather' ? joiningOn(facts, day, ask.reportDueDays) : { joining: [], movable: [], onlyJoined: false }),
      }))
      .filter(({ input, joining }) => input.visits.length + joining.length > 0),
  );
}

const WHAT_IF_STEP_MS = 3_000;
const WHAT_IF_LIMIT_MS = 1_200_000;

/** Last year's visits of the same weeks, each put on its weekday of the weeks asked about. */
async function prepareWhatIf(reader: Reader, now: Date, plan: PlanRow): Promise<Outcome<Prepared>> {
  const here = await factsOf(reader, now, plan);
  if (!here.ok) return here;
  const before = await factsOf(reader, now, { fromDay: addDays(plan.fromDay, LAST_YEAR), toDay: addDays(plan.toDay, LAST_YEAR) });
  if (!before.ok) return before;
  const visits = before.value.visits.map((visit) => ({ ...visit, day: addDays(visit.day, -LAST_YEAR), notBefore: null, notAfter: null }));
  if (visits.length === 0)
    return refuse('what-if-no-visits', { from: sayDay(before.value.days[0]!), to: sayDay(before.value.days.at(-1)!) });
  const facts = { ...here.value, visits, rules: before.value.rules, now: new Date(0) };
  const { today } = await localDay(reader, now);
  const runs = whatIfRuns(facts, (plan.ask as { change: WhatIfChange }).change, today);
  const task = { travel: facts.world.travel ?? null, ...runs, stepMs: WHAT_IF_STEP_MS, limitMs: WHAT_IF_LIMIT_MS };
  return accept({ task, seen: {}, fingerprint: fingerprintOf(facts), weeksFrom: plan.fromDay });
}

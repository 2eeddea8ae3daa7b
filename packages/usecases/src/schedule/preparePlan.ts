// What the planner's thread gets for a plan that was asked: the facts of its days, one question per day and variant.
import { daysFrom } from '@backsight/domain/schedule/wallClock';
import type { PlanVariant, WhatIfChange, WhatIfVisits } from '@backsight/domain/schedule/plans';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { addDays, daysBetween, sayDay } from '@backsight/scheduling/time';
import { PLAN_WEIGHTS } from '@backsight/scheduling/plan/defaults';
import type { PlanWeights } from '@backsight/scheduling/plan/model';
import { replanWeights } from '@backsight/scheduling/plan/replan';
import { weekInput } from '@backsight/scheduling/plan/week';
import type { Reader } from '@backsight/store/database';
import { findCatalog } from '@backsight/store/jobs/catalog';
import { findAgreedAccess } from '@backsight/store/schedule/planFacts';
import { findPlan, type PlanRow } from '@backsight/store/schedule/plans';
import { localDay } from '../firm/steps/localDay.ts';
import { joiningOn } from './steps/joining.ts';
import { loadPlanFacts, planInputOf, type PlanFacts } from './steps/planInput.ts';
import { otherDays } from './steps/otherDays.ts';
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
  const { acrossDays } = askOf(plan);
  const agreed = acrossDays
    ? await findAgreedAccess(
        reader,
        facts.value.visits.map(({ jobId }) => jobId),
      )
    : new Set<string>();
  const ask = { tomorrow: addDays(today, 1), reportDueDays, agreed };
  const task = {
    travel: facts.value.world.travel ?? null,
    travels: {},
    runs: acrossDays ? weekRuns(plan, facts.value, ask) : runsOf(plan, facts.value, ask),
    ...(acrossDays ? { stepMs: WEEK_STEP_MS } : {}),
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

const WEEK_STEP_MS = 60_000;
type RunsAsk = { tomorrow: string; reportDueDays: number; agreed: ReadonlySet<string> };

const askOf = (plan: PlanRow) => plan.ask as { acrossDays?: boolean; changingPartners?: boolean };
const NOTHING_JOINS = { joining: [], movable: [], onlyJoined: false };

/** All days as one question, in which visits may go from one to another. */
function weekRuns(plan: PlanRow, facts: PlanFacts, ask: RunsAsk): PlanRun[] {
  return variantsOf(plan).flatMap(({ key, weights, keepPromises }) => {
    const inputs = facts.days.map((day) => planInputOf(facts, day, { weights, keepPromises, announcedUntil: ask.tomorrow }));
    const [first, ...others] = inputs;
    const visits = inputs.flatMap((input) => input.visits);
    if (!first || visits.length === 0) return [];
    const input = weekInput([first, ...others], otherDays(facts, visits, ask));
    return [{ chain: key, input, changing: changes(plan), ...NOTHING_JOINS }];
  });
}

/** Where somebody is out, a visit is kept by changing partners rather than lost; else whoever asks says whether they may. */
const changes = (plan: PlanRow): PlanRun['changing'] =>
  plan.kind === 'day_plan' ? (askOf(plan).changingPartners ? 'gladly' : 'never') : 'rather than leave out';

/** Each day is a question of its own; days without visits are none. */
function runsOf(plan: PlanRow, facts: PlanFacts, ask: RunsAsk): PlanRun[] {
  const announcedUntil = plan.kind === 'day_plan' ? ask.tomorrow : plan.toDay;
  return variantsOf(plan).flatMap(({ key, weights, keepPromises }) =>
    facts.days
      .map((day) => ({
        chain: key,
        changing: changes(plan),
        input: planInputOf(facts, day, { weights, keepPromises, announcedUntil }),
        ...(plan.kind === 'weather' ? joiningOn(facts, day, ask.reportDueDays) : NOTHING_JOINS),
      }))
      .filter(({ input, joining }) => input.visits.length + joining.length > 0),
  );
}

const WHAT_IF_STEP_MS = 3_000;
const WHAT_IF_LIMIT_MS = 1_200_000;

const YEAR_AGO = { last_year: [LAST_YEAR], these_weeks: [0], either: [LAST_YEAR, 0] };

/** The visits of the first of these spans before the weeks that has any; undefined when none has. */
async function visitsBefore(reader: Reader, now: Date, plan: PlanRow, spans: readonly number[]) {
  for (const back of spans) {
    const facts = await factsOf(reader, now, { fromDay: addDays(plan.fromDay, -back), toDay: addDays(plan.toDay, -back) });
    if (!facts.ok) return facts;
    if (facts.value.visits.length > 0) return accept({ ...facts.value, back });
  }
  return undefined;
}

/** Visits of the weeks, or of the same weeks of last year each put on its weekday. */
async function prepareWhatIf(reader: Reader, now: Date, plan: PlanRow): Promise<Outcome<Prepared>> {
  const { change, visits: which = 'either' } = plan.ask as { change: WhatIfChange; visits?: WhatIfVisits };
  const here = await factsOf(reader, now, plan);
  if (!here.ok) return here;
  const before = await visitsBefore(reader, now, plan, YEAR_AGO[which]);
  if (before && !before.ok) return before;
  if (!before) return refuse('what-if-no-visits', noVisits(plan, which));
  const { back, rules } = before.value;
  const visits = before.value.visits.map((visit) => ({ ...visit, day: addDays(visit.day, back), notBefore: null, notAfter: null }));
  const facts = { ...here.value, visits, rules, now: new Date(0) };
  const { today } = await localDay(reader, now);
  const task = {
    travel: facts.world.travel ?? null,
    ...whatIfRuns(facts, change, today),
    stepMs: WHAT_IF_STEP_MS,
    limitMs: WHAT_IF_LIMIT_MS,
  };
  return accept({ task, seen: {}, fingerprint: fingerprintOf(facts), weeksFrom: { monday: plan.fromDay, back } });
}

function noVisits({ fromDay, toDay }: PlanRow, which: WhatIfVisits) {
  const back = which === 'last_year' ? LAST_YEAR : 0;
  const also = which === 'either' ? ', nor in the same weeks of last year' : which === 'last_year' ? ' of last year' : '';
  return { from: sayDay(addDays(fromDay, -back)), to: sayDay(addDays(toDay, -back)), also };
}

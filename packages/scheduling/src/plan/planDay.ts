// The plan of a day: everything enumerated, a first plan at once, then bound, better plans and the proof.
import { checkPlan } from './checkPlan.ts';
import { planOf } from './columns.ts';
import type { Space } from './columns.ts';
import { costOf } from './cost.ts';
import { costOfColumns, currentPlan, firstPlan } from './currentPlan.ts';
import { entriesOf } from './entries.ts';
import { freezeSplitCrews } from './freeze.ts';
import { reasonsLeftOut } from './leftOut.ts';
import { Master } from './master.ts';
import type { Plan, PlanInput, PlanResult, PlanTools } from './model.ts';
import { Pricing } from './pricing.ts';
import { prove, takeNear } from './prove.ts';
import { quickPlan } from './quickPlan.ts';
import { relax } from './relax.ts';
import { enumerateRoutes, SHORTLISTS } from './routes.ts';
import type { Routes } from './routeList.ts';
import { PROOF, Search } from './search.ts';
import { NOTHING_STRICT, stricter } from './stricter.ts';
import type { Strict } from './stricter.ts';
import { tablesOf } from './tables.ts';
import type { Tables } from './tables.ts';
import { tighten } from './tighten.ts';

/** Nobody waits as long as a night lasts: what lies so far apart is on two days. */
const NIGHT = 600;

function routesOf(tables: Tables): { routes: Routes; whole: boolean } {
  const whole = { longestWait: (tables.input.span ?? 1) > 1 ? NIGHT : Infinity, longestDrive: Infinity };
  for (const [at, shortlist] of [whole, ...SHORTLISTS].entries()) {
    const last = at === SHORTLISTS.length;
    const routes = enumerateRoutes(tables, last ? Infinity : tables.input.budget.routes, shortlist);
    if (routes !== null) return { routes, whole: at === 0 };
  }
  throw new Error('the last shortlist always has routes');
}

function runSearch(found: Search, quick: Plan | null): void {
  const { space, tools } = found;
  const pricing = new Pricing(space);
  for (const plan of quick ? [quick, null] : [null]) {
    const first = firstPlan(space, pricing, plan);
    found.offer(first, costOfColumns(space, first));
  }
  if (found.shouldStop()) return;
  found.enter('bound');
  const master = new Master(space, tools.solver);
  try {
    const relaxation = relax(found, master, found.best);
    if (relaxation === null) return;
    takeNear(found, relaxation);
    tighten(found, relaxation);
    prove(found, relaxation);
  } finally {
    master.close();
  }
}

/** One search, as strict as it is asked to be. */
function searchDay(input: PlanInput, tools: PlanTools, strict: Strict): PlanResult {
  const { input: open, frozen } = freezeSplitCrews(input);
  const fixedCost = costOf({ ...input, visits: input.visits.filter((visit) => !open.visits.includes(visit)) }, frozen, tools.travel).cost;
  const tables = tablesOf(open, tools.travel, { taken: frozen.taken, strict });
  const complete = (plan: Plan) => ({ plan: { routes: [...plan.routes, ...frozen.routes] }, extra: fixedCost });
  const quick = quickPlan(tables, tools, complete);
  const { routes, whole } = routesOf(tables);
  const space: Space = { tables, routes, entries: entriesOf(tables, routes) };
  const search = new Search(space, tools, complete);
  runSearch(search, quick);
  const { plan } = complete(planOf(space, search.best));
  const { cost, parts } = costOf(input, plan, tools.travel);
  return {
    plan,
    cost,
    parts,
    ...proofOf(cost, Math.max(0, (search.bound ?? 0) + fixedCost)),
    within: whole ? 'crews that stay together' : 'shortlisted routes',
    leftOut: reasonsLeftOut(space, search.best),
    stopped: search.stopped,
    work: search.work,
  };
}

function proofOf(cost: number, lower: number): Pick<PlanResult, 'bound' | 'proven' | 'gapPercent'> {
  const bound = Math.min(cost, lower);
  const proven = cost - bound < PROOF;
  return { bound: proven ? cost : bound, proven, gapPercent: proven || cost === 0 ? 0 : (100 * (cost - bound)) / cost };
}

/** Tells the day as it is booked before anything is listed, when every visit has its place and no rule is broken. */
function tellBooked(input: PlanInput, { travel, onProgress }: PlanTools): void {
  if (!onProgress || input.visits.some(({ current }) => current === null)) return;
  const plan = currentPlan(input);
  if (checkPlan(input, plan, travel).length > 0) return;
  onProgress({ phase: 'first plan', plan, cost: costOf(input, plan, travel).cost, bound: null });
}

/**
 * The best plan of the day that keeps every rule, with a proof or the gap to it. Visits that are locked or under way keep crew
 * and start; people whose fixed visits bind them to several partners keep their day. `people`, `visits` and rules are read as
 * they are: whatever is impossible is left out of the plan with its reasons, dearly. Deterministic unless stopped. Throws
 * RangeError for more than 31 kinds of kit, or of qualifications that crews need, in one day.
 *
 * Where reports would be late or kit short because of several stretches or days of one person (see writingGate.ts, kitRoom.ts),
 * the search is made again more strictly; the bound stays that of the first search.
 */
// oxlint-disable-next-line typescript/require-await -- the answer is a promise, so that a search in steps can take its place
export async function planDay(input: PlanInput, tools: PlanTools): Promise<PlanResult> {
  tellBooked(input, tools);
  let result = searchDay(input, tools, NOTHING_STRICT);
  const lower = result.bound;
  let [strict, next] = [NOTHING_STRICT, stricter(input, result.plan, tools.travel, NOTHING_STRICT)];
  while (next !== strict) {
    const again = searchDay(input, tools, next);
    result = { ...again, ...proofOf(again.cost, lower) };
    [strict, next] = [next, stricter(input, result.plan, tools.travel, next)];
  }
  return result;
}

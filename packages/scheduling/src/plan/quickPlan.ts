// A good plan before everything is enumerated: the same search over few routes, without a proof.
import { visitsOfColumn, planOf } from './columns.ts';
import { costOfColumns, firstPlan } from './currentPlan.ts';
import { entriesOf } from './entries.ts';
import { Master } from './master.ts';
import type { Plan, PlanTools } from './model.ts';
import { Pricing } from './pricing.ts';
import { takeNear } from './prove.ts';
import { relax } from './relax.ts';
import { enumerateRoutes, SHORTLISTS } from './routes.ts';
import { Search } from './search.ts';
import type { Tables } from './tables.ts';

/** A day with fewer routes is planned at once as a whole. */
const FEW_ROUTES = 5000;

/**
 * A plan over the routes without much waiting and driving, told as progress as soon as it is there; improved where the first
 * one leaves visits out. Null when every visit has its place by now, or there are so few routes that it would not be quicker.
 */
export function quickPlan(tables: Tables, tools: PlanTools, complete: ConstructorParameters<typeof Search>[2]): Plan | null {
  if (tables.visits.every(({ current }) => current !== null)) return null;
  if (enumerateRoutes(tables, FEW_ROUTES, { longestWait: Infinity, longestDrive: Infinity }) !== null) return null;
  for (const shortlist of SHORTLISTS) {
    const routes = enumerateRoutes(tables, FEW_ROUTES, shortlist);
    if (routes === null) continue;
    const space = { tables, routes, entries: entriesOf(tables, routes) };
    const search = new Search(space, tools, complete);
    const first = firstPlan(space, new Pricing(space), null);
    search.offer(first, costOfColumns(space, first));
    if (first.flatMap((column) => visitsOfColumn(space, column)).length < tables.visits.length) improve(search);
    return planOf(space, search.best);
  }
  return null;
}

function improve(search: Search): void {
  const master = new Master(search.space, search.tools.solver);
  try {
    const relaxation = relax(search, master, search.best);
    search.bound = null; // it speaks of few routes
    if (relaxation !== null) takeNear(search, relaxation);
  } finally {
    master.close();
  }
}

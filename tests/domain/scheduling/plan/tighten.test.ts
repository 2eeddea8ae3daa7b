// The count of visits: what the relaxation learns of it, and plans that keep as many as it does.
import { beforeAll, expect, it } from 'vitest';
import { visitsOfColumn } from '@backsight/scheduling/plan/columns';
import { costOfColumns } from '@backsight/scheduling/plan/currentPlan';
import { entriesOf } from '@backsight/scheduling/plan/entries';
import { keepingDive } from '@backsight/scheduling/plan/keepingDive';
import { Master } from '@backsight/scheduling/plan/master';
import { planDay } from '@backsight/scheduling/plan/planDay';
import { Pricing } from '@backsight/scheduling/plan/pricing';
import { relax } from '@backsight/scheduling/plan/relax';
import type { Relaxation } from '@backsight/scheduling/plan/relax';
import { enumerateRoutes } from '@backsight/scheduling/plan/routes';
import { Search } from '@backsight/scheduling/plan/search';
import type { LpSolver } from '@backsight/scheduling/plan/solver';
import { tablesOf } from '@backsight/scheduling/plan/tables';
import { kept, keepCount, tighten } from '@backsight/scheduling/plan/tighten';
import { estimatedTravel } from '@backsight/scheduling/travel';
import { loadSolver } from '../../../../apps/api/src/adapters/solver/highs.ts';
import { randomDay } from './randomDay.ts';

/** Minutes: a visit left out costs about what driving to it does. */
const CHEAP_TO_LOSE = 90;

let solver: LpSolver;
beforeAll(async () => {
  solver = await loadSolver();
});

/** The relaxation of a day with more visits than fit; the caller closes its master. */
function relaxed(seed: number, lost?: number): { search: Search; relaxation: Relaxation } {
  const input = randomDay(seed, { people: 7, visits: 9, grid: 15, starts: 8 });
  const tables = tablesOf(lost === undefined ? input : { ...input, weights: { ...input.weights, leftOut: lost } }, estimatedTravel);
  const routes = enumerateRoutes(tables, Infinity, { longestWait: Infinity, longestDrive: Infinity })!;
  const space = { tables, routes, entries: entriesOf(tables, routes) };
  const search = new Search(space, { solver, travel: estimatedTravel }, (plan) => ({ plan, extra: 0 }));
  return { search, relaxation: relax(search, new Master(space, solver), [])! };
}

it('limits the count after columns were added', () => {
  let limited = 0;
  for (let seed = 1; seed <= 12; seed += 1) {
    const { search, relaxation } = relaxed(seed);
    const { master } = relaxation;
    const price = { duals: relaxation.solution.duals, cuts: [], limit: Infinity, perRoute: 3, step: 1, offset: 0 };
    const late: Parameters<Master['add']>[0][number][] = [];
    new Pricing(search.space).run({ ...price, emit: (one) => late.push(one) });
    const added = master.add(late);
    tighten(search, relaxation);
    if (added > 0 && master.count.most < search.space.tables.visits.length) limited += 1;
    master.close();
  }
  expect(limited).toBeGreaterThan(0);
});

it('finds plans that keep as many visits as were asked, and learns from them no more than is true', async () => {
  const seen = { plans: 0, counts: 0 };
  for (let seed = 20; seed <= 25; seed += 1) {
    const { search, relaxation } = relaxed(seed);
    const { master } = relaxation;
    const { tables } = search.space;
    const [before, count] = [master.solve()!.cost, master.count];
    const least = Math.ceil(kept(search.space, relaxation) - 1e-4);
    keepingDive(search, relaxation, least);
    expect(master.count).toEqual(count);
    expect(master.solve()!.cost).toBeLessThanOrEqual(before + 1e-6);
    const has = search.best.flatMap((column) => visitsOfColumn(search.space, column)).length;
    if (search.best.length > 0) {
      seen.plans += 1;
      expect(has).toBeGreaterThanOrEqual(least);
      expect(search.cost).toBeCloseTo(costOfColumns(search.space, search.best), 6);
    }
    keepCount(search, relaxation);
    if (master.count.least > 0) seen.counts += 1;
    const best = await planDay(tables.input, { solver, travel: estimatedTravel });
    expect(search.bound!).toBeLessThanOrEqual(best.cost + 0.01);
    master.close();
  }
  expect(seen.plans).toBeGreaterThan(2);
  expect(seen.counts).toBeGreaterThan(0);
});

it('learns nothing of the count where fewer visits are cheaper', async () => {
  let dear = 0;
  for (let seed = 20; seed <= 31; seed += 1) {
    const { search, relaxation } = relaxed(seed, CHEAP_TO_LOSE);
    const { tables } = search.space;
    keepingDive(search, relaxation, Math.floor(kept(search.space, relaxation)) + 1);
    const best = await planDay(tables.input, { solver, travel: estimatedTravel });
    if (search.best.length > 0 && search.cost > best.cost + 1) dear += 1;
    keepCount(search, relaxation);
    expect(search.bound ?? 0, `seed ${seed}`).toBeLessThanOrEqual(best.cost + 0.01);
    relaxation.master.close();
  }
  expect(dear).toBeGreaterThan(0);
});

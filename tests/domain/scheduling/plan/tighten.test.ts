// The count of visits that can be kept tightens the bound also when columns came to the relaxation after it was solved.
import { expect, it } from 'vitest';
import { entriesOf } from '@backsight/scheduling/plan/entries';
import { Master } from '@backsight/scheduling/plan/master';
import { relax, tighten } from '@backsight/scheduling/plan/relax';
import { Pricing } from '@backsight/scheduling/plan/pricing';
import { enumerateRoutes } from '@backsight/scheduling/plan/routes';
import { Search } from '@backsight/scheduling/plan/search';
import { tablesOf } from '@backsight/scheduling/plan/tables';
import { estimatedTravel } from '@backsight/scheduling/travel';
import { loadSolver } from '../../../../apps/api/src/planner/highs.ts';
import { randomDay } from './randomDay.ts';

it('limits the count after columns were added', async () => {
  const solver = await loadSolver();
  let limited = 0;
  for (let seed = 1; seed <= 12; seed += 1) {
    const tables = tablesOf(randomDay(seed, { people: 7, visits: 9, grid: 15, starts: 8 }), estimatedTravel);
    const routes = enumerateRoutes(tables, Infinity, { longestWait: Infinity, longestDrive: Infinity })!;
    const space = { tables, routes, entries: entriesOf(tables, routes) };
    const search = new Search(space, { solver, travel: estimatedTravel }, (plan) => ({ plan, extra: 0 }));
    const master = new Master(space, solver);
    const relaxation = relax(search, master, [])!;
    const price = { duals: relaxation.solution.duals, cuts: [], limit: Infinity, perRoute: 3, step: 1, offset: 0 };
    const late: Parameters<Master['add']>[0][number][] = [];
    new Pricing(space).run({ ...price, emit: (one) => late.push(one) });
    const added = master.add(late);
    tighten(search, relaxation);
    if (added > 0 && master.most < tables.visits.length) limited += 1;
    master.close();
  }
  expect(limited).toBeGreaterThan(0);
});

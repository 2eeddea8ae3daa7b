// The trap of the shortened list: columns cut off in the order found, instead of the dearest, make a gap that is not there.
import { beforeAll, describe, expect, it } from 'vitest';
import { cheapestColumns } from '@backsight/scheduling/plan/cheapest';
import type { Column, Space } from '@backsight/scheduling/plan/columns';
import { entriesOf } from '@backsight/scheduling/plan/entries';
import { Master, entriesOfColumn } from '@backsight/scheduling/plan/master';
import { skipOfColumn } from '@backsight/scheduling/plan/columns';
import { Pricing } from '@backsight/scheduling/plan/pricing';
import type { Priced } from '@backsight/scheduling/plan/pricing';
import { enumerateRoutes } from '@backsight/scheduling/plan/routes';
import type { LpSolver } from '@backsight/scheduling/plan/solver';
import { tablesOf } from '@backsight/scheduling/plan/tables';
import { estimatedTravel } from '@backsight/scheduling/travel';
import { loadSolver } from '../../../../apps/api/src/adapters/solver/highs.ts';
import { randomDay } from './randomDay.ts';

let solver: LpSolver;
beforeAll(async () => {
  solver = await loadSolver();
});

function spaceOf(seed: number): Space {
  const tables = tablesOf(randomDay(seed, { people: 8, visits: 8, grid: 15, starts: 8 }), estimatedTravel);
  const routes = enumerateRoutes(tables, Infinity, { longestWait: Infinity, longestDrive: Infinity })!;
  return { tables, routes, entries: entriesOf(tables, routes) };
}

const everyColumn = (space: Space, duals: Float64Array): Priced[] => {
  const all: Priced[] = [];
  new Pricing(space).run({ duals, cuts: [], limit: Infinity, perRoute: Infinity, step: 1, offset: 0, emit: (one) => all.push(one) });
  return all;
};

/** Prices of a relaxation over a few columns. */
function somePrices(space: Space): Float64Array {
  const master = new Master(space, solver);
  master.add(everyColumn(space, new Float64Array(master.layout.cuts)).filter((_, at) => at % 7 === 0));
  const { duals } = master.solve()!;
  master.close();
  return duals;
}

const reducedCost = (space: Space, layout: Master['layout'], duals: Float64Array, column: Column): number =>
  entriesOfColumn(space, layout, [], column).reduce(
    (sum, [row, value]) => sum - value * duals[row]!,
    column.cost - skipOfColumn(space, column),
  );

describe.each([11, 12, 13, 14])('a random day (%i)', (seed) => {
  it('prices every column as the master problem sees it', () => {
    const space = spaceOf(seed);
    const duals = somePrices(space);
    const { layout } = new Master(space, solver);
    const all = everyColumn(space, duals);
    expect(all.length).toBeGreaterThan(50);
    for (const one of all) expect(one.reduced).toBeCloseTo(reducedCost(space, layout, duals, one), 6);
  });

  it('lists the columns of least reduced cost, not the first ones found', () => {
    const space = spaceOf(seed);
    const duals = somePrices(space);
    const solution = { cost: 1000, values: new Float64Array(0), duals };
    const all = everyColumn(space, duals)
      .map(({ reduced }) => reduced)
      .sort((a, b) => a - b);
    const listed = cheapestColumns({ solution, cuts: [], pricing: new Pricing(space) }, 1e9, 40);
    expect(listed.columns.map((column) => (column as Priced).reduced)).toEqual(all.slice(0, 40));
    expect(listed).toMatchObject({ whole: false, below: all[39] });
    expect(cheapestColumns({ solution, cuts: [], pricing: new Pricing(space) }, all[10]! + 1e-9, 40).whole).toBe(true);
  });
});

// The bound tightened: by the count of visits that a better plan keeps, and by cuts.
import { ColumnGeneration } from './columnGeneration.ts';
import { visitsOfColumn } from './columns.ts';
import type { Column, Space } from './columns.ts';
import { Master } from './master.ts';
import { Pricing } from './pricing.ts';
import { addCuts, WHOLE } from './relax.ts';
import type { Relaxation } from './relax.ts';
import { PROOF } from './search.ts';
import type { Search } from './search.ts';

const COUNT_ROUNDS = 6;
/** Rounds of cuts once more is known of the count. */
const MORE_ROUNDS = 10;

/** The same day where only the number of visits counts. */
function counting(space: Space): Space {
  const { tables, routes, entries } = space;
  const free = (costs: Float64Array) => costs.map((cost) => (cost === Infinity ? Infinity : 0));
  return {
    tables: { ...tables, skip: new Float64Array(tables.visits.length).fill(1), rotation: new Float64Array(tables.rotation.length) },
    routes: { ...routes, skip: Float64Array.from({ length: routes.count }, (_, at) => routes.first[at + 1]! - routes.first[at]!) },
    entries: { ...entries, cost: free(entries.cost), costFirst: free(entries.costFirst), least: new Float64Array(routes.count) },
  };
}

/** Whether the count has come to a whole number, or will not come to the next one at the pace of the last round. */
function wholeOrTooSlow(): (cost: number) => boolean {
  let [last, left] = [-Infinity, COUNT_ROUNDS];
  return (cost) => {
    const pace = cost - last;
    last = cost;
    return cost - Math.floor(cost + WHOLE) < WHOLE || pace * left-- < Math.ceil(cost) - cost;
  };
}

/** The highest number of visits that a plan over the routes can keep, as far as the relaxation with cuts tells; null when stopped. */
function mostVisits(search: Search, seeds: readonly Column[], routes: Int32Array): number | null {
  const space = counting(search.space);
  const own = search.within(space);
  const master = new Master(space, search.tools.solver);
  try {
    const pricing = new Pricing(space, routes);
    const generation = new ColumnGeneration(own, master, pricing);
    generation.seed(seeds.map((column) => ({ ...column, cost: 0 })));
    const solution = generation.run();
    if (solution === null) return null;
    const relaxation: Relaxation = { master, pricing, generation, solution, cuts: [] };
    addCuts(own, generation, relaxation, COUNT_ROUNDS, wholeOrTooSlow());
    return Math.floor(space.tables.visits.length - relaxation.solution.cost + 1e-5);
  } finally {
    master.close();
  }
}

/** Visits that the solution keeps; columns that were added after it count for nothing. */
export const kept = (space: Space, { master, solution }: Relaxation): number =>
  master.columns.reduce((sum, column, at) => sum + (solution.values[at] ?? 0) * visitsOfColumn(space, column).length, 0);

/** Tightens the relaxation, keeping `search.bound` up to date. */
export function tighten(search: Search, relaxation: Relaxation): void {
  const { space } = search;
  const { master, pricing, generation, solution } = relaxation;
  search.bound ??= solution.cost;
  // a better plan has no column of a higher reduced cost than that
  pricing.narrow({ duals: solution.duals, cuts: [], limit: search.cost - solution.cost });
  const keeps = kept(space, relaxation);
  if (keeps < space.tables.visits.length - WHOLE) {
    const most = mostVisits(
      search,
      master.columns.filter((_, at) => solution.values[at]! > WHOLE),
      pricing.routes,
    );
    if (most !== null && most < keeps - WHOLE) {
      master.limitCount({ least: 0, most });
      relaxation.solution = generation.run() ?? relaxation.solution;
      search.bound = Math.max(search.bound, relaxation.solution.cost);
    }
  }
  search.enter('cuts');
  addCuts(search, generation, relaxation, space.tables.input.budget.cutRounds, (cost) => search.cost - cost < PROOF);
  search.bound = Math.max(search.bound, relaxation.solution.cost);
}

const countOf = (space: Space, columns: readonly Column[]): number =>
  columns.reduce((sum, column) => sum + visitsOfColumn(space, column).length, 0);

/**
 * Where the best plan keeps more visits than the relaxation does: whether every plan with fewer is dearer. Then a better one
 * keeps as many, which tightens the relaxation.
 */
export function keepCount(search: Search, relaxation: Relaxation): void {
  const { space } = search;
  const { master, generation } = relaxation;
  const least = countOf(space, search.best);
  if (least < kept(space, relaxation) + 1e-4 || search.proven()) return;
  const { most } = master.count;
  master.limitCount({ least: 0, most: least - 1 });
  const fewer = generation.run();
  const dearer = fewer !== null && fewer.cost > search.cost - PROOF;
  master.limitCount({ least: dearer ? least : 0, most });
  relaxation.solution = generation.run() ?? relaxation.solution;
  addCuts(search, generation, relaxation, MORE_ROUNDS, (cost) => search.cost - cost < PROOF);
  search.bound = Math.max(search.bound ?? 0, relaxation.solution.cost);
}

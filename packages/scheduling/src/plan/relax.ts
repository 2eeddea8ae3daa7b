// The bound: the relaxed master problem at its optimum, tightened by the count of visits that can be kept and by cuts.
import type { Column, Space } from './columns.ts';
import type { Cut } from './cutRows.ts';
import { ColumnGeneration } from './columnGeneration.ts';
import { visitsOfColumn } from './columns.ts';
import { Master, rowsTaken } from './master.ts';
import type { MasterSolution } from './master.ts';
import { Pricing } from './pricing.ts';
import { PROOF } from './search.ts';
import type { Search } from './search.ts';
import { brokenCuts } from './separation.ts';
import type { Fraction } from './separation.ts';

/** The tightened relaxation: its prices and cuts bound every column that a better plan could use. */
export type Relaxation = {
  master: Master;
  pricing: Pricing;
  generation: ColumnGeneration;
  solution: MasterSolution;
  /** Those that the solution knows. */
  cuts: readonly Cut[];
};

const WHOLE = 1e-6;
const STALLED_ROUNDS = 8;
const COUNT_ROUNDS = 6;

export const isPart = (share: number): boolean => share > WHOLE && share < 1 - WHOLE;

export const isWhole = (solution: MasterSolution): boolean => !solution.values.some(isPart);

function fractionsOf(space: Space, { master, solution }: Relaxation): Fraction[] {
  const list: Fraction[] = [];
  master.columns.forEach((column, at) => {
    const share = solution.values[at]!;
    if (isPart(share)) list.push({ rows: rowsTaken(space, master.layout, column).sort((a, b) => a - b), share });
  });
  return list;
}

/** Adds rounds of cuts until the plan is whole, nothing is broken, `enough` says so, or rounds bring nothing more. */
function addCuts(
  search: Search,
  generation: ColumnGeneration,
  relaxation: Relaxation,
  rounds: number,
  enough: (cost: number) => boolean,
): void {
  const { master } = relaxation;
  let stalled = 0;
  for (let round = 0; round < rounds && !isWhole(relaxation.solution) && !enough(relaxation.solution.cost); round++) {
    const cuts = brokenCuts(fractionsOf(search.space, relaxation), master.layout.kit, master.cuts);
    if (cuts.length === 0) return;
    for (const cut of cuts) master.addCut(cut);
    search.work.cuts += cuts.length;
    const next = generation.run();
    if (next === null) return;
    const gained = next.cost - relaxation.solution.cost;
    relaxation.solution = next;
    relaxation.cuts = [...master.cuts];
    stalled = gained < 2e-5 * Math.abs(next.cost) ? stalled + 1 : 0;
    if (stalled >= STALLED_ROUNDS) return;
  }
}

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
const kept = (space: Space, { master, solution }: Relaxation): number =>
  master.columns.reduce((sum, column, at) => sum + (solution.values[at] ?? 0) * visitsOfColumn(space, column).length, 0);

/**
 * Solves the relaxation. Null when it was stopped before its optimum; even then `search.bound` is a valid bound. The caller
 * closes the master.
 */
export function relax(search: Search, master: Master, seeds: readonly Column[]): Relaxation | null {
  const { space } = search;
  const pricing = new Pricing(space);
  const generation = new ColumnGeneration(search, master, pricing);
  generation.seed(seeds);
  const solution = generation.run();
  if (solution === null) {
    search.bound = Math.max(0, generation.lower);
    return null;
  }
  const relaxation: Relaxation = { master, pricing, generation, solution, cuts: [] };
  search.bound = solution.cost;
  return relaxation;
}

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
      master.limitCount(most);
      relaxation.solution = generation.run() ?? relaxation.solution;
      search.bound = Math.max(search.bound, relaxation.solution.cost);
    }
  }
  search.enter('cuts');
  addCuts(search, generation, relaxation, space.tables.input.budget.cutRounds, (cost) => search.cost - cost < PROOF);
  search.bound = Math.max(search.bound, relaxation.solution.cost);
}

// The bound: the relaxed master problem at its optimum, and cuts that tighten it.
import type { Column, Space } from './columns.ts';
import type { Cut } from './cutRows.ts';
import { ColumnGeneration } from './columnGeneration.ts';
import { rowsTaken } from './master.ts';
import type { Master, MasterSolution } from './master.ts';
import { Pricing } from './pricing.ts';
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

export const WHOLE = 1e-6;
const STALLED_ROUNDS = 8;

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
export function addCuts(
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

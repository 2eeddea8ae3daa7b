// A good plan from the relaxation: take the fullest columns whole, solve again with what the new prices call for, and so on.
import type { MasterSolution } from './master.ts';
import { isPart } from './relax.ts';
import type { Relaxation } from './relax.ts';
import type { Search } from './search.ts';

/** Columns at least this full are taken together; below, only the fullest. */
const FULL = 0.75;
const PRICINGS = 2;
/** Minutes of reduced cost: only routes with a column below it are priced on the way. */
const NEAR = 1000;

/** Columns to take whole next: none when the solution is whole. */
export function fullest(solution: MasterSolution): number[] {
  let [best, share] = [-1, 0];
  const full: number[] = [];
  solution.values.forEach((value, column) => {
    if (!isPart(value)) return;
    if (value >= FULL) full.push(column);
    if (value > share + 1e-9) [best, share] = [column, value];
  });
  return full.length > 0 ? full : best < 0 ? [] : [best];
}

/** The relaxation as its columns are limited now, with what its prices call for in so many rounds. Null when stopped. */
export function solveAgain(search: Search, { master, generation }: Relaxation, pricings: number): MasterSolution | null {
  let solution = master.solve();
  for (let round = 0; round < pricings && solution !== null; round++) {
    search.work.lpRounds++;
    if (search.shouldStop()) return null;
    if (generation.step(solution.duals) === 0) break;
    solution = master.solve();
  }
  return solution;
}

/** Offers the plan that it ends at; the master is left as it was, but for more columns. */
export function dive(search: Search, relaxation: Relaxation): void {
  const { master, pricing } = relaxation;
  const widen = pricing.narrow({ duals: relaxation.solution.duals, cuts: relaxation.cuts, limit: NEAR });
  const fixed = new Set<number>();
  let solution: MasterSolution | null = relaxation.solution;
  while (solution !== null && solution.cost < search.cost) {
    const next = fullest(solution);
    if (next.length === 0) break;
    solution.values.forEach((value, column) => {
      if (value < 1 - 1e-6 || fixed.has(column)) return;
      fixed.add(column);
      master.take(column);
    });
    for (const column of next) {
      fixed.add(column);
      master.take(column);
    }
    solution = solveAgain(search, relaxation, PRICINGS);
  }
  widen();
  if (solution !== null && fullest(solution).length === 0) {
    const { values, cost } = solution;
    search.offer(
      master.columns.filter((_, at) => values[at]! > 0.5),
      cost,
    );
  }
  for (const column of fixed) master.free(column);
}

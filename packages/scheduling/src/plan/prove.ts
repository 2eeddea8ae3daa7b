// From the relaxation to a plan and its proof. Every column of a plan better than the best known has a reduced cost below the
// gap between that plan and the bound; when all of those are in one integer program, its optimum is the optimum of the day.
import { cheapestColumns } from './cheapest.ts';
import { columnKey } from './columns.ts';
import type { Column } from './columns.ts';
import { dive } from './dive.ts';
import { wholeProblem } from './master.ts';
import { keepingDive } from './keepingDive.ts';
import { isWhole } from './relax.ts';
import type { Relaxation } from './relax.ts';
import { PROOF } from './search.ts';
import type { Search } from './search.ts';
import { keepCount, kept } from './tighten.ts';

/** Columns for the first integer program, and for the first tries of the proof. */
const NEAR_COLUMNS = 1500;
const FIRST_TRIES = [4000, 10_000, 20_000];
const NEAR_GAP = 0.0005;
const NEAR_NODES = 300;
/** Visits: a smaller part of one is a matter of rounding. */
const NEARLY = 1e-4;

/** The best plan from the given columns and the best known one. Returns the bound of that smaller problem. */
function solveOver(search: Search, relaxation: Relaxation, columns: readonly Column[], nodes: number, relativeGap: number) {
  const { space, tools } = search;
  const { master } = relaxation;
  const all = [...new Map([...columns, ...search.best].map((one) => [columnKey(space, one), one])).values()];
  const problem = wholeProblem(space, relaxation.cuts, all, master.count);
  const best = new Set(search.best.map((one) => columnKey(space, one)));
  const start = Float64Array.from(all, (one) => (best.has(columnKey(space, one)) ? 1 : 0));
  const options = { maxNodes: nodes, absoluteGap: PROOF - 0.005, relativeGap, shouldStop: () => search.shouldStop() };
  const solved = tools.solver.solveMip(search.best.length > 0 ? { ...problem, start } : problem, options);
  search.work.nodes += solved.nodes;
  if (solved.values) {
    const { values } = solved;
    search.offer(
      all.filter((_, at) => values[at]! > 0.5),
      solved.objective + master.allLeftOut,
    );
  }
  return { optimal: solved.status === 'optimal', bound: solved.bound + master.allLeftOut };
}

function takeWhole(search: Search, { master, solution }: Relaxation): void {
  search.offer(
    master.columns.filter((_, at) => solution.values[at]! > 0.5),
    solution.cost,
  );
}

const raise = (search: Search, bound: number): void => {
  search.bound = Math.min(search.cost, Math.max(search.bound ?? 0, bound));
};

/** Offers the plan of the relaxation, or a whole one near it. */
export function takeNear(search: Search, relaxation: Relaxation): void {
  if (isWhole(relaxation.solution)) takeWhole(search, relaxation);
  else dive(search, relaxation);
}

/** Where more is asked than fits: a plan that keeps as many visits as may be, and what the bound learns of their count. */
function takeKeeping(search: Search, relaxation: Relaxation): void {
  const keeps = kept(search.space, relaxation);
  if (isWhole(relaxation.solution) || keeps > search.space.tables.visits.length - NEARLY) return;
  keepingDive(search, relaxation, Math.min(relaxation.master.count.most, Math.ceil(keeps - NEARLY)));
  keepCount(search, relaxation);
}

/** Improves the plan and proves it, as far as the budget goes; the outcome is in the search. */
export function prove(search: Search, relaxation: Relaxation): void {
  const { budget } = search.space.tables.input;
  takeNear(search, relaxation);
  takeKeeping(search, relaxation);
  search.enter('proof');
  const { cost } = relaxation.solution;
  for (const most of [...FIRST_TRIES, budget.columns]) {
    const gap = search.cost - cost - PROOF + 0.005;
    if (search.proven() || search.shouldStop()) return;
    if (gap <= 0) return raise(search, search.cost);
    const listed = cheapestColumns(relaxation, gap, Math.min(most, budget.columns));
    if (!listed.whole && most === FIRST_TRIES[0]) {
      const near = solveOver(search, relaxation, listed.columns.slice(0, NEAR_COLUMNS), NEAR_NODES, NEAR_GAP);
      const others = Math.min(listed.below, listed.columns[NEAR_COLUMNS]?.reduced ?? Infinity);
      raise(search, Math.min(near.bound, cost + others));
      continue;
    }
    const solved = solveOver(search, relaxation, listed.columns, budget.nodes, 0);
    const reach = cost + listed.below;
    if (solved.optimal && (listed.whole || reach >= search.cost - PROOF)) return raise(search, search.cost);
    raise(search, listed.whole ? solved.bound : Math.min(solved.bound, reach));
    if (!solved.optimal) return;
  }
}

// The master problem: which columns to take so that no visit, person or piece of kit is taken twice. Kept open in the solver.
import { columnKey, kitOfColumn, kitRow, layoutOf, membersOfColumn, skipOfColumn, visitsOfColumn } from './columns.ts';
import type { Column, Layout, Space } from './columns.ts';
import { coefficientIn } from './cutRows.ts';
import type { Cut } from './cutRows.ts';
import type { Columns, LpSession, LpSolver, MipProblem } from './solver.ts';

export type MasterSolution = {
  /** Cost of the relaxed plan, visits left out included. */
  cost: number;
  /** Share of each column. */
  values: Float64Array;
  duals: Float64Array;
};

/** Entries of a column in the rows of the master problem. */
export function entriesOfColumn(space: Space, layout: Layout, cuts: readonly Cut[], column: Column): [row: number, value: number][] {
  const taken = rowsTaken(space, layout, column);
  const list: [number, number][] = taken.map((row) => [row, 1]);
  for (let kind = 0; kind < space.tables.kinds; kind++) {
    const carried = kitOfColumn(space, column, kind);
    if (carried > 0) list.push([layout.kit + kitRow(space, column.route, kind), carried]);
  }
  list.push([layout.count, taken.length - membersOfColumn(space, column).length]);
  cuts.forEach((cut, at) => {
    const value = coefficientIn(cut, taken);
    if (value > 0) list.push([layout.cuts + at, value]);
  });
  return list;
}

/** Rows of the visits and members that a column takes. */
export const rowsTaken = (space: Space, layout: Layout, column: Column): number[] => [
  ...visitsOfColumn(space, column),
  ...membersOfColumn(space, column).map((member) => layout.members + member),
];

function packed(space: Space, layout: Layout, cuts: readonly Cut[], columns: readonly Column[], upper: number): Columns {
  const [rows, values]: [number[], number[]] = [[], []];
  const starts = new Int32Array(columns.length + 1);
  columns.forEach((column, at) => {
    for (const [row, value] of entriesOfColumn(space, layout, cuts, column)) {
      rows.push(row);
      values.push(value);
    }
    starts[at + 1] = rows.length;
  });
  return {
    cost: Float64Array.from(columns, (column) => column.cost - skipOfColumn(space, column)),
    upper: new Float64Array(columns.length).fill(upper),
    starts,
    rows: Int32Array.from(rows),
    values: Float64Array.from(values),
  };
}

/** How many visits a plan keeps that is better than the best known. */
export type Count = { least: number; most: number };

/** Limits of the rows. */
function limitsOf(space: Space, layout: Layout, cuts: readonly Cut[], count: Count): { lower: Float64Array; upper: Float64Array } {
  const upper = new Float64Array(layout.cuts + cuts.length).fill(1);
  space.tables.kitLimit.forEach((limit, kind) => (upper[layout.kit + kind] = limit));
  upper[layout.count] = count.most;
  cuts.forEach((cut, at) => (upper[layout.cuts + at] = cut.most));
  const lower = new Float64Array(upper.length).fill(-Infinity);
  lower[layout.count] = count.least;
  return { lower, upper };
}

/** The same problem with whole columns only. */
export function wholeProblem(space: Space, cuts: readonly Cut[], columns: readonly Column[], count: Count): MipProblem {
  const layout = layoutOf(space.tables);
  return { rows: limitsOf(space, layout, cuts, count), columns: packed(space, layout, cuts, columns, 1) };
}

/**
 * Before the columns there is one that stands for visits missing to the least count, so that there is a solution before the
 * columns that keep them are found. It costs so many times what leaving out the dearest visit costs.
 */
const MISSED = 10;
const AHEAD = 1;

export class Master {
  readonly layout: Layout;
  readonly columns: Column[] = [];
  readonly cuts: Cut[] = [];
  /** Cost when every visit is left out. */
  readonly allLeftOut: number;
  count: Count;
  private readonly space: Space;
  private readonly session: LpSession;
  private readonly known = new Set<number>();

  constructor(space: Space, solver: LpSolver) {
    this.space = space;
    this.layout = layoutOf(space.tables);
    this.count = { least: 0, most: space.tables.visits.length };
    this.allLeftOut = space.tables.skip.reduce((sum, skip) => sum + skip, 0);
    this.session = solver.open(limitsOf(space, this.layout, [], this.count));
    this.session.addColumns({
      cost: Float64Array.of(MISSED * Math.max(1, ...space.tables.skip)),
      upper: Float64Array.of(Infinity),
      starts: Int32Array.of(0, 1),
      rows: Int32Array.of(this.layout.count),
      values: Float64Array.of(1),
    });
  }

  /** Adds the columns that are not there yet; returns how many. */
  add(columns: readonly Column[]): number {
    const fresh = columns.filter((column) => {
      const key = columnKey(this.space, column);
      if (this.known.has(key)) return false;
      this.known.add(key);
      return true;
    });
    this.session.addColumns(packed(this.space, this.layout, this.cuts, fresh, Infinity));
    this.columns.push(...fresh);
    return fresh.length;
  }

  addCut(cut: Cut): void {
    const [at, values]: [number[], number[]] = [[], []];
    this.columns.forEach((column, position) => {
      const value = coefficientIn(cut, rowsTaken(this.space, this.layout, column));
      if (value === 0) return;
      at.push(AHEAD + position);
      values.push(value);
    });
    this.cuts.push(cut);
    this.session.addRow({ lower: -Infinity, upper: cut.most, columns: Int32Array.from(at), values: Float64Array.from(values) });
  }

  limitCount(count: Count): void {
    this.count = count;
    this.session.setRowLimits(this.layout.count, count.least, count.most);
  }

  /** Takes the column whole, leaves it out, or leaves it open again. */
  take(column: number): void {
    this.session.setColumnLimits(AHEAD + column, 1, Infinity);
  }

  leave(column: number): void {
    this.session.setColumnLimits(AHEAD + column, 0, 0);
  }

  free(column: number): void {
    this.session.setColumnLimits(AHEAD + column, 0, Infinity);
  }

  /** What each row is worth at most at these prices: a price above 0 counts the least, any other the most. */
  worthOf(duals: Float64Array): number {
    const { lower, upper } = limitsOf(this.space, this.layout, this.cuts, this.count);
    return duals.reduce((sum, dual, row) => sum + dual * (dual > 0 ? lower[row]! : upper[row]!), 0);
  }

  /** Null when the solver gave up. */
  solve(): MasterSolution | null {
    const solution = this.session.solve();
    if (solution === null) return null;
    return {
      cost: solution.objective + this.allLeftOut,
      values: solution.values.slice(AHEAD),
      duals: Float64Array.from(solution.duals, (dual, row) =>
        row === this.layout.count && this.count.least > 0 ? dual : Math.min(0, dual),
      ),
    };
  }

  close(): void {
    this.session.close();
  }
}

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

/** Limits of the rows; `most` is the highest count of visits that any plan can keep. */
function limitsOf(space: Space, layout: Layout, cuts: readonly Cut[], most: number): { lower: Float64Array; upper: Float64Array } {
  const upper = new Float64Array(layout.cuts + cuts.length).fill(1);
  space.tables.kitLimit.forEach((limit, kind) => (upper[layout.kit + kind] = limit));
  upper[layout.count] = most;
  cuts.forEach((cut, at) => (upper[layout.cuts + at] = cut.most));
  return { lower: new Float64Array(upper.length).fill(-Infinity), upper };
}

/** The same problem with whole columns only. */
export function wholeProblem(space: Space, cuts: readonly Cut[], columns: readonly Column[], most: number): MipProblem {
  const layout = layoutOf(space.tables);
  return { rows: limitsOf(space, layout, cuts, most), columns: packed(space, layout, cuts, columns, 1) };
}

export class Master {
  readonly layout: Layout;
  readonly columns: Column[] = [];
  readonly cuts: Cut[] = [];
  /** Cost when every visit is left out. */
  readonly allLeftOut: number;
  /** Highest count of visits that any plan can keep, as far as known. */
  most: number;
  private readonly space: Space;
  private readonly session: LpSession;
  private readonly known = new Set<number>();

  constructor(space: Space, solver: LpSolver) {
    this.space = space;
    this.layout = layoutOf(space.tables);
    this.most = space.tables.visits.length;
    this.allLeftOut = space.tables.skip.reduce((sum, skip) => sum + skip, 0);
    this.session = solver.open(limitsOf(space, this.layout, [], this.most));
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
      at.push(position);
      values.push(value);
    });
    this.cuts.push(cut);
    this.session.addRow({ lower: -Infinity, upper: cut.most, columns: Int32Array.from(at), values: Float64Array.from(values) });
  }

  /** At most so many visits are kept. */
  limitCount(most: number): void {
    this.most = most;
    this.session.setRowUpper(this.layout.count, most);
  }

  /** Takes the column whole, or lets it go again. */
  fix(column: number, whole: boolean): void {
    this.session.setColumnLower(column, whole ? 1 : 0);
  }

  limits(): Float64Array {
    return limitsOf(this.space, this.layout, this.cuts, this.most).upper;
  }

  /** Null when the solver gave up. */
  solve(): MasterSolution | null {
    const solution = this.session.solve();
    if (solution === null) return null;
    return {
      cost: solution.objective + this.allLeftOut,
      values: solution.values,
      duals: Float64Array.from(solution.duals, (dual) => Math.min(0, dual)),
    };
  }

  close(): void {
    this.session.close();
  }
}

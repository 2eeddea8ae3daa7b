// What the planner asks of a solver of linear programs. The solver itself is given by the caller.

/** Columns of a matrix: entries of column c are at starts[c] .. starts[c + 1]. Every column lies between 0 and `upper`. */
export type Columns = {
  cost: Float64Array;
  /** Infinity when not limited. */
  upper: Float64Array;
  starts: Int32Array;
  rows: Int32Array;
  values: Float64Array;
};

/** A row that is at most `upper` and at least `lower` (-Infinity when not limited), and its entries in the columns present. */
export type Row = { lower: number; upper: number; columns: Int32Array; values: Float64Array };

export type LpSolution = {
  objective: number;
  values: Float64Array;
  /** Change of the minimum per unit of a row's limit. */ duals: Float64Array;
};

/** A minimisation that stays open: grows by columns and rows and is solved again from where it stood. */
export interface LpSession {
  addColumns: (columns: Columns) => void;
  addRow: (row: Row) => void;
  setRowLimits: (row: number, lower: number, upper: number) => void;
  setColumnLimits: (column: number, lower: number, upper: number) => void;
  /** Null when there is no solution or the solver gave up. */
  solve: () => LpSolution | null;
  close: () => void;
}

export type MipProblem = {
  rows: { lower: Float64Array; upper: Float64Array };
  /** Every column is 0 or 1, except those named in `continuous`. */
  columns: Columns;
  continuous?: ReadonlySet<number>;
  /** Values to begin with. */
  start?: Float64Array;
};

export type MipOptions = { maxNodes: number; absoluteGap: number; relativeGap: number; shouldStop?: () => boolean };

export type MipSolution = {
  /** 'limit': the budget was spent or the caller stopped. */
  status: 'optimal' | 'limit' | 'infeasible';
  /** Null when no solution was found. */
  values: Float64Array | null;
  objective: number;
  bound: number;
  nodes: number;
};

/** Minimises; one thread and no clock of its own, so that the same question has the same answer. */
export interface LpSolver {
  open: (rows: { lower: Float64Array; upper: Float64Array }) => LpSession;
  solveMip: (problem: MipProblem, options: MipOptions) => MipSolution;
}

// The solver of the planner: HiGHS, compiled to WebAssembly, behind the engine's own shape. Blocks its thread while it runs.
import type { Columns, LpSession, LpSolution, LpSolver, MipProblem, MipOptions, MipSolution } from '@backsight/scheduling/plan/solver';
import loadHighs, { type Highs, type HighsCallbackMap, type ModelData } from 'highs';

const PRIMAL = 4;
const DUAL = 1;

const count = (columns: Columns): number => columns.cost.length;

const matrixOf = (columns: Columns, numRows: number) => ({
  format: 'csc' as const,
  numRows,
  numCols: count(columns),
  starts: columns.starts,
  indices: columns.rows,
  values: columns.values,
});

/** What the rows alone say: the whole answer while there is no column, of which HiGHS has no solution to give. */
const nothingYet = (rows: number): LpSolution => ({ objective: 0, values: new Float64Array(0), duals: new Float64Array(rows) });

function openSession(highs: Highs, rows: { lower: Float64Array; upper: Float64Array }): LpSession {
  let numRows = rows.upper.length;
  let numCols = 0;
  const empty = { format: 'csc' as const, numRows, numCols: 0, starts: [0], indices: [], values: [] };
  const model = highs.createModel({
    numCols: 0,
    numRows,
    colCost: [],
    colLower: [],
    colUpper: [],
    rowLower: rows.lower,
    rowUpper: rows.upper,
    matrix: empty,
  });
  model.options.set({ output_flag: false, presolve: 'off', simplex_strategy: DUAL });
  return {
    addColumns: (columns) => {
      if (count(columns) === 0) return;
      const lower = new Float64Array(count(columns));
      model.addCols({ cost: columns.cost, lower, upper: columns.upper, matrix: matrixOf(columns, numRows) });
      numCols += count(columns);
      model.options.set({ simplex_strategy: PRIMAL });
    },
    addRow: (row) => {
      model.addRow(row.lower, row.upper, { indices: row.columns, values: row.values });
      numRows++;
      model.options.set({ simplex_strategy: DUAL });
    },
    setRowLimits: (row, lower, upper) => {
      model.changeRowBounds(row, lower, upper);
      model.options.set({ simplex_strategy: DUAL });
    },
    setColumnLimits: (column, lower, upper) => {
      model.changeColBounds(column, lower, upper);
      model.options.set({ simplex_strategy: DUAL });
    },
    solve: () => {
      if (numCols === 0) return nothingYet(numRows);
      model.run();
      if (model.getModelStatus() !== highs.constants.modelStatus.optimal) return null;
      const { colValue, rowDual } = model.getSolution();
      return { objective: model.getObjectiveValue(), values: colValue, duals: rowDual };
    },
    close: () => model.dispose(),
  };
}

function dataOf(problem: MipProblem): ModelData {
  const { columns, rows, continuous } = problem;
  const numRows = rows.upper.length;
  return {
    numCols: count(columns),
    numRows,
    colCost: columns.cost,
    colLower: new Float64Array(count(columns)),
    colUpper: columns.upper,
    rowLower: rows.lower,
    rowUpper: rows.upper,
    matrix: matrixOf(columns, numRows),
    integrality: Int32Array.from(columns.cost, (_, at) => (continuous?.has(at) ? 0 : 1)),
  };
}

function solveMip(highs: Highs, problem: MipProblem, options: MipOptions): MipSolution {
  if (count(problem.columns) === 0) return { status: 'optimal', values: new Float64Array(0), objective: 0, bound: 0, nodes: 0 };
  const model = highs.createModel(dataOf(problem));
  try {
    model.options.set({
      output_flag: false,
      mip_max_nodes: options.maxNodes,
      mip_abs_gap: options.absoluteGap,
      mip_rel_gap: options.relativeGap,
    });
    if (problem.start) model.setSolution({ colValue: problem.start });
    const stop = options.shouldStop;
    const watch: HighsCallbackMap = {
      [highs.constants.callbackType.mipInterrupt]: (event: { interrupt: () => void }) => {
        if (stop?.()) event.interrupt();
      },
    };
    model.run(stop ? watch : undefined);
    const status = model.getModelStatus();
    const { optimal, infeasible } = highs.constants.modelStatus;
    const nodes = Math.max(0, Number(model.info.get('mip_node_count')));
    if (status === infeasible) return { status: 'infeasible', values: null, objective: Infinity, bound: Infinity, nodes };
    const found = Number(model.info.get('primal_solution_status')) === 2;
    return {
      status: status === optimal ? 'optimal' : 'limit',
      values: found ? model.getSolution().colValue : null,
      objective: found ? model.getObjectiveValue() : Infinity,
      bound: Number(model.info.get('mip_dual_bound')),
      nodes,
    };
  } finally {
    model.dispose();
  }
}

/** Loads the solver; its diagnostics are dropped, because a crash would print the whole program. One load serves many plans. */
export async function loadSolver(): Promise<LpSolver> {
  const highs = await loadHighs({ print: () => {}, printErr: () => {} });
  return { open: (rows) => openSession(highs, rows), solveMip: (problem, options) => solveMip(highs, problem, options) };
}

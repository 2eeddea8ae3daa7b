// What a person or pair would have had to expect with the firm's own rates on the houses that they inspected: indirect standardization.

/** Jobs and callbacks of one unit (person or pair) in one stratum (foundation and age of the house). */
export type Cell = { unit: string; stratum: string; jobs: number; callbacks: number };

export type Expectation = { unit: string; jobs: number; observed: number; expected: number };

/** Below so many expected callbacks nothing is said of a person or pair. */
export const LEAST_EXPECTED = 5;

/**
 * Rates of the whole firm by stratum, from cells of units that share no job (pairs). A stratum without jobs has none.
 */
export function stratumRates(cells: readonly Cell[]): Map<string, number> {
  const sums = new Map<string, { jobs: number; callbacks: number }>();
  for (const { stratum, jobs, callbacks } of cells) {
    const sum = sums.get(stratum) ?? { jobs: 0, callbacks: 0 };
    sums.set(stratum, { jobs: sum.jobs + jobs, callbacks: sum.callbacks + callbacks });
  }
  return new Map([...sums].flatMap(([stratum, { jobs, callbacks }]) => (jobs > 0 ? [[stratum, callbacks / jobs]] : [])));
}

/**
 * Expected of each unit: the sum over strata of the standard's rate times the unit's own jobs. Sums of the expected equal sums of the
 * observed where the units share no job and the standard is all of them.
 * N. E. Breslow & N. E. Day, "Statistical Methods in Cancer Research II: The Design and Analysis of Cohort Studies" (1987), chapter 2.
 */
export function expectations(cells: readonly Cell[], rates: ReadonlyMap<string, number>): Expectation[] {
  const units = new Map<string, Expectation>();
  for (const { unit, stratum, jobs, callbacks } of cells) {
    const sum = units.get(unit) ?? { unit, jobs: 0, observed: 0, expected: 0 };
    units.set(unit, {
      unit,
      jobs: sum.jobs + jobs,
      observed: sum.observed + callbacks,
      expected: sum.expected + (rates.get(stratum) ?? 0) * jobs,
    });
  }
  return [...units.values()];
}

/** Cells of pairs `a+b` told once for each of the two. */
export const byPerson = (cells: readonly Cell[]): Cell[] =>
  cells.flatMap((cell) =>
    cell.unit
      .split('+')
      .filter(Boolean)
      .map((unit) => ({ ...cell, unit })),
  );

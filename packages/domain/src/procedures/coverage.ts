// Coverage of a published standard of practice: which of its duties no step of the procedure book carries out.
import type { Procedure } from './step.ts';

/** One row of a published standard. `requirement` is our summary of it; `duty` says what the row asks for. */
export type StandardRow = {
  id: string;
  citation: string;
  section: string;
  system: string;
  duty: 'inspect' | 'observe' | 'describe' | 'operate' | 'test' | 'report' | 'scope' | 'not_required';
  /** found = read in the published text; from memory = to be re-read before anybody relies on it. */
  status: 'found' | 'from memory';
  requirement: string;
};

/** Rows that only bound the inspection ("scope") or free the inspector ("not_required") ask for nothing. */
export const isDuty = (row: StandardRow): boolean => row.duty !== 'not_required' && row.duty !== 'scope';

/** The ids of the published rows that the steps of these procedures name as their duty. */
export const claimedRows = (procedures: readonly Procedure[]): ReadonlySet<string> =>
  new Set(procedures.flatMap((procedure) => procedure.steps).flatMap((step) => (step.basis.kind === 'duty' ? step.basis.rows : [])));

/** The duties among `rows` that no step of `procedures` names, in the order given. Empty means that all are covered. */
export const uncoveredRows = (rows: readonly StandardRow[], procedures: readonly Procedure[]): StandardRow[] => {
  const claimed = claimedRows(procedures);
  return rows.filter((row) => isDuty(row) && !claimed.has(row.id));
};

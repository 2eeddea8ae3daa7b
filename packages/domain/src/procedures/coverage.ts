// Coverage of a published standard of practice: which of its duties which steps carry out, and which none does.
import type { Procedure, Step } from './step.ts';

/** One row of a published standard. `requirement` is our summary of it; `duty` says what the row asks for. */
export type StandardRow = {
  id: string;
  citation: string;
  section: string;
  system: string;
  duty: 'inspect' | 'observe' | 'describe' | 'operate' | 'test' | 'report' | 'deficient' | 'scope' | 'not_required';
  /** found = read in the published text; from memory = to be re-read before anybody relies on it. */
  status: 'found' | 'from memory';
  requirement: string;
  /** Where it was read, if not where the standard as a whole was. */
  source?: string;
};

/** A published standard: the rows collected from the rule of one state. */
export type Standard = { jurisdiction: string; state: string; name: string; source: string; rows: readonly StandardRow[] };

/** Rows that only bound the inspection ("scope") or free the inspector ("not_required") ask for nothing. */
export const isDuty = (row: StandardRow): boolean => row.duty !== 'not_required' && row.duty !== 'scope';

/** The published rows that a step carries out: as a duty of the firm, or of other states besides. */
export const rowsMet = ({ basis, alsoMeets = [] }: Step): readonly string[] =>
  basis.kind === 'duty' ? [...basis.rows, ...alsoMeets] : alsoMeets;

/** The ids of the published rows that the steps of these procedures carry out. */
export const claimedRows = (procedures: readonly Procedure[]): ReadonlySet<string> =>
  new Set(procedures.flatMap((procedure) => procedure.steps).flatMap(rowsMet));

/** The duties among `rows` that no step of `procedures` names, in the order given. Empty means that all are covered. */
export const uncoveredRows = (rows: readonly StandardRow[], procedures: readonly Procedure[]): StandardRow[] => {
  const claimed = claimedRows(procedures);
  return rows.filter((row) => isDuty(row) && !claimed.has(row.id));
};

/** A duty with the steps that carry it out. `elsewhere`: where else it is met. `covered` by either. */
export type CoveredRow = StandardRow & {
  steps: { key: string; title: string; procedure: string }[];
  elsewhere: string | null;
  covered: boolean;
};

/** Each duty of the standard, in its order. `elsewhere` names, by row, what meets a duty that is no step. */
export const coverageOf = (
  standard: Standard,
  procedures: readonly Procedure[],
  elsewhere: Readonly<Record<string, string>>,
): CoveredRow[] => {
  const byRow = new Map<string, CoveredRow['steps']>();
  for (const { title: procedure, steps } of procedures)
    for (const step of steps)
      for (const row of rowsMet(step)) byRow.set(row, [...(byRow.get(row) ?? []), { key: step.key, title: step.title, procedure }]);
  return standard.rows.filter(isDuty).map((row) => {
    const [steps, other] = [byRow.get(row.id) ?? [], elsewhere[row.id] ?? null];
    return { ...row, steps, elsewhere: other, covered: steps.length > 0 || other !== null };
  });
};

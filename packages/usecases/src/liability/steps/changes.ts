// Whether the changes that corrective actions brought to a step helped: before and after by the revision that was frozen for the visit.
import { clopperPearsonInterval } from '@backsight/statistics/proportions';
import type { StepFigure } from '@backsight/store/liability/figures';
import type { ChangeRow, TracedCallback } from '@backsight/store/liability/steps';
import { compareChange } from './compare.ts';
import { rateOf } from './words.ts';

/** Revisions are compared by their numbers within the procedure that changed; those of other procedures are before. */
export type Numbered = { id: string; procedureId: string; number: number };

export type ChangeFacts = { figures: readonly StepFigure[]; traced: readonly TracedCallback[]; revisions: readonly Numbered[]; now: Date };

const sum = <T>(rows: readonly T[], of: (row: T) => number): number => rows.reduce((total, row) => total + of(row), 0);

/** `traced` holds only what counts. */
export const countsOf = (figures: readonly StepFigure[], traced: readonly TracedCallback[]) => ({
  times: sum(figures, ({ times }) => times),
  jobs: sum(figures, ({ jobs }) => jobs),
  failures: traced.filter(({ kind }) => kind !== 'near_miss').length,
  nearMisses: traced.filter(({ kind }) => kind === 'near_miss').length,
});

export function changeResult(change: ChangeRow, { figures, traced, revisions, now }: ChangeFacts) {
  const isAfter = (revisionId: string): boolean =>
    revisions.some(
      ({ id, procedureId, number }) => id === revisionId && procedureId === change.procedureId && number >= change.revisionNumber,
    );
  const half = (after: boolean) =>
    countsOf(
      figures.filter((row) => isAfter(row.revisionId) === after),
      traced.filter((row) => isAfter(row.revisionId) === after),
    );
  const [before, after] = [half(false), half(true)];
  const first = figures.reduce((earliest, { month }) => (month < earliest ? month : earliest), now.toISOString().slice(0, 7));
  const years = (now.getTime() - Date.parse(`${first}-01T00:00:00Z`)) / (365.25 * 86_400_000);
  const own = figures.filter(({ revisionId }) => revisionId === change.revisionId);
  const [met, total] = [sum(own, (row) => row.met), sum(own, (row) => row.judged)];
  return {
    actionId: change.actionId,
    actionNumber: change.actionNumber,
    revisionId: change.revisionId,
    revisionNumber: change.revisionNumber,
    inForceFrom: change.inForceFrom.toISOString(),
    before: { ...before, rate: rateOf(before) },
    after: { ...after, rate: rateOf(after) },
    comparison: compareChange(before, after, years),
    evidence: total === 0 ? null : { met, total, ...clopperPearsonInterval({ count: met, total }) },
  };
}

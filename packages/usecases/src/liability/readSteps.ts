// Figures of the steps: times applied, failures, exact intervals, and whether a change that an action brought can be told yet.
import { clopperPearsonInterval } from '@backsight/statistics/proportions';
import { garwoodInterval } from '@backsight/statistics/rates';
import {
  changesInForce,
  evidenceMet,
  failuresByStep,
  revisionNumbers,
  stepLines,
  timesApplied,
  type AppliedRow,
  type ChangeRow,
  type FailureRow,
  type RevisionRow,
} from '@backsight/store/liability/steps';
import type { Reader } from '@backsight/store/database';
import { compareChange, type Counted } from './steps/compare.ts';

const sum = <T>(rows: readonly T[], of: (row: T) => number): number => rows.reduce((total, row) => total + of(row), 0);

/** Failures per time that the step applied, with the exact 95 % interval; null where it never applied. */
export const rateOf = ({ failures, times }: Counted) =>
  times === 0 ? null : { rate: failures / times, ...garwoodInterval({ count: failures, exposure: times }) };

/** One line per step that ever applied or failed, most failures first. */
export async function readSteps(reader: Reader, now: Date) {
  const [lines, applied, failed, revisions, changes] = [
    await stepLines(reader),
    await timesApplied(reader),
    await failuresByStep(reader),
    await revisionNumbers(reader),
    await changesInForce(reader, now),
  ];
  const steps = [];
  for (const line of lines) {
    const mine = { applied: applied.filter(({ root }) => root === line.root), failed: failed.filter(({ root }) => root === line.root) };
    const counted = countOf(mine.applied, mine.failed);
    if (counted.times === 0 && counted.failures === 0 && counted.nearMisses === 0) continue;
    const changed = [];
    for (const change of changes.filter(({ root }) => root === line.root))
      changed.push(await changeOf(reader, change, mine, revisions, now));
    steps.push({
      stepKey: line.root,
      title: line.title,
      procedureId: line.procedureId,
      procedureTitle: line.procedureTitle,
      system: line.system,
      ...counted,
      rate: rateOf(counted),
      changes: changed,
    });
  }
  return {
    steps: steps.sort(
      (a, b) => b.failures - a.failures || b.nearMisses - a.nearMisses || b.times - a.times || (a.stepKey < b.stepKey ? -1 : 1),
    ),
  };
}

const countOf = (applied: readonly AppliedRow[], failed: readonly FailureRow[]) => ({
  times: sum(applied, ({ times }) => times),
  jobs: sum(applied, ({ jobs }) => jobs),
  failures: sum(failed, ({ failures }) => failures),
  nearMisses: sum(failed, ({ nearMisses }) => nearMisses),
});

type Mine = { applied: readonly AppliedRow[]; failed: readonly FailureRow[] };

/** Before and after one revision: by the revision that was frozen for the visit, not by the calendar. */
async function changeOf(reader: Reader, change: ChangeRow, mine: Mine, revisions: readonly RevisionRow[], now: Date) {
  const isAfter = (revisionId: string): boolean =>
    revisions.some(
      ({ id, procedureId, number }) => id === revisionId && procedureId === change.procedureId && number >= change.revisionNumber,
    );
  const half = (after: boolean) =>
    countOf(
      mine.applied.filter((row) => isAfter(row.revisionId) === after),
      mine.failed.filter((row) => isAfter(row.revisionId) === after),
    );
  const [before, after] = [half(false), half(true)];
  const firstAt = mine.applied.reduce((first, row) => Math.min(first, row.firstAt.getTime()), now.getTime());
  const { met, total } = await evidenceMet(reader, change.root, change.revisionId);
  return {
    actionId: change.actionId,
    actionNumber: change.actionNumber,
    revisionId: change.revisionId,
    revisionNumber: change.revisionNumber,
    inForceFrom: change.inForceFrom.toISOString(),
    before: { ...before, rate: rateOf(before) },
    after: { ...after, rate: rateOf(after) },
    comparison: compareChange(before, after, (now.getTime() - firstAt) / (365.25 * 86_400_000)),
    evidence: total === 0 ? null : { met, total, ...clopperPearsonInterval({ count: met, total }) },
  };
}

// Revisions, steps and comparisons as the screens show them: every rule in plain English.
import type { Comparison } from '@backsight/domain/procedures/compare';
import type { Step } from '@backsight/domain/procedures/step';
import {
  appliesInWords,
  basisInWords,
  evidenceInWords,
  orderInWords,
  perInWords,
  placeInWords,
  referenceInWords,
  styleInWords,
  whoInWords,
  type StepNames,
} from '@backsight/domain/procedures/stepWords';
import type { RevisionRow } from '@backsight/store/procedures/book';

/** A step with its parts in words. */
export const stepJson = (step: Step, given: StepNames, own: readonly Step[] = []) => {
  const names: StepNames = {
    services: given.services,
    steps: { ...given.steps, ...Object.fromEntries(own.map(({ key, title }) => [key, title])) },
  };
  return {
    step,
    applies: appliesInWords(step.applies, names),
    evidence: evidenceInWords(step.evidence, names),
    per: perInWords(step.per),
    place: placeInWords(step.place),
    who: whoInWords(step),
    basis: basisInWords(step.basis),
    style: styleInWords(step.style),
    order: orderInWords(step, names),
    references: step.references.map(referenceInWords),
  };
};

export const revisionJson = (row: RevisionRow) => ({
  id: row.id,
  procedureId: row.procedureId,
  number: row.number,
  state: row.state,
  reason: row.reason,
  basedOnId: row.basedOnId,
  authorId: row.authorId,
  author: row.author,
  approver: row.approver,
  approvedAt: row.approvedAt?.toISOString() ?? null,
  inForceFrom: row.inForceFrom?.toISOString() ?? null,
  inForceUntil: row.inForceUntil?.toISOString() ?? null,
  acknowledgeBy: row.acknowledgeBy?.toISOString() ?? null,
  asks: row.asks,
  retires: row.retires,
  graceReason: row.graceReason,
  version: row.version,
  recordedAt: row.recordedAt.toISOString(),
  stepCount: row.stepCount,
});

export const comparisonJson = (
  { summary, differences }: Comparison,
  names: StepNames,
  before: readonly Step[],
  after: readonly Step[],
) => ({
  summary,
  differences: differences.map(({ before: was, after: now, ...rest }) => ({
    ...rest,
    before: was === null ? null : stepJson(was, names, before),
    after: now === null ? null : stepJson(now, names, after),
  })),
});

/** In force at an instant: approved, begun and not superseded. */
export const isInForce = (row: RevisionRow, at: Date): boolean =>
  row.state === 'approved' && row.inForceFrom !== null && row.inForceFrom <= at && (row.inForceUntil === null || row.inForceUntil > at);

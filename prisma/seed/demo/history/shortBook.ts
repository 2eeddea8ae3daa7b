// The procedures of the firm in its first years: what the published standard asks for, and little else. The whole book took their place later.
import type { Procedure, Step } from '@backsight/domain/procedures/step';
import type { ItemKind } from '@backsight/domain/shared/facts';
import type { Tx } from '@backsight/store/database';
import { findInForce, type InForceRow } from '@backsight/store/procedures';
import { approveDrafts, closePeriod, openPeriods, saveDrafts, saveStepKeys, saveSteps } from '@backsight/store/procedures/save';
import { loadBook, type LoadedProcedure } from '@backsight/usecases/procedures/steps/loadBook';
import { PROCEDURES } from '../../procedures/book.ts';

/** Answers that a line of a paper list takes: photos, notes and mere ticks came with the whole book. */
const ON_PAPER = ['choice', 'reading', 'count'];

/** The things that the paper list had a line of its own for. */
export const LISTED: readonly (ItemKind | 'property')[] = ['property', 'panel', 'heating_system', 'water_heater', 'ground_fault_device'];

/** Duties alone. */
function shortened(steps: readonly Step[]): Step[] {
  const kept = steps.filter(
    ({ basis, evidence, per }) => basis.kind === 'duty' && ON_PAPER.includes(evidence.kind) && LISTED.includes(per),
  );
  const keys = new Set(kept.map(({ key }) => key));
  return kept.map(({ sequence: _, ...step }) => ({ ...step, after: step.after.filter((key) => keys.has(key)) }));
}

export const SHORT_BOOK: readonly Procedure[] = PROCEDURES.map((procedure) => ({ ...procedure, steps: shortened(procedure.steps) })).filter(
  ({ steps }) => steps.length > 0,
);

const REASON = 'The whole book: every step of the published standard in one form, and what the firm looks at beyond it';

type Books = { authorId: string; approverId: string; newId: (at: Date) => string; at: Date };

/** The short book, in force from `at` on. */
export const loadShortBook = (tx: Tx, { newId, at, ...who }: Books): Promise<LoadedProcedure[]> =>
  loadBook(tx, { ...who, procedures: SHORT_BOOK, inForceFrom: at, at, newId: () => newId(at) });

/** The whole book from `at` on: as next revisions, and as first ones of what the short book had not. */
export async function loadWholeBook(tx: Tx, { newId, at, ...who }: Books): Promise<void> {
  const w = { ...who, inForceFrom: at, at, newId: () => newId(at) };
  const known = new Map((await findInForce(tx, at)).map((one) => [one.procedureKey, one]));
  await loadBook(tx, { ...w, procedures: PROCEDURES.filter(({ key }) => !known.has(key)) });
  for (const procedure of PROCEDURES) {
    const before = known.get(procedure.key);
    if (before) await takesPlace(tx, procedure, before, w);
  }
}

type With = { authorId: string; approverId: string; inForceFrom: Date; at: Date; newId: () => string };

async function takesPlace(tx: Tx, procedure: Procedure, before: InForceRow, w: With): Promise<void> {
  const { procedureId } = before;
  const id = w.newId();
  await saveStepKeys(
    tx,
    procedure.steps.map(({ key, derivedFrom = null }) => ({ key, procedureId, derivedFrom })),
  );
  const draft = {
    id,
    procedureId,
    number: before.number + 1,
    reason: REASON,
    basedOnId: before.revisionId,
    authorId: w.authorId,
    asks: false,
  };
  await saveDrafts(tx, [{ ...draft, recordedAt: w.at }]);
  await saveSteps(tx, [{ revisionId: id, steps: procedure.steps }]);
  await approveDrafts(tx, [id], { approverId: w.approverId, approvedAt: w.at, inForceFrom: w.inForceFrom, acknowledgeBy: w.inForceFrom });
  await closePeriod(tx, procedureId, w.inForceFrom);
  await openPeriods(tx, [{ id: w.newId(), procedureId, revisionId: id, fromAt: w.inForceFrom }]);
}

// Puts a whole procedure book into the records as first revisions: for a firm's set-up and its demo.
import type { Procedure } from '@backsight/domain/procedures/step';
import type { Tx } from '@backsight/store/database';
import { approveDrafts, openPeriods, saveDrafts, saveProcedures, saveStepKeys, saveSteps } from '@backsight/store/procedures/save';

export type BookToLoad = {
  procedures: readonly Procedure[];
  authorId: string;
  /** Somebody other than the author: constraint revision_second_person. */
  approverId: string;
  inForceFrom: Date;
  at: Date;
  newId: () => string;
};

export type LoadedProcedure = { procedureKey: string; procedureId: string; revisionId: string };

/** Saves every procedure with revision 1, approved and in force from the instant given. The steps must have passed `checkRevision`. */
export async function loadBook(tx: Tx, book: BookToLoad): Promise<LoadedProcedure[]> {
  const loaded = book.procedures.map((procedure) => ({ procedure, id: book.newId(), revisionId: book.newId() }));
  await saveProcedures(
    tx,
    loaded.map(({ procedure: { key, title, system }, id }) => ({ id, key, title, system })),
  );
  await saveStepKeys(
    tx,
    loaded.flatMap(({ procedure, id }) =>
      procedure.steps.map((step) => ({ key: step.key, procedureId: id, derivedFrom: step.derivedFrom ?? null })),
    ),
  );
  await saveDrafts(
    tx,
    loaded.map(({ id, revisionId }) => ({
      id: revisionId,
      procedureId: id,
      number: 1,
      reason: 'First revision',
      basedOnId: null,
      authorId: book.authorId,
      asks: false,
      retires: false,
      questions: [],
      recordedAt: book.at,
    })),
  );
  await saveSteps(
    tx,
    loaded.map(({ procedure, revisionId }) => ({ revisionId, steps: procedure.steps })),
  );
  const { approverId, inForceFrom } = book;
  await approveDrafts(
    tx,
    loaded.map(({ revisionId }) => revisionId),
    { approverId, approvedAt: book.at, inForceFrom, acknowledgeBy: inForceFrom },
  );
  await openPeriods(
    tx,
    loaded.map(({ id, revisionId }) => ({ id: book.newId(), procedureId: id, revisionId, fromAt: inForceFrom })),
  );
  return loaded.map(({ procedure, id, revisionId }) => ({ procedureKey: procedure.key, procedureId: id, revisionId }));
}

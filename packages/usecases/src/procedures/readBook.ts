// Reads of the book: procedures with their revisions, and what one person still has to acknowledge.
import type { Reader } from '@backsight/store/database';
import { missingAcknowledgements } from '@backsight/store/procedures';
import { listProcedures, listRevisions, revisionsOf, toAcknowledge } from '@backsight/store/procedures/book';
import { isInForce, revisionJson } from './inWords.ts';

/** Every procedure with the revision in force, those to come, and the draft if there is one. */
export async function readBook(reader: Reader, { now }: { now: Date }) {
  const [procedures, revisions, missing] = [
    await listProcedures(reader),
    await listRevisions(reader),
    await missingAcknowledgements(reader, now),
  ];
  return procedures.map((procedure) => {
    const own = revisions.filter(({ procedureId }) => procedureId === procedure.id);
    const inForce = own.find((row) => isInForce(row, now));
    const draft = own.find(({ state }) => state === 'draft');
    const toCome = own.filter(({ state, inForceFrom }) => state === 'approved' && inForceFrom !== null && inForceFrom > now);
    return {
      ...procedure,
      inForce: inForce ? revisionJson(inForce) : null,
      draft: draft ? revisionJson(draft) : null,
      toCome: toCome.map(revisionJson),
      missing: missing.filter(({ revisionId }) => revisionId === inForce?.id).length,
    };
  });
}

/** One procedure with all its revisions, newest first. */
export async function readProcedure(reader: Reader, { id, now }: { id: string; now: Date }) {
  const procedure = (await listProcedures(reader)).find((one) => one.id === id);
  if (!procedure) return null;
  const rows = await revisionsOf(reader, id);
  return { ...procedure, inForceId: rows.find((row) => isInForce(row, now))?.id ?? null, revisions: rows.map(revisionJson) };
}

/** What a person has not acknowledged: revisions in force and to come. */
export const readToAcknowledge = async (reader: Reader, { personId, now }: { personId: string; now: Date }) =>
  (await toAcknowledge(reader, personId, now)).map(({ inForceFrom, acknowledgeBy, ...rest }) => ({
    ...rest,
    inForceFrom: inForceFrom.toISOString(),
    acknowledgeBy: acknowledgeBy.toISOString(),
  }));

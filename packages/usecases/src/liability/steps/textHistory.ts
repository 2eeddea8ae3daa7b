// How the text of a step came to be: revision by revision what changed, who changed it, why, and from which callbacks.
import { compareRevisions } from '@backsight/domain/procedures/compare';
import type { Step } from '@backsight/domain/procedures/step';
import type { Reader } from '@backsight/store/database';
import { actionsOfRevisions, type LineKey } from '@backsight/store/liability/steps';
import { revisionsOf, stepsOf, type RevisionRow } from '@backsight/store/procedures/book';
import { stepNames } from '../../procedures/steps/stepNames.ts';

export type TextChange = {
  revisionId: string;
  procedureId: string;
  number: number;
  inForceFrom: Date;
  author: string;
  approver: string | null;
  reason: string;
  sentences: string[];
  /** Texts that read otherwise, word by word; each says which text of which step. */
  reworded: { field: string; title: string; marks: { mark: 'same' | 'added' | 'removed'; text: string }[] }[];
  actions: { id: string; number: number; callbacks: { id: string; number: number }[] }[];
};

export type TextHistory = {
  /** Oldest first; only revisions that were in force and changed the step. */
  changes: TextChange[];
  /** Revisions in force that left it as it was. */
  unchanged: number;
  /** Every revision that was ever in force, with its number. */
  revisions: { id: string; procedureId: string; number: number; inForceFrom: Date; holds: boolean }[];
  /** The steps of the line in the revision in force now; none when the line has ended. */
  now: { key: string; title: string; instruction: string; why: string; caution: string | null }[];
};

const wasInForce = (row: RevisionRow, now: Date): row is RevisionRow & { inForceFrom: Date } =>
  row.state === 'approved' && row.inForceFrom !== null && row.inForceFrom <= now;

/** `seeOwnerOnly`: whether callbacks for the owner alone are named. */
export async function textHistory(reader: Reader, line: readonly LineKey[], { now, seeOwnerOnly }: { now: Date; seeOwnerOnly: boolean }) {
  const names = await stepNames(reader, now);
  const keys = new Set(line.map(({ key }) => key));
  const history: TextHistory = { changes: [], unchanged: 0, revisions: [], now: [] };
  for (const procedureId of new Set(line.map((one) => one.procedureId))) {
    const rows = (await revisionsOf(reader, procedureId)).filter((row) => wasInForce(row, now)).toReversed();
    const actions = await actionsOfRevisions(
      reader,
      rows.map(({ id }) => id),
    );
    let before: Step[] = [];
    for (const row of rows) {
      const steps = await stepsOf(reader, row.id);
      const found = compareRevisions(before, steps, names).differences.filter(({ key }) => keys.has(key));
      if (found.length === 0) history.unchanged += before.some(({ key }) => keys.has(key)) ? 1 : 0;
      else
        history.changes.push({
          ...changeOf(row, found),
          actions: named(
            actions.filter((one) => one.revisionId === row.id),
            seeOwnerOnly,
          ),
        });
      history.revisions.push({
        id: row.id,
        procedureId,
        number: row.number,
        inForceFrom: row.inForceFrom,
        holds: steps.some(({ key }) => keys.has(key)),
      });
      before = steps;
    }
    history.now.push(...before.filter(({ key }) => keys.has(key)).map(textOf));
  }
  history.changes.sort((a, b) => a.inForceFrom.getTime() - b.inForceFrom.getTime());
  return history;
}

const textOf = ({ key, title, instruction, why, caution }: Step) => ({ key, title, instruction, why, caution: caution ?? null });

type Differences = ReturnType<typeof compareRevisions>['differences'];

const changeOf = (row: RevisionRow & { inForceFrom: Date }, found: Differences): Omit<TextChange, 'actions'> => ({
  revisionId: row.id,
  procedureId: row.procedureId,
  number: row.number,
  inForceFrom: row.inForceFrom,
  author: row.author,
  approver: row.approver,
  reason: row.reason,
  sentences: found.flatMap(({ title, sentences }) => sentences.map((sentence) => (found.length > 1 ? `${title}: ${sentence}` : sentence))),
  reworded: found.flatMap(({ title, reworded }) => reworded.map(({ field, marks }) => ({ field, title, marks }))),
});

const named = (actions: Awaited<ReturnType<typeof actionsOfRevisions>>, seeOwnerOnly: boolean): TextChange['actions'] =>
  actions.map(({ id, number, callbacks }) => ({
    id,
    number,
    callbacks: callbacks.filter(({ ownerOnly }) => seeOwnerOnly || !ownerOnly).map((one) => ({ id: one.id, number: one.number })),
  }));

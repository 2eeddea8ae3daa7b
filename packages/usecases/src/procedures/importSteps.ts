// A firm's own steps out of a table into a draft: looked at first, every problem by its line; then taken in as a whole or not at all.
import { readCsv } from '@backsight/documents/csvRead';
import { editSteps } from '@backsight/domain/procedures/editSteps';
import { judgeImport, readTable, type Import } from '@backsight/domain/procedures/importSteps';
import { mustBeDraft } from '@backsight/domain/procedures/revise';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { findInForce } from '@backsight/store/procedures';
import { findRevision, knownKeys, stepsOf, type RevisionRow } from '@backsight/store/procedures/book';
import { removeSteps, updateDraft } from '@backsight/store/procedures/change';
import { saveStepKeys, saveSteps } from '@backsight/store/procedures/save';
import type { Act, Work } from '../run.ts';
import { lockRevision } from './steps/facts.ts';

/** Characters; 200 steps with every text at its longest stay below it. */
const MOST_TEXT = 1_000_000;

type Looked = Import & { lines: number };

async function look(reader: Reader, row: RevisionRow, text: string, now: Date): Promise<Outcome<Looked>> {
  if (text.length > MOST_TEXT) return refuse('table-too-large', { size: `${(text.length / 1_000_000).toFixed(1)} MB` }, 'text');
  const { rows, problems: marks } = readCsv(text);
  const draft = await stepsOf(reader, row.id);
  const { read, problems } = readTable(rows, draft);
  const broken = marks.map((one) => ({ ...one, column: null, stops: true }));
  const asked = read.flatMap(({ step }) => (step.derivedFrom === undefined ? [step.key] : [step.key, step.derivedFrom]));
  const judged = judgeImport(
    {
      procedureId: row.procedureId,
      draft,
      base: row.basedOnId === null ? [] : await stepsOf(reader, row.basedOnId),
      elsewhere: (await findInForce(reader, now)).filter((one) => one.procedureId !== row.procedureId).flatMap((one) => one.steps),
      questions: row.questions,
      known: await knownKeys(reader, [...asked, ...draft.map(({ key }) => key)]),
    },
    read,
  );
  const all = [...broken, ...problems, ...judged.problems].sort((a, b) => a.line - b.line);
  return accept({ ...judged, problems: all, lines: Math.max(0, rows.length - 1) });
}

/** What taking a table in would do; changes nothing. Refusals: not-found, revision-not-a-draft, table-too-large. */
export async function checkTable(reader: Reader, { id, text, now }: { id: string; text: string; now: Date }) {
  const row = await findRevision(reader, id);
  if (!row) return refuse('not-found', { thing: 'revision' });
  const open = mustBeDraft(row);
  if (!open.ok) return open;
  const looked = await look(reader, row, text, now);
  if (!looked.ok) return looked;
  const { lines, taken, problems } = looked.value;
  return accept({ lines, problems, steps: taken.map(({ line, step, does }) => ({ line, does, key: step.key, title: step.title })) });
}

export const importSteps: Act<{ id: string; version: number; text: string }, { id: string; version: number; steps: number }> = {
  operation: 'procedures.import',
  run: takeIn,
};

async function takeIn(work: Work, { id, version, text }: { id: string; version: number; text: string }) {
  const found = await lockRevision(work.tx, id);
  if (!found) return refuse('not-found', { thing: 'revision' });
  const { row } = found;
  const open = mustBeDraft(row);
  if (!open.ok) return open;
  if (row.retires) return refuse('retirement-without-steps');
  const looked = await look(work.tx, row, text, work.now);
  if (!looked.ok) return looked;
  const { steps, taken, problems } = looked.value;
  const stopping = problems.filter(({ stops }) => stops);
  const [first] = stopping;
  if (first) return refuse('table-problems', { count: stopping.length, line: first.line, text: first.text });
  const asked = steps.flatMap(({ key, derivedFrom }) => (derivedFrom === undefined ? [key] : [key, derivedFrom]));
  const edited = editSteps({ procedureId: row.procedureId, known: await knownKeys(work.tx, asked) }, steps);
  if (!edited.ok) return edited;
  if (!(await updateDraft(work.tx, id, version, { reason: row.reason, basedOnId: row.basedOnId }))) return refuse('changed-meanwhile');
  await saveStepKeys(work.tx, edited.value);
  await removeSteps(work.tx, id);
  await saveSteps(work.tx, [{ revisionId: id, steps }]);
  await work.did('procedure-revision', id, { event: 'imported', steps: taken.length, newKeys: edited.value.map(({ key }) => key) });
  return accept({ id, version: version + 1, steps: taken.length });
}

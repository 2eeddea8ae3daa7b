// A revision on paper and as a table of its steps.
import { DateTime } from 'luxon';
import { csvText } from '@backsight/documents/csv';
import type { PdfFile } from '@backsight/documents/pdf/content';
import { pdfOf } from '@backsight/documents/pdf/write';
import { revisionBlocks } from '@backsight/documents/papers/revision';
import { appliesInWords } from '@backsight/domain/procedures/stepWords';
import { COLUMN_KEYS, COLUMNS, rowOf } from '@backsight/domain/procedures/table';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { findRevision, listProcedures, stepsOf } from '@backsight/store/procedures/book';
import { letterhead } from '../firm/steps/letterhead.ts';
import { localDay } from '../firm/steps/localDay.ts';
import { isInForce, stepJson } from './inWords.ts';
import { stepNames } from './steps/stepNames.ts';

type Ask = { id: string; now: Date };
type File = { name: string; text: string };

async function named(reader: Reader, { id }: Ask) {
  const row = await findRevision(reader, id);
  const procedure = row && (await listProcedures(reader)).find((one) => one.id === row.procedureId);
  return row && procedure ? { row, procedure, name: `${procedure.key}-revision-${row.number}` } : null;
}

/** Every step in the order of the revision; callbacks and clients are nowhere in it. */
export async function revisionPaper(reader: Reader, ask: Ask): Promise<Outcome<PdfFile>> {
  const found = await named(reader, ask);
  if (!found) return refuse('not-found', { thing: 'revision' });
  const { row, procedure, name } = found;
  const [steps, names, { zone }] = [await stepsOf(reader, row.id), await stepNames(reader, ask.now), await localDay(reader, ask.now)];
  const say = (at: Date | null): string | null =>
    at && DateTime.fromJSDate(at, { zone }).setLocale('en-US').toFormat('LLLL d, yyyy, h:mm a ZZZZ');
  const standing = isInForce(row, ask.now) ? 'in force' : row.state === 'approved' ? 'approved, not in force' : row.state;
  return accept({
    name: `${name}.pdf`,
    bytes: await pdfOf({
      ...(await letterhead(reader, ask.now, null)),
      title: `${procedure.title}, revision ${row.number}`,
      foot: `${standing} on ${say(ask.now)}`,
      blocks: revisionBlocks({
        facts: [
          ['Reason', row.reason],
          ['State', standing],
          ['Written by', row.author],
          ...(row.approver ? [['Approved by', row.approver] as const] : []),
          ...(row.inForceFrom ? [['In force from', say(row.inForceFrom)!] as const] : []),
          ...(row.inForceUntil ? [['In force until', say(row.inForceUntil)!] as const] : []),
        ],
        steps: steps.map((step) => stepJson(step, names, steps)),
      }),
    }),
  });
}

/** One row for each step, in the columns that a table is taken in with. */
export async function revisionTable(reader: Reader, ask: Ask): Promise<Outcome<File>> {
  const found = await named(reader, ask);
  if (!found) return refuse('not-found', { thing: 'revision' });
  const names = await stepNames(reader, ask.now);
  const steps = await stepsOf(reader, found.row.id);
  const heads = COLUMN_KEYS.map((column) => COLUMNS[column]);
  const rows = steps.map((step) => rowOf(step, appliesInWords(step.applies, names)));
  return accept({ name: `${found.name}.csv`, text: csvText([heads, ...rows]) });
}

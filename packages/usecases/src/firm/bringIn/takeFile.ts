// Takes a spreadsheet in: reads its heads, guesses which column is which field, and keeps the file until somebody says more.
import { guessColumns, guessDays, guessMoney, type Formats } from '@backsight/domain/firm/records/guess';
import { fieldsOf, RECORD_KINDS, type Columns, type RecordKind } from '@backsight/domain/firm/records/fields';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { insertBringIn } from '@backsight/store/firm/bringIns';
import type { Act, Work } from '../../run.ts';
import { readSheet, MOST_BYTES, type Sheet } from '../steps/bringIn/sheet.ts';
import type { ReadOf } from '../steps/bringIn/stored.ts';

/** Either the file in base64, or text that was pasted. */
export type TakeFileInput = {
  id: string;
  kind: RecordKind;
  file?: { name: string; base64: string } | undefined;
  text?: string | undefined;
};

export const takeFile: Act<TakeFileInput, { id: string; version: number }> = { operation: 'firm.bring-in-take', run: take };

const EXAMPLES = 5;
/** Cells looked at to guess how days and amounts are written. */
const LOOKED_AT = 2_000;

async function take(work: Work, { id, kind, file, text }: TakeFileInput): Promise<Outcome<{ id: string; version: number }>> {
  const bytes = file ? Buffer.from(file.base64, 'base64') : Buffer.from(text ?? '', 'utf8');
  if (bytes.length > MOST_BYTES)
    return refuse('sheet-too-large', { size: (bytes.length / 1e6).toFixed(0), most: MOST_BYTES / 1e6 }, 'file');
  const read = readSheet(bytes);
  if ('says' in read) return refuse('sheet-not-read', { says: read.says }, file ? 'file' : 'text');
  const { sheet } = read;
  const columns = guessColumns(kind, sheet.heads);
  await insertBringIn(work.tx, {
    ...{ id, kind, bytes, name: file?.name ?? `${RECORD_KINDS[kind]}, pasted`, at: work.now },
    read: readOf(sheet),
    mapping: { columns, formats: formatsOf(kind, sheet, columns) },
    askedBy: work.actor.kind === 'person' ? work.actor.id : '',
  });
  await work.did('spreadsheet', id, { kind, rows: sheet.rows.length, bytes: bytes.length });
  return accept({ id, version: 1 });
}

const readOf = ({ heads, rows, letters, parting }: Sheet): ReadOf => ({
  heads,
  examples: rows.slice(0, EXAMPLES).map(({ line, cells }) => ({ line, cells: heads.map((_, at) => (cells[at] ?? '').slice(0, 200)) })),
  rows: rows.length,
  letters,
  parting,
});

function formatsOf(kind: RecordKind, { rows }: Sheet, columns: Columns): Formats {
  const cells = (cell: 'day' | 'money'): string[] => {
    const at = fieldsOf(kind).flatMap((field) => (field.cell === cell && columns[field.key] !== undefined ? [columns[field.key]!] : []));
    return rows.slice(0, LOOKED_AT).flatMap((row) => at.map((column) => row.cells[column] ?? ''));
  };
  return { days: guessDays(cells('day')), money: guessMoney(cells('money')) };
}

// A file as rows under their heads, or the one sentence that says why it cannot be read.
import { AFTER_THE_QUOTE, NEVER_ENDS, readCsv, type CsvProblem, type CsvRow } from '@backsight/documents/csvRead';
import { partingOf, sheetText, type Letters } from '@backsight/documents/sheetText';
import { short } from '@backsight/domain/firm/records/cells';

export const MOST_BYTES = 20_000_000;
export const MOST_ROWS = 50_000;
const MOST_COLUMNS = 200;

export type Sheet = { heads: string[]; rows: CsvRow[]; problems: CsvProblem[]; letters: Letters; parting: string };

/** Heads and rows of a file. A first line "sep=;" is no row. */
export function readSheet(bytes: Uint8Array): { sheet: Sheet } | { says: string } {
  const read = sheetText(bytes);
  if ('says' in read) return read;
  const { parting, from } = partingOf(read.text);
  const { rows: all, problems } = readCsv(read.text.slice(from), parting);
  const shift = from > 0 ? 1 : 0;
  const moved = all.map((row) => ({ ...row, line: row.line + shift }));
  const [head, ...rows] = moved;
  const says = head ? wrongTable(head, rows, problems) : 'There is nothing in this file.';
  if (says !== null) return { says };
  const heads = head!.cells.map((cell) => cell.replace(/\s+/g, ' ').trim());
  while (heads.at(-1) === '') heads.pop();
  return { sheet: { heads, rows, problems: problems.map((one) => ({ ...one, line: one.line + shift })), letters: read.letters, parting } };
}

function wrongTable(head: CsvRow, rows: readonly CsvRow[], problems: readonly CsvProblem[]): string | null {
  const heads = head.cells.map((cell) => cell.trim());
  const endless = problems.find(({ text }) => text === NEVER_ENDS);
  if (endless)
    return `In line ${endless.line} a cell begins with a quotation mark and never ends, so that everything after it would be one cell. Put that line right and choose the file again.`;
  if (rows.length === 0)
    return 'There is one line only. The first line must be the heads of the columns, and each line after it one record.';
  if (heads.length > MOST_COLUMNS) return `There are more than ${MOST_COLUMNS} columns. Is this a table?`;
  if (rows.length > MOST_ROWS)
    return `There are ${rows.length.toLocaleString('en-US')} rows; at most ${MOST_ROWS.toLocaleString('en-US')} are brought in at once. Part the file, and keep the first line in each part.`;
  return twice(heads.filter(Boolean));
}

/** Two columns under one head could not be told apart. */
function twice(heads: readonly string[]): string | null {
  const low = heads.map((head) => head.replace(/\s+/g, ' ').toLowerCase());
  const again = low.findIndex((head, at) => low.indexOf(head) < at);
  return again < 0
    ? null
    : `Two columns have the head "${short(heads[again]!)}". Give one of them another head, so that they can be told apart.`;
}

/** What was marked while the cells were parted, by the line in which its row begins. */
export function markedLines({ rows, problems }: Sheet): Map<number, { text: string; stops: boolean }[]> {
  const marked = new Map<number, { text: string; stops: boolean }[]>();
  let at = 0;
  for (const { line, text } of problems) {
    while (at + 1 < rows.length && rows[at + 1]!.line <= line) at += 1;
    const row = rows[at]!.line;
    marked.set(row, [...(marked.get(row) ?? []), { text, stops: text === AFTER_THE_QUOTE }]);
  }
  return marked;
}

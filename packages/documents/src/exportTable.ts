// Tables that leave the service, as comma-separated text and as a workbook: the same columns, the unit in each head.
import writeWorkbook from 'write-excel-file/node';
import { csvText, dollarsText, type Cell } from './csv.ts';

/** What a column holds: words, numbers, cents (written as dollars), ISO days. `unit` stands behind the head in brackets. */
export type ExportColumn = { head: string; is?: 'text' | 'number' | 'cents' | 'day'; unit?: string };

/** `name` becomes the file's name; null cells stay empty. */
export type ExportTable = { name: string; title: string; columns: readonly ExportColumn[]; rows: readonly (readonly Cell[])[] };

const headOf = ({ head, is, unit = is === 'cents' ? 'dollars' : undefined }: ExportColumn): string => (unit ? `${head} (${unit})` : head);

/** As comma-separated text (RFC 4180). */
export const tableCsv = ({ columns, rows }: ExportTable): string =>
  csvText([
    columns.map(headOf),
    ...rows.map((row) =>
      columns.map(({ is }, at) => {
        const cell = row[at] ?? null;
        return is === 'cents' && typeof cell === 'number' ? { cents: cell } : cell;
      }),
    ),
  ]);

const WIDTHS = { text: 28, number: 14, cents: 14, day: 13 } as const;
/** What XML 1.0 cannot hold. */
// oxlint-disable-next-line no-control-regex -- control characters are what is taken out
const UNSAYABLE = /[\u0000-\u0008\u000b\u000c\u000e-\u001f]/g;

/** Words are always kept as words, so nothing typed by anybody is ever run as a formula. */
function workbookCell(cell: Cell, is: ExportColumn['is'] = 'text') {
  if (cell === null) return null;
  if (typeof cell === 'string')
    return is === 'day' && /^\d{4}-\d\d-\d\d$/.test(cell)
      ? { value: new Date(`${cell}T00:00:00Z`), type: Date, format: 'yyyy-mm-dd' }
      : { value: cell.replace(UNSAYABLE, ''), type: String };
  return is === 'cents' ? { value: Number(dollarsText(cell)), type: Number, format: '#,##0.00' } : { value: cell, type: Number };
}

/** As a workbook of one sheet (Office Open XML, ISO/IEC 29500), its head in sight when one scrolls. */
export async function tableXlsx({ title, columns, rows }: ExportTable): Promise<Uint8Array> {
  const head = columns.map((column) => ({ value: headOf(column), type: String, fontWeight: 'bold' as const, wrap: true }));
  const body = rows.map((row) => columns.map(({ is }, at) => workbookCell(row[at] ?? null, is)));
  // a name of a sheet has at most 31 letters and none of these signs
  const sheet = title.replace(/[[\]:*?/\\]/g, ' ').slice(0, 31);
  return new Uint8Array(
    await writeWorkbook([head, ...body], {
      sheet,
      columns: columns.map(({ is = 'text' }) => ({ width: WIDTHS[is] })),
      stickyRowsCount: 1,
    }).toBuffer(),
  );
}

// Tables as comma-separated text (RFC 4180), safe to open in a spreadsheet.

export type Cell = string | number | null;

/** Text that a spreadsheet would run as a formula gets an apostrophe before it (OWASP, "CSV Injection"); numbers stay numbers. */
const harmless = (text: string): string => (/^[=+\-@\t\r]/.test(text) ? `'${text}` : text);

function cellText(cell: Cell): string {
  if (cell === null) return '';
  const text = typeof cell === 'number' ? String(cell) : harmless(cell);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Rows as text: every line ends with CRLF, fields are quoted only where they must be. */
export const csvText = (rows: readonly (readonly Cell[])[]): string => rows.map((row) => `${row.map(cellText).join(',')}\r\n`).join('');

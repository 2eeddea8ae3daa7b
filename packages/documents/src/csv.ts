// Tables as comma-separated text (RFC 4180), safe to open in a spreadsheet.

export type Cell = string | number | null;
/** Whole cents, written as dollars with both decimals. */
export type Amount = { cents: number };

/**
 * Text that a spreadsheet would run as a formula, wide signs and what stands behind a line break among it, gets an apostrophe before it (OWASP,
 * "CSV Injection"), and so does what looks as if it had got one; numbers stay numbers.
 */
const harmless = (text: string): string => (/^'*[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]/.test(text) ? `'${text}` : text);

/** -1250 -> '-12.50'; a broken cent is rounded. */
export const dollarsText = (cents: number): string => (Math.round(cents) / 100 || 0).toFixed(2);

function cellText(cell: Cell | Amount): string {
  if (cell === null) return '';
  if (typeof cell === 'object') return dollarsText(cell.cents);
  const text = typeof cell === 'number' ? String(cell) : harmless(cell);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Rows as text: every line ends with CRLF, fields are quoted only where they must be. */
export const csvText = (rows: readonly (readonly (Cell | Amount)[])[]): string =>
  rows.map((row) => `${row.map(cellText).join(',')}\r\n`).join('');

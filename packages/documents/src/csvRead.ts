// Reads comma-separated text (RFC 4180) as people's spreadsheets write it, and says by line what is wrong with it.

export type CsvRow = { /** Line on which the row begins, from 1. */ line: number; cells: string[] };
export type CsvProblem = { line: number; text: string };

const QUOTE = '"';

/** What is said of a cell that swallows the rest of the text. */
export const NEVER_ENDS = 'A cell that begins with a quotation mark never ends.';
/** What is said of a cell of which a part is lost. */
export const AFTER_THE_QUOTE = 'After the closing quotation mark of a cell there is more than a comma, or whatever parts the cells.';
/** What is said of a cell that is kept as it stands. */
export const QUOTE_INSIDE = 'A quotation mark stands inside a cell that does not begin with one.';

/** An apostrophe that keeps a spreadsheet from running a cell as a formula is no part of the text. */
const plain = (cell: string): string => (/^'+[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]/.test(cell) ? cell.slice(1) : cell);

/**
 * Rows in order; a row whose cells are all blank is left out. Takes a byte order mark, LF, CRLF and CR as ends of lines, and quoted
 * cells over several lines. Reading goes on after a problem, so that all of them are found. `parting`: the one character between two cells.
 */
export function readCsv(text: string, parting = ','): { rows: CsvRow[]; problems: CsvProblem[] } {
  const rows: CsvRow[] = [];
  const reading: Reading = { parting, problems: [] };
  const from = text.startsWith('\uFEFF') ? 1 : 0;
  let [at, line] = [from, 1];
  while (at < text.length) {
    const row: CsvRow = { line, cells: [] };
    for (;;) {
      const cell = readCell(text, at, line, reading);
      row.cells.push(plain(cell.text));
      [at, line] = [cell.end, cell.line];
      if (text[at] !== parting) break;
      at += 1;
    }
    if (text[at] === '\r' && text[at + 1] === '\n') at += 1;
    at += 1;
    line += 1;
    if (row.cells.some((cell) => cell.trim() !== '')) rows.push(row);
  }
  return { rows, problems: reading.problems };
}

type Cell = { text: string; end: number; line: number };
type Reading = { parting: string; problems: CsvProblem[] };
const endsCell = (character: string | undefined, parting: string): boolean =>
  character === undefined || character === parting || character === '\n' || character === '\r';

function readCell(text: string, from: number, line: number, reading: Reading): Cell {
  if (text[from] === QUOTE) return readQuoted(text, from, line, reading);
  let end = from;
  while (!endsCell(text[end], reading.parting)) end += 1;
  const cell = text.slice(from, end);
  if (cell.includes(QUOTE)) reading.problems.push({ line, text: QUOTE_INSIDE });
  return { text: cell, end, line };
}

function readQuoted(text: string, from: number, startLine: number, { parting, problems }: Reading): Cell {
  const parts: string[] = [];
  let [at, line] = [from + 1, startLine];
  for (;;) {
    const close = text.indexOf(QUOTE, at);
    if (close === -1) {
      problems.push({ line: startLine, text: NEVER_ENDS });
      return { text: parts.join('') + text.slice(at), end: text.length, line: startLine };
    }
    parts.push(text.slice(at, close));
    line += linesIn(text, at, close);
    at = close + 1;
    if (text[at] !== QUOTE) break;
    parts.push(QUOTE);
    at += 1;
  }
  if (!endsCell(text[at], parting)) {
    problems.push({ line, text: AFTER_THE_QUOTE });
    while (!endsCell(text[at], parting)) at += 1;
  }
  return { text: parts.join(''), end: at, line };
}

/** Ends of lines between two places; CRLF is one. */
function linesIn(text: string, from: number, to: number): number {
  let lines = 0;
  for (let at = from; at < to; at++) if (text[at] === '\n' || (text[at] === '\r' && text[at + 1] !== '\n')) lines += 1;
  return lines;
}

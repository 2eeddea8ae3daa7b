// One row of a spreadsheet under the eyes of a person: takes its cells by our fields, and notes every problem with its column.
import type { CsvRow } from '@backsight/documents/csvRead';
import { short, type Read } from '@backsight/domain/firm/records/cells';
import { fieldsOf, type Columns, type RecordKind } from '@backsight/domain/firm/records/fields';
import type { Weight } from '@backsight/store/firm/bringIns';
import type { Formats } from '@backsight/domain/firm/records/guess';

/** `column`: its head, '' for the whole row. */
export type Problem = { line: number; column: string; value: string; text: string; weight: Weight };
export type Mapped = { kind: RecordKind; heads: readonly string[]; columns: Columns; formats: Formats };

export type Line = {
  line: number;
  /** The cell of a field as it stands; '' where there is none. */
  raw: (key: string) => string;
  /** What the cell says; null where it is empty or cannot be read, which is noted. */
  read: <T>(key: string, reader: (cell: string) => Read<T>) => T | null;
  /** The same, noted where it is empty. */
  need: <T>(key: string, reader: (cell: string) => Read<T>) => T | null;
  stop: (key: string, text: string) => void;
  known: (text: string) => void;
  look: (key: string, text: string) => void;
  /** Whether nothing stops the row so far. */
  goes: () => boolean;
};

/** Labels of the fields of a kind, for sentences. */
const labels = new Map<RecordKind, Map<string, string>>();
const labelOf = (kind: RecordKind, key: string): string => {
  let known = labels.get(kind);
  if (!known) labels.set(kind, (known = new Map(fieldsOf(kind).map((field) => [field.key, field.label]))));
  return known.get(key) ?? key;
};

/** `problems` is added to. */
export function lineOf(row: CsvRow, { kind, heads, columns }: Mapped, problems: Problem[]): Line {
  let stopped = false;
  const raw = (key: string): string => {
    const at = columns[key];
    return at === undefined ? '' : (row.cells[at] ?? '').trim();
  };
  const note = (key: string, text: string, weight: Weight): void => {
    const at = columns[key];
    problems.push({ line: row.line, column: at === undefined ? '' : (heads[at] ?? ''), value: short(raw(key)), text, weight });
    stopped ||= weight === 'stops';
  };
  const read: Line['read'] = (key, reader) => {
    const cell = raw(key);
    if (cell === '') return null;
    const answer = reader(cell);
    if (!answer.ok) note(key, answer.says, 'stops');
    else if (answer.look !== undefined) note(key, answer.look, 'look');
    return answer.ok ? answer.value : null;
  };
  const need: Line['need'] = (key, reader) => {
    if (raw(key) === '') note(key, `${labelOf(kind, key)} is missing.`, 'stops');
    return read(key, reader);
  };
  cellsThatFit(row, heads, (text, weight) => note('', text, weight));
  return {
    ...{ line: row.line, raw, read, need, goes: () => !stopped },
    stop: (key, text) => note(key, text, 'stops'),
    look: (key, text) => note(key, text, 'look'),
    known: (text) => note('', text, 'known'),
  };
}

/** A row with more cells than there are heads was parted wrongly; one with fewer may have lost some. */
function cellsThatFit({ cells }: CsvRow, heads: readonly string[], note: (text: string, weight: Weight) => void): void {
  const beyond = cells.slice(heads.length).some((cell) => cell.trim() !== '');
  if (beyond)
    note(
      `This row has ${cells.length} cells, but there are ${heads.length} heads. A cell that holds what parts the cells must stand in quotation marks.`,
      'stops',
    );
  else if (cells.length < heads.length)
    note(`This row has ${cells.length} cells, but there are ${heads.length} heads. The missing ones are read as empty.`, 'look');
}

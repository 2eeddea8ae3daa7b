// Tables that break over pages: the head comes again on every page, a row is cut only where no page could hold it.
import type { Table, Words } from './content.ts';
import { settable } from './fonts.ts';
import { besides, element, leadingOf, measureAt, nextPage, rule, setLine, within, type Element, type Sheet } from './sheet.ts';
import { runsOf, widthOf, wrap, type Face, type Line } from './wrap.ts';

const SIZE = 9.5;
const GAP = 10;
const PAD = 3;
const measure = measureAt(SIZE);
const leading = leadingOf(SIZE);

const setRuns = (words: Words, face?: Face) => runsOf(words, face).map((run) => ({ ...run, text: settable(run.text) }));
const linesOf = (words: Words, width: number, face?: Face): Line[] => wrap(setRuns(words, face), width, measure);
const natural = (words: Words, face?: Face): number => Math.max(...linesOf(words, 10_000, face).map((line) => widthOf(line, measure)));

/** Widths of the columns in points: amounts as wide as they are; the others share what is left by how long their texts are. */
export function columnWidths(table: Table, total: number): number[] {
  const { shares } = table;
  if (shares) {
    const whole = shares.reduce((sum, one) => sum + one, 0);
    return shares.map((one) => ((total - GAP * (shares.length - 1)) * one) / whole);
  }
  const amounts = table.amounts ?? [];
  const wanted = table.heads.map((head, at) => Math.max(natural(head, 'bold'), ...table.rows.map((row) => natural(row[at] ?? ''))) + 1);
  const free = total - GAP * (wanted.length - 1);
  const sum = wanted.reduce((all, one) => all + one, 0);
  const texts = wanted.map((_, at) => at).filter((at) => !amounts.includes(at));
  if (sum <= free) {
    const widest = texts.toSorted((a, b) => wanted[b]! - wanted[a]!)[0] ?? 0;
    return wanted.map((one, at) => (at === widest ? one + free - sum : one));
  }
  return shared(wanted, texts, free);
}

/** The narrow columns keep what they want; the wide ones share the rest evenly weighed by the root of their length. */
function shared(wanted: readonly number[], texts: readonly number[], free: number): number[] {
  const widths = [...wanted];
  let open = [...texts];
  let rest = free - wanted.filter((_, at) => !texts.includes(at)).reduce((all, one) => all + one, 0);
  if (rest < texts.length * 30 || open.length === 0) return wanted.map(() => free / wanted.length);
  for (;;) {
    const weight = open.reduce((all, at) => all + Math.sqrt(wanted[at]!), 0);
    const share = (at: number) => (rest * Math.sqrt(wanted[at]!)) / weight;
    const small = open.filter((at) => wanted[at]! <= share(at));
    if (small.length === 0) {
      for (const at of open) widths[at] = share(at);
      return widths;
    }
    rest -= small.reduce((all, at) => all + wanted[at]!, 0);
    open = open.filter((at) => !small.includes(at));
  }
}

type Column = { x: number; width: number; right: boolean };
type Cell = { of: Element | null; type: 'TH' | 'TD'; lines: Line[] };

/** Lines of a row from `from` on, as many as `count`. */
function setRow(sheet: Sheet, columns: readonly Column[], cells: readonly Cell[], from: number, count: number): void {
  cells.forEach(({ of, type, lines }, at) => {
    const { x, width, right } = columns[at]!;
    const draw = () =>
      lines
        .slice(from, from + count)
        .forEach((line, down) =>
          setLine(sheet, line, { x, y: sheet.y + PAD + down * leading, width }, { size: SIZE, align: right ? 'right' : 'left' }),
        );
    if (from >= lines.length) return;
    if (of) within(sheet, of, type, draw);
    else besides(sheet, draw, true);
  });
  sheet.y += Math.min(count, Math.max(...cells.map(({ lines }) => lines.length)) - from) * leading + 2 * PAD;
  rule(sheet, sheet.y, sheet.left, sheet.right, '#bbbbbb');
}

export function setTable(sheet: Sheet, parent: Element, table: Table): void {
  const of = element(sheet, parent, 'Table');
  const widths = columnWidths(table, sheet.right - sheet.left);
  const columns = widths.map((width, at) => ({
    x: sheet.left + widths.slice(0, at).reduce((sum, one) => sum + one + GAP, 0),
    width,
    right: table.amounts?.includes(at) ?? false,
  }));
  const heads = table.heads.map((head, at) => linesOf(head, widths[at]!, 'bold'));
  const headHeight = Math.max(...heads.map(({ length }) => length)) * leading + 2 * PAD;
  const again = () => {
    nextPage(sheet);
    setHead(sheet, columns, heads, null);
  };
  if (sheet.y + headHeight + leading + 2 * PAD > sheet.bottom && sheet.y > sheet.top) nextPage(sheet);
  setHead(sheet, columns, heads, element(sheet, of, 'TR'));
  const whole = Math.floor((sheet.bottom - sheet.top - headHeight - 2 * PAD) / leading);
  for (const row of table.rows) {
    const tr = element(sheet, of, 'TR');
    const cells: Cell[] = table.heads.map((_, at) => ({
      of: element(sheet, tr, 'TD'),
      type: 'TD',
      lines: linesOf(row[at] ?? '', widths[at]!),
    }));
    const needed = Math.max(...cells.map(({ lines }) => lines.length));
    for (let from = 0; from < needed;) {
      const fit = Math.floor((sheet.bottom - sheet.y - 2 * PAD) / leading);
      const left = needed - from;
      if (fit < left && (left <= whole || fit < 3)) again();
      const count = Math.min(left, Math.floor((sheet.bottom - sheet.y - 2 * PAD) / leading));
      setRow(sheet, columns, cells, from, count);
      from += count;
    }
  }
  of.end();
}

function setHead(sheet: Sheet, columns: readonly Column[], heads: readonly Line[][], row: Element | null): void {
  const cells: Cell[] = heads.map((lines) => ({ of: row && element(sheet, row, 'TH', 'Column'), type: 'TH', lines }));
  setRow(sheet, columns, cells, 0, Math.max(...heads.map(({ length }) => length)));
}

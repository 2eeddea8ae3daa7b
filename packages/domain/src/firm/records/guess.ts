// Guesses which column of a spreadsheet is which of our fields, and how its days and amounts are written. A person looks at it and says it otherwise.
import { fieldsOf, type Columns, type RecordKind } from './fields.ts';
import { readDay, readMoney, type DayOrder, type MoneyUnit } from './cells.ts';

/** How days and amounts are written in a file. */
export type Formats = { days: DayOrder; money: MoneyUnit };

/** 'E-Mail_Address (primary)' -> 'e mail address primary', as the words of a head are compared. */
export const headWords = (head: string): string =>
  head
    .replace(/([a-z])([A-Z])/g, '$1 $2')
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();

/** How well a head fits one of the words of a field: the same, the same words in it, or not at all. */
function fit(head: string, words: readonly string[], label: string): number {
  if (head === '') return 0;
  if (head === headWords(label)) return 1000;
  const same = words.indexOf(head);
  if (same >= 0) return 900 - same;
  const inside = words.filter((word) => word.length > 3 && ` ${head} `.includes(` ${word} `));
  return inside.length === 0 ? 0 : 100 + Math.max(...inside.map(({ length }) => length));
}

/** The column of each field that some head names; each column once, the best fits first. */
export function guessColumns(kind: RecordKind, heads: readonly string[]): Columns {
  const known = heads.map(headWords);
  const fits = fieldsOf(kind)
    .flatMap(({ key, label, heads: words }, order) => known.map((head, at) => ({ key, order, at, score: fit(head, words, label) })))
    .filter(({ score }) => score > 0)
    .toSorted((a, b) => b.score - a.score || a.order - b.order || a.at - b.at);
  const columns: Columns = {};
  const taken = new Set<number>();
  for (const { key, at } of fits) {
    if (columns[key] !== undefined || taken.has(at)) continue;
    columns[key] = at;
    taken.add(at);
  }
  return columns;
}

const DAY_ORDERS: readonly DayOrder[] = ['iso', 'mdy', 'dmy'];

/** The order in which most of the days can be read; month first where several read all of them, as is usual in the United States. */
export function guessDays(cells: readonly string[]): DayOrder {
  const given = cells.filter((cell) => cell.trim() !== '');
  if (given.length === 0) return 'mdy';
  const readable = DAY_ORDERS.map((order) => ({ order, n: given.filter((cell) => readDay(cell, order).ok).length }));
  if (given.every((cell) => /^\d{4}-/.test(cell.trim()))) return 'iso';
  const slashed = readable.filter(({ order }) => order !== 'iso');
  return slashed.reduce((a, b) => (b.n > a.n ? b : a)).order;
}

const LARGE = 10_000;

/** Cents only where every amount is a whole number without a dollar sign and most are far above what an inspection costs in dollars. */
export function guessMoney(cells: readonly string[]): MoneyUnit {
  const given = cells.map((cell) => cell.trim()).filter((cell) => cell !== '' && cell !== '0');
  if (given.length === 0 || given.some((cell) => !/^\d+$/.test(cell))) return 'dollars';
  const large = given.filter((cell) => {
    const read = readMoney(cell, 'cents');
    return read.ok && read.value >= LARGE;
  });
  return large.length > given.length / 2 ? 'cents' : 'dollars';
}

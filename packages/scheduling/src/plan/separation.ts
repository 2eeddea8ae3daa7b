// Cuts that the fractional plan at hand breaks. Over three rows they forbid odd circles of visits and people (subset-row
// cuts: Jepsen, Petersen, Spoorendonk, Pisinger, Operations Research 56, 2008); over five rows they are grown from near ones.
import { cutOf } from './cutRows.ts';
import type { Cut } from './cutRows.ts';

/** A column taken in part: its rows in order, and its share. */
export type Fraction = { rows: number[]; share: number };

type Found = { rows: number[]; filled: number };

const BROKEN = 1.02;
const NEAR = 0.7;
const MOST_THREES = 40;
const MOST_FIVES = 30;
const USES = 4;
const SEEDS = 600;
const TRIED = 14;

/** How much of every two and three rows is taken together. */
class Togetherness {
  readonly neighbours = new Map<number, Set<number>>();
  private readonly size: number;
  private readonly two = new Map<number, number>();
  private readonly three = new Map<number, number>();

  constructor(fractions: readonly Fraction[], size: number) {
    this.size = size;
    for (const { rows, share } of fractions) {
      rows.forEach((a, i) => {
        rows.slice(i + 1).forEach((b, j) => {
          this.link(a, b);
          this.two.set(a * size + b, (this.two.get(a * size + b) ?? 0) + share);
          for (const c of rows.slice(i + j + 2)) {
            const key = (a * size + b) * size + c;
            this.three.set(key, (this.three.get(key) ?? 0) + share);
          }
        });
      });
    }
  }

  /** Columns that take at least two of three rows in order, by their share. */
  filled(a: number, b: number, c: number): number {
    const pair = (x: number, y: number) => this.two.get(x * this.size + y) ?? 0;
    return pair(a, b) + pair(b, c) + pair(a, c) - 2 * (this.three.get((a * this.size + b) * this.size + c) ?? 0);
  }

  private link(a: number, b: number): void {
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const) {
      const known = this.neighbours.get(from);
      if (known) known.add(to);
      else this.neighbours.set(from, new Set([to]));
    }
  }
}

/** Triples of linked rows filled more than `least`, fullest first. */
function triples(together: Togetherness, least: number): Found[] {
  const seen = new Set<string>();
  const found: Found[] = [];
  for (const [b, around] of together.neighbours) {
    const list = [...around];
    list.forEach((a, i) => {
      for (const c of list.slice(i + 1)) {
        const rows = [a, b, c].sort((x, y) => x - y);
        const key = rows.join();
        if (seen.has(key)) continue;
        seen.add(key);
        const filled = together.filled(rows[0]!, rows[1]!, rows[2]!);
        if (filled > least) found.push({ rows, filled });
      }
    });
  }
  return found.sort((x, y) => y.filled - x.filled || compareRows(x.rows, y.rows));
}

function compareRows(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((row, i) => row !== b[i]);
  return at < 0 ? 0 : a[at]! - b[at]!;
}

/** Adds two rows to a near triple so that as much as possible is filled twice; null when no two rows break the cut. */
function grow(seed: Found, fractions: readonly Fraction[], byRow: ReadonlyMap<number, number[]>, together: Togetherness): Found | null {
  const hits = new Map<number, number>();
  const count = (row: number, by: number) => {
    for (const at of byRow.get(row) ?? []) hits.set(at, (hits.get(at) ?? 0) + by);
  };
  for (const row of seed.rows) count(row, 1);
  const gain = (row: number) => (byRow.get(row) ?? []).reduce((sum, at) => sum + ((hits.get(at) ?? 0) & 1 ? fractions[at]!.share : 0), 0);
  const near = new Set(seed.rows.flatMap((row) => [...(together.neighbours.get(row) ?? [])]).filter((row) => !seed.rows.includes(row)));
  const first = [...near]
    .map((row) => ({ row, gain: gain(row) }))
    .sort((a, b) => b.gain - a.gain || a.row - b.row)
    .slice(0, TRIED);
  let best: Found | null = null;
  for (const one of first) {
    count(one.row, 1);
    const others = new Set([...(together.neighbours.get(one.row) ?? []), ...first.map(({ row }) => row)]);
    for (const row of others) {
      if (row === one.row || seed.rows.includes(row)) continue;
      const filled = seed.filled + one.gain + gain(row);
      if (filled > (best?.filled ?? 1 + BROKEN)) best = { rows: [...seed.rows, one.row, row].sort((a, b) => a - b), filled };
    }
    count(one.row, -1);
  }
  return best;
}

function fives(fractions: readonly Fraction[], together: Togetherness): Found[] {
  const byRow = new Map<number, number[]>();
  fractions.forEach(({ rows }, at) => {
    for (const row of rows) {
      const known = byRow.get(row);
      if (known) known.push(at);
      else byRow.set(row, [at]);
    }
  });
  const seen = new Set<string>();
  return triples(together, NEAR)
    .slice(0, SEEDS)
    .flatMap((seed) => grow(seed, fractions, byRow, together) ?? [])
    .filter(({ rows }) => !seen.has(rows.join()) && seen.add(rows.join()))
    .sort((a, b) => b.filled - a.filled || compareRows(a.rows, b.rows));
}

/** Cuts broken by the fractional columns, the most broken first, few through the same row. `rowCount` bounds the rows. */
export function brokenCuts(fractions: readonly Fraction[], rowCount: number, known: readonly Cut[]): Cut[] {
  const together = new Togetherness(fractions, rowCount);
  const have = new Set(known.map((cut) => cut.rows.join()));
  const uses = new Map<number, number>();
  const picked: Cut[] = [];
  const take = (list: readonly Found[], most: number, perRow: number) => {
    for (const { rows } of list) {
      if (picked.length >= most) return;
      if (have.has(rows.join()) || rows.some((row) => (uses.get(row) ?? 0) >= perRow)) continue;
      for (const row of rows) uses.set(row, (uses.get(row) ?? 0) + 1);
      picked.push(cutOf(rows));
    }
  };
  take(triples(together, BROKEN), MOST_THREES, USES);
  if (picked.length < 8) take(fives(fractions, together), MOST_FIVES, USES + 1);
  return picked;
}

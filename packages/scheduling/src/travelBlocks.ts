// Questions to a road service: which pairs are needed, and rectangles of a size that it answers.
import { placeKey } from './travelModel.ts';
import type { Place } from './travel.ts';

/** Rows and columns of one question, as keys of places. */
export type Block = { from: number[]; to: number[] };

/** Pairs between every base and every property both ways, and between properties visited on one day. Same places make no pair. */
export function neededPairs(bases: readonly Place[], visits: readonly (Place & { day: string })[]): [number, number][] {
  const pairs = new Map<string, [number, number]>();
  const both = (a: number, b: number) => {
    if (a === b) return;
    pairs.set(`${a}>${b}`, [a, b]);
    pairs.set(`${b}>${a}`, [b, a]);
  };
  const days = new Map<string, Set<number>>();
  for (const visit of visits) {
    const key = placeKey(visit);
    for (const base of bases) both(placeKey(base), key);
    const same = days.get(visit.day) ?? new Set<number>();
    for (const other of same) both(other, key);
    days.set(visit.day, same.add(key));
  }
  return [...pairs.values()];
}

const chunks = <T>(list: readonly T[], size: number): T[][] =>
  Array.from({ length: Math.ceil(list.length / size) }, (_, at) => list.slice(at * size, (at + 1) * size));

/** Rectangles of at most `side` by `side` that cover the pairs; rows with the most columns go together. */
export function blocksOf(pairs: readonly (readonly [number, number])[], side: number): Block[] {
  const rows = new Map<number, Set<number>>();
  for (const [from, to] of pairs) rows.set(from, (rows.get(from) ?? new Set()).add(to));
  const order = [...rows].sort(([a, as], [b, bs]) => bs.size - as.size || a - b);
  return chunks(order, side).flatMap((group) => {
    const columns = [...new Set(group.flatMap(([, to]) => [...to]))].sort((a, b) => a - b);
    return chunks(columns, side).flatMap((to) => {
      const from = group.filter(([, wanted]) => to.some((one) => wanted.has(one))).map(([key]) => key);
      return from.length > 0 ? [{ from, to }] : [];
    });
  });
}

/** A block cut in two along its longer side; empty when it is a single pair. */
export function halves({ from, to }: Block): Block[] {
  if (from.length === 1 && to.length === 1) return [];
  const half = (list: number[]) => [list.slice(0, list.length >> 1), list.slice(list.length >> 1)];
  return from.length >= to.length ? half(from).map((part) => ({ from: part, to })) : half(to).map((part) => ({ from, to: part }));
}

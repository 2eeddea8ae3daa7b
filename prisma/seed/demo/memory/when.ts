// Days and minutes of the firm's wall clock, remembered, because the same instants are asked for again and again.
import { dayOut } from '@backsight/store/database';
import { wallTime, type WallTime } from '@backsight/domain/schedule/wallClock';

const known = new Map<string, WallTime>();

export function wallOf(at: Date, zone: string): WallTime {
  const key = `${at.getTime()} ${zone}`;
  let wall = known.get(key);
  if (!wall) known.set(key, (wall = wallTime(at, zone)));
  return wall;
}

export const dayOf = (at: Date, zone: string): string => wallOf(at, zone).day;

/** A date column as ISO day. */
export const isoDay = (date: Date | null): string | null => (date === null ? null : dayOut(date));

/** Compares by the keys given, in their order. */
export const sortBy = <T>(rows: readonly T[], ...keys: ((row: T) => string | number)[]): T[] =>
  [...rows].sort((a, b) => {
    for (const key of keys) if (key(a) !== key(b)) return key(a) < key(b) ? -1 : 1;
    return 0;
  });

export const sum = <T>(rows: readonly T[], of: (row: T) => number): number => rows.reduce((total, row) => total + of(row), 0);

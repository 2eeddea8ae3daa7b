// What stands in for one statement of the store.
import type { Tables } from './tables.ts';

/** Answers one statement of the store. `marks` are pieces of its text that no other statement has together. */
export type Answer = { marks: readonly string[]; reply: (tables: Tables, params: readonly any[]) => unknown[] };

/** A statement that only changes something: what it touched does not matter, except that it was something. */
export const touched = (n = 1): unknown[] => Array.from({ length: n });

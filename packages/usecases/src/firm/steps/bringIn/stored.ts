// What is kept of a spreadsheet beside its file.
import type { Columns } from '@backsight/domain/firm/records/fields';
import type { Formats } from '@backsight/domain/firm/records/guess';
import type { Letters } from '@backsight/documents/sheetText';
import type { BringInRow } from '@backsight/store/firm/bringIns';
import type { Mapped } from './line.ts';
import type { Counts } from './prepared.ts';

/** `examples`: the first rows, as many cells as heads. */
export type ReadOf = {
  heads: string[];
  examples: { line: number; cells: string[] }[];
  rows: number;
  letters: Letters;
  parting: string;
};
export type Mapping = { columns: Columns; formats: Formats };

export const readKept = (row: BringInRow): ReadOf => row.read as ReadOf;
export const mappingKept = (row: BringInRow): Mapping => row.mapping as Mapping;
export const countsKept = (row: BringInRow): Counts | null => row.counts as Counts | null;

/** The mapping under which a spreadsheet is read. */
export const mappedOf = (row: BringInRow): Mapped => ({ kind: row.kind, heads: readKept(row).heads, ...mappingKept(row) });

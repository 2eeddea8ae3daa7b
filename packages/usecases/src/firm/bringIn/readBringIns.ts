// What the screens show of spreadsheets: the list, one of them, its problems, what it brought, and what depends on that.
import { csvText } from '@backsight/documents/csv';
import { missingFields, type RecordKind } from '@backsight/domain/firm/records/fields';
import type { Reader } from '@backsight/store/database';
import { findBringIn, listBringIns, listProblems, type BringInRow, type Weight } from '@backsight/store/firm/bringIns';
import { dependsOn, listBrought } from '@backsight/store/firm/takeOut';
import { because } from '../steps/bringIn/depends.ts';
import { countsKept, mappingKept, readKept } from '../steps/bringIn/stored.ts';

const PAGE = 50;
const iso = (at: Date | null): string | null => at?.toISOString() ?? null;

const lineOf = (row: BringInRow) => ({
  ...{
    id: row.id,
    kind: row.kind,
    name: row.name,
    bytes: row.bytes,
    state: row.state,
    askedBy: row.askedBy,
    version: row.version,
    note: row.note,
  },
  ...{
    at: row.recordedAt.toISOString(),
    broughtAt: iso(row.broughtAt),
    endedAt: iso(row.endedAt),
    rows: readKept(row).rows,
    counts: countsKept(row),
  },
  progress:
    row.phase === '' ? null : { phase: row.phase as 'reading' | 'comparing' | 'writing' | 'taking out', done: row.done, total: row.total },
});

/** A page of them, newest first. */
export async function readBringIns(reader: Reader, { before }: { before: string | null }) {
  const rows = await listBringIns(reader, { before, limit: PAGE + 1 });
  const items = rows.slice(0, PAGE).map(lineOf);
  return { items, next: rows.length > PAGE ? items.at(-1)!.id : null };
}

/** One with its heads, first rows and mapping; null where there is none. */
export async function readBringIn(reader: Reader, { id }: { id: string }) {
  const row = await findBringIn(reader, id);
  if (!row) return null;
  const { heads, examples, letters, parting } = readKept(row);
  const mapping = mappingKept(row);
  return {
    ...lineOf(row),
    heads,
    examples,
    letters,
    parting,
    mapping,
    missing: missingFields(row.kind, mapping.columns),
    hasFile: row.hasFile,
  };
}

/** Problems in the order of their lines. `after`: the position of the last one that was shown. */
export async function readProblems(reader: Reader, { id, after, weight }: { id: string; after: number; weight: Weight | null }) {
  const rows = await listProblems(reader, { id, after, weight, limit: PAGE + 1 });
  const items = rows.slice(0, PAGE);
  return { items, next: rows.length > PAGE ? String(items.at(-1)!.position) : null };
}

const SAID: Record<Weight, string> = { stops: 'left out', look: 'to look at', known: 'on file already' };

/** Every problem as a table to work along; null where there is no such spreadsheet. */
export async function problemsTable(reader: Reader, { id }: { id: string }): Promise<{ name: string; text: string } | null> {
  const row = await findBringIn(reader, id);
  if (!row) return null;
  const problems = await listProblems(reader, { id, after: -1, weight: null, limit: 1_000_000 });
  const text = csvText([
    ['Line', 'Column', 'Cell', 'What is wrong', 'The row is'],
    ...problems.map((one) => [one.line, one.column, one.value, one.text, SAID[one.weight]]),
  ]);
  return { name: `problems-${row.kind}.csv`, text };
}

/** What it brought, a page of it. */
export async function readBrought(reader: Reader, { id, after }: { id: string; after: string | null }) {
  const row = await findBringIn(reader, id);
  if (!row) return null;
  const rows = await listBrought(reader, { id, kind: row.kind as RecordKind, after, limit: PAGE + 1 });
  const items = rows.slice(0, PAGE);
  return { items, next: rows.length > PAGE ? items.at(-1)!.id : null };
}

/** What has come to depend on it; empty where it can be taken out. */
export async function readDepends(reader: Reader, { id }: { id: string }) {
  const found = await dependsOn(reader, id);
  return { items: found.map((one) => ({ record: one.record, because: because(one) })) };
}

// Loads rows in bulk by COPY, table by table in one transaction, as the owner of the database: for a firm that is made ahead in memory.
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import type pg from 'pg';
import { from as copyFrom } from 'pg-copy-streams';
import { connected } from './told.ts';

/** A value as a use case would have saved it: JSON columns take any plain value, date columns a Date at midnight UTC. */
export type CopyRow = Record<string, unknown>;
export type CopySession = {
  /** Copies rows; keys are the names of the schema (`startsAt`), a key that every row lacks gets the column's default. Answers how many. */
  copy: (table: string, rows: readonly CopyRow[]) => Promise<number>;
  /** The same without triggers and foreign keys, for rows that are known to be right and come apart from those that they have to follow. */
  copyUnchecked: (table: string, rows: readonly CopyRow[]) => Promise<number>;
  /** Whether the database lets this user do so. */
  mayGoUnchecked: () => Promise<boolean>;
  run: (sql: string, params?: readonly unknown[]) => Promise<number>;
};

type Column = { name: string; type: string };

const COLUMNS = `SELECT column_name AS name, data_type AS type FROM information_schema.columns
  WHERE table_schema = 'public' AND table_name = $1 AND is_generated = 'NEVER' ORDER BY ordinal_position`;
const ROWS_AT_ONCE = 500;

/** Runs `work` in one transaction: all of it is there afterwards, or nothing. `url` must be that of the owner of the tables. */
export async function copyIn<T>(url: string, work: (session: CopySession) => Promise<T>): Promise<T> {
  const client = await connected(url);
  try {
    await client.query('BEGIN');
    const result = await work({
      copy: (table, rows) => copyRows(client, table, rows),
      copyUnchecked: (table, rows) => unchecked(client, () => copyRows(client, table, rows)),
      mayGoUnchecked: async () =>
        (await client.query<{ may: boolean }>(`SELECT has_parameter_privilege('session_replication_role', 'SET') AS may`)).rows[0]!.may,
      run: async (sql, params = []) => (await client.query(sql, [...params])).rowCount ?? 0,
    });
    await client.query('COMMIT');
    return result;
  } catch (error) {
    await client.query('ROLLBACK').catch(() => {});
    throw error;
  } finally {
    await client.end();
  }
}

/** Checks stand still for this transaction while `work` runs, and for this transaction only. */
async function unchecked<T>(client: pg.Client, work: () => Promise<T>): Promise<T> {
  await client.query('SET LOCAL session_replication_role = replica');
  const result = await work();
  await client.query('SET LOCAL session_replication_role = origin');
  return result;
}

async function copyRows(client: pg.Client, table: string, rows: readonly CopyRow[]): Promise<number> {
  if (rows.length === 0) return 0;
  const columns = await columnsFor(client, table, rows);
  const names = columns.map(({ name }) => `"${name}"`).join(', ');
  await pipeline(Readable.from(linesOf(rows, columns)), client.query(copyFrom(`COPY "${table}" (${names}) FROM STDIN`)));
  return rows.length;
}

/** The columns that any row names. @throws Error for a key that is no column: a mistake in the rows */
async function columnsFor(client: pg.Client, table: string, rows: readonly CopyRow[]): Promise<(Column & { key: string })[]> {
  const known = new Map((await client.query<Column>(COLUMNS, [table])).rows.map((column) => [column.name, column]));
  const keys = [...new Set(rows.flatMap((row) => Object.keys(row).filter((key) => row[key] !== undefined)))];
  return keys.map((key) => {
    const column = known.get(columnName(key));
    if (!column) throw new Error(`${table} has no column ${columnName(key)}`);
    return { ...column, key };
  });
}

/** startsAt -> starts_at */
export const columnName = (key: string): string => key.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);

function* linesOf(rows: readonly CopyRow[], columns: readonly (Column & { key: string })[]): Generator<string> {
  for (let at = 0; at < rows.length; at += ROWS_AT_ONCE) {
    yield rows
      .slice(at, at + ROWS_AT_ONCE)
      .map((row) => `${columns.map(({ key, type }) => fieldOf(row[key], type)).join('\t')}\n`)
      .join('');
  }
}

/** One field in the text format of COPY (PostgreSQL manual, "COPY", File Formats). */
export const fieldOf = (value: unknown, type: string): string =>
  value === null || value === undefined ? '\\N' : escaped(textOf(value, type));

const ESCAPES: Record<string, string> = { '\\': '\\\\', '\t': '\\t', '\n': '\\n', '\r': '\\r' };
const escaped = (text: string): string => text.replace(/[\\\t\n\r]/g, (character) => ESCAPES[character]!);

function textOf(value: unknown, type: string): string {
  if (type === 'jsonb' || type === 'json') return JSON.stringify(value);
  if (value instanceof Date) return type === 'date' ? value.toISOString().slice(0, 10) : value.toISOString();
  if (value instanceof Uint8Array) return `\\x${Buffer.from(value).toString('hex')}`;
  if (Array.isArray(value)) return `{${value.map((one) => `"${String(one).replace(/["\\]/g, '\\$&')}"`).join(',')}}`;
  return String(value);
}

// Puts rows into tables by what the database itself demands of them: types, keys that have to lead somewhere, checks.
import { randomUUID } from 'node:crypto';
import type pg from 'pg';

type Row = Record<string, unknown>;
/** `required`: somebody has to say it, for there is no default. */
export type Column = { name: string; type: string; required: boolean; notNull: boolean };
export type Shape = { columns: Column[]; needs: Set<string> };
type Key = { table: string; other: string; columns: string[]; others: string[] };
type Rule = { means: string; columns: string[] };
/** A number below `n`, the same for the same seed. */
type Pick = (n: number) => number;

const TRIES = 400;
const NAMES = (rel: string, keys: string): string =>
  `ARRAY(SELECT attname::text FROM unnest(${keys}) WITH ORDINALITY k(n, i) JOIN pg_attribute ON attrelid = ${rel} AND attnum = k.n ORDER BY i)`;
const KEYS = `SELECT conrelid::regclass::text AS table, confrelid::regclass::text AS other, ${NAMES('conrelid', 'conkey')} AS columns, ${NAMES('confrelid', 'confkey')} AS others
  FROM pg_constraint WHERE contype = 'f' AND connamespace = 'public'::regnamespace`;
const RULE = `SELECT pg_get_constraintdef(oid) AS means, ${NAMES('conrelid', 'conkey')} AS columns FROM pg_constraint WHERE conname = $1 AND conrelid = $2::regclass`;

/** What no list of literals says: patterns, lengths of bytes. */
const HINTS: Record<string, unknown[]> = {
  'kept_search.list': ['/jobs'],
  'kept_search.search': ['?state=booked'],
  'appeal.way': ['link'],
  'appeal.result': [null],
  'second_factor.secret': [`\\x${'07'.repeat(48)}`],
  'span_sum.first': ['2026-05-01'],
  'span_sum.amounts': [[100, 200]],
  'bring_in.kind': ['people'],
  'bring_in.state': ['checked'],
  'bring_in.brought_at': [null],
  'bring_in.ended_at': [null],
};

/** Values worth a try for a column, the likeliest first. */
function candidates(table: string, { name, type }: Column): unknown[] {
  const hint = HINTS[`${table}.${name}`];
  if (hint) return hint;
  if (type === 'uuid') return [randomUUID()];
  if (type.startsWith('timestamp')) return ['2026-05-11T15:00:00Z', '2026-05-12T15:00:00Z', '2026-05-13T15:00:00Z', '2026-05-11T00:00:00Z'];
  if (type === 'date') return ['2026-05-11', '2026-05-12', '2026-05-01', '2026-06-01'];
  if (type === 'boolean') return [false, true];
  if (type.endsWith('[]')) return [[]];
  if (isNumber(type)) return [1, 2, 0, 44, -88, 100];
  if (type === 'jsonb') return [{}, []];
  if (type === 'bytea') return ['\\x00'];
  return ['x', randomUUID().replaceAll('-', '').repeat(2), '', 'x@test.example', 'US-WI', '2026-05'];
}
const isNumber = (type: string): boolean => /^(integer|smallint|bigint|numeric|double|real)/.test(type);

/** Literals of a rule as the catalog writes it: 'word'::text, numbers. */
const literals = (means: string): unknown[] => [
  ...[...means.matchAll(/'((?:[^']|'')*)'::(?:text|character varying)/g)].map(([, word]) => word),
  ...[...means.matchAll(/[^\w'](-?\d+)\b/g)].map(([, number]) => Number(number)),
];

/** Inserts a row into each of the tables, whose triggers are asleep. Answers those that took none, with the last no of the database. */
export async function fill(client: pg.Client, shapes: Map<string, Shape>, tables: readonly string[], pick: Pick): Promise<string[]> {
  const keys = (await client.query<Key>(KEYS)).rows;
  const left: string[] = [];
  for (const table of tables) {
    const no = await fillOne(
      client,
      table,
      shapes.get(table)!.columns,
      keys.filter((key) => key.table === table),
      pick,
    );
    if (no !== null) left.push(`${table}: ${no}`);
  }
  return left;
}

async function fillOne(
  client: pg.Client,
  table: string,
  columns: readonly Column[],
  keys: readonly Key[],
  pick: Pick,
): Promise<string | null> {
  const row: Row = {};
  for (const column of columns) if (column.required) row[column.name] = candidates(table, column)[0];
  for (const key of keys) await point(client, key, row, columns, pick);
  const free = columns.filter(({ name }) => !keys.some((key) => key.columns.includes(name)));
  let no = '';
  for (let tries = 0; tries < TRIES; tries++) {
    await client.query('SAVEPOINT filler');
    try {
      await insert(client, table, row);
      return null;
    } catch (error) {
      await client.query('ROLLBACK TO filler');
      const { constraint = '', column, message } = error as pg.DatabaseError;
      no = message;
      if (pick(4) === 0) for (const key of keys) await point(client, key, row, columns, pick);
      const [rule] = (await client.query<Rule>(RULE, [constraint, `"${table}"`])).rows;
      change(
        table,
        row,
        columns,
        rule ?? { means: '', columns: free.map(({ name }) => name).filter((name) => !column || name === column) },
        pick,
      );
    }
  }
  return no;
}

function insert(client: pg.Client, table: string, row: Row): Promise<unknown> {
  const names = Object.keys(row).map((name) => `"${name}"`);
  if (names.length === 0) return client.query(`INSERT INTO "${table}" DEFAULT VALUES`);
  const sql = `INSERT INTO "${table}" (${names.join(', ')}) SELECT ${names.join(', ')} FROM jsonb_populate_record(NULL::"${table}", $1)`;
  return client.query(sql, [JSON.stringify(row)]);
}

/** Lets a key lead to a row that is there; one that may be left out is left out half the time. */
async function point(
  client: pg.Client,
  { other, columns: named, others }: Key,
  row: Row,
  columns: readonly Column[],
  pick: Pick,
): Promise<void> {
  const needed = named.some((name) => columns.find((column) => column.name === name)!.required);
  const { rows } = await client.query<Row>(`SELECT ${others.map((name) => `"${name}"`).join(', ')} FROM "${other}" ORDER BY 1 LIMIT 200`);
  if (rows.length === 0 || (!needed && pick(2) === 0)) return;
  const chosen = rows[pick(rows.length)]!;
  for (const [at, name] of named.entries()) row[name] = chosen[others[at]!];
}

/** Another value for one of the columns of the rule that said no. */
function change(table: string, row: Row, columns: readonly Column[], { means, columns: named }: Rule, pick: Pick): void {
  const wanted = named[pick(named.length || 1)];
  const column = columns.find(({ name }) => name === wanted);
  if (!column) return;
  const fitting = literals(means).filter(
    (value) =>
      (typeof value === 'number') === isNumber(column.type) && (typeof value === 'number' || /^(text|character)[^[]*$/.test(column.type)),
  );
  const hinted = `${table}.${column.name}` in HINTS;
  const values = hinted
    ? candidates(table, column)
    : [...fitting, ...fitting, ...candidates(table, column), ...(column.notNull ? [] : [null])];
  row[column.name] = values[pick(values.length)];
}

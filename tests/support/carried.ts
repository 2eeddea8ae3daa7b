// A firm as every release of the past would have kept it: the rows of a firm of today, written at each schema as far as they fit there.
import pg from 'pg';
import { fill, type Column, type Shape } from './filler.ts';

type Row = Record<string, unknown>;
/** Rows by table, as JSON. */
export type Rows = Map<string, Row[]>;

const COLUMNS = `SELECT c.relname AS table, a.attname AS name, format_type(a.atttypid, a.atttypmod) AS type, a.attnotnull AS "notNull",
    a.attnotnull AND NOT a.atthasdef AND a.attidentity = '' AS required
  FROM pg_attribute a JOIN pg_class c ON c.oid = a.attrelid
  WHERE c.relnamespace = 'public'::regnamespace AND c.relkind = 'r' AND a.attnum > 0 AND NOT a.attisdropped AND a.attgenerated = '' AND c.relname <> '_prisma_migrations'
  ORDER BY c.relname, a.attnum`;
const NEEDS = `SELECT conrelid::regclass::text AS table, confrelid::regclass::text AS other FROM pg_constraint
  WHERE contype = 'f' AND conrelid <> confrelid AND connamespace = 'public'::regnamespace`;

/** What the tables of a database are like, those first to which others point. */
export async function shapesOf(client: pg.Client): Promise<Map<string, Shape>> {
  const shapes = new Map<string, Shape>();
  for (const { table, ...column } of (await client.query<Column & { table: string }>(COLUMNS)).rows)
    shapes.set(table, { columns: [...(shapes.get(table)?.columns ?? []), column], needs: new Set() });
  for (const { table, other } of (await client.query<{ table: string; other: string }>(NEEDS)).rows) shapes.get(table)!.needs.add(other);
  const inOrder = new Map<string, Shape>();
  const add = (table: string): void => {
    if (inOrder.has(table)) return;
    for (const other of shapes.get(table)!.needs) add(other);
    inOrder.set(table, shapes.get(table)!);
  };
  for (const table of shapes.keys()) add(table);
  return inOrder;
}

/** Works in one transaction while triggers, which tell of acts, are asleep; keys and checks are not. */
async function asleep<T>(url: string, work: (client: pg.Client, shapes: Map<string, Shape>) => Promise<T>): Promise<T> {
  const client = new pg.Client({ connectionString: url, options: '-c timezone=UTC' });
  await client.connect();
  try {
    const shapes = await shapesOf(client);
    const triggers = (word: string) => [...shapes.keys()].map((table) => `ALTER TABLE "${table}" ${word} TRIGGER USER;`).join(' ');
    await client.query(`BEGIN; ${triggers('DISABLE')}`);
    const result = await work(client, shapes);
    await client.query(`${triggers('ENABLE')} COMMIT`);
    return result;
  } finally {
    await client.end();
  }
}

/** Every row of a database, after each table that held none got one. Answers which took none, too. */
export function everyRow(url: string): Promise<{ rows: Rows; left: string[] }> {
  return asleep(url, async (client, shapes) => {
    let at = 7; // Park and Miller's minimal generator: the same firm every time
    const pick = (n: number): number => (at = (at * 48_271) % 2_147_483_647) % n;
    const bare: string[] = [];
    for (const table of shapes.keys()) if ((await client.query(`SELECT FROM "${table}" LIMIT 1`)).rowCount === 0) bare.push(table);
    const twice = bare.includes('stored_file') ? ['stored_file'] : []; // a photo and its copy
    const left = await fill(client, shapes, [...twice, ...bare], pick);
    const rows: Rows = new Map();
    for (const table of shapes.keys())
      rows.set(
        table,
        (await client.query<{ row: Row }>(`SELECT to_jsonb(t) AS row FROM "${table}" t`)).rows.map(({ row }) => row),
      );
    return { rows, left };
  });
}

/** Writes of the rows what the schema of now takes, and leaves the others in `left` for a later one. Answers how many it took. */
export function writeWhatFits(url: string, left: Rows): Promise<number> {
  return asleep(url, async (client, shapes) => {
    let taken = 0;
    for (const [table, { columns }] of shapes) {
      const waiting = left.get(table) ?? [];
      if (waiting.length === 0) continue;
      const known = columns.filter(({ name }) => name in waiting[0]!).map(({ name }) => `"${name}"`);
      const sql = `INSERT INTO "${table}" (${known.join(', ')}) OVERRIDING SYSTEM VALUE SELECT ${known.join(', ')} FROM jsonb_populate_recordset(NULL::"${table}", $1)`;
      const goes = async (rows: readonly Row[]): Promise<boolean> => {
        await client.query('SAVEPOINT rows');
        try {
          await client.query(sql, [JSON.stringify(rows)]);
          await client.query('RELEASE rows');
          return true;
        } catch {
          await client.query('ROLLBACK TO rows');
          return false;
        }
      };
      const still: Row[] = [];
      if (!(await goes(waiting))) for (const row of waiting) if (!(await goes([row]))) still.push(row);
      taken += waiting.length - still.length;
      left.set(table, still);
    }
    return taken;
  });
}

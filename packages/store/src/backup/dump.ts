// Everything that the database holds at one instant, table by table in the text format of COPY, while others go on working.
import type pg from 'pg';
import { to as copyTo } from 'pg-copy-streams';
import type { Manifest } from '@backsight/domain/backup/stored';
import { connected } from '../told.ts';
import type { Add } from './archive.ts';

/** Bytes of rows in one entry, about. */
const AT_ONCE = 8 * 2 ** 20;
const NEWLINE = 10;

type Table = { name: string; columns: string[] };
export const TABLES = `SELECT c.relname AS name, array_agg(a.attname::text ORDER BY a.attnum) AS columns FROM pg_class c JOIN pg_attribute a ON a.attrelid = c.oid
  WHERE c.relnamespace = 'public'::regnamespace AND c.relkind = 'r' AND a.attnum > 0 AND NOT a.attisdropped AND a.attgenerated = '' AND c.relname <> '_prisma_migrations'
  GROUP BY 1 ORDER BY 1`;

export const copyOf = ({ name, columns }: Table): string => `COPY "${name}" (${columns.map((column) => `"${column}"`).join(', ')})`;
export type Dumped = Pick<Manifest, 'firm' | 'migrations' | 'tables'> & {
  /** Fingerprints of the files that the rows speak of. */ files: string[];
};

/** Adds every row to a backup. `url` is that of the owner of the tables. `told` hears of each table once it is in. */
export async function dump(url: string, add: Add, told: (table: string, rows: number) => void): Promise<Dumped> {
  const client = await connected(url);
  try {
    await client.query('BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY');
    const { rows: known } = await client.query<Table>(TABLES);
    const tables: Manifest['tables'] = [];
    for (const table of known) {
      const rows = await dumpTable(client, table, add);
      tables.push({ ...table, rows });
      told(table.name, rows);
    }
    const of = async <T extends object>(sql: string): Promise<T[]> => (await client.query<T>(sql)).rows;
    return {
      tables,
      firm: (await of<{ name: string }>('SELECT name FROM firm'))[0]?.name ?? null,
      migrations: await of(
        'SELECT migration_name AS name, checksum FROM "_prisma_migrations" WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL ORDER BY 1',
      ),
      files: (await of<{ sha256: string }>('SELECT sha256 FROM stored_file WHERE erased_at IS NULL ORDER BY 1')).map(
        ({ sha256 }) => sha256,
      ),
    };
  } finally {
    await client.end();
  }
}

/** In the text format a row ends with the only line feed in it (PostgreSQL manual, "COPY", File Formats), so that any row can begin an entry. */
async function dumpTable(client: pg.Client, table: Table, add: Add): Promise<number> {
  let [rows, entries, parts, size] = [0, 0, [] as Buffer[], 0];
  const flush = async () => {
    if (size > 0) await add(`tables/${table.name}/${String(++entries).padStart(6, '0')}.copy`, Buffer.concat(parts));
    [parts, size] = [[], 0];
  };
  for await (const chunk of client.query(copyTo(`${copyOf(table)} TO STDOUT`)) as AsyncIterable<Buffer>) {
    for (let at = chunk.indexOf(NEWLINE); at !== -1; at = chunk.indexOf(NEWLINE, at + 1)) rows += 1;
    parts.push(chunk);
    size += chunk.length;
    if (size >= AT_ONCE && chunk.at(-1) === NEWLINE) await flush();
  }
  await flush();
  return rows;
}

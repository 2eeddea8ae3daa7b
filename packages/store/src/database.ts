// Opens the firm's database: one pool for Prisma and for hand-written SQL, and the only way into a transaction.
import { createHash } from 'node:crypto';
import { PrismaPg } from '@prisma/adapter-pg';
import pg from 'pg';
import { Prisma, PrismaClient } from './generated/client.ts';

/** Runs hand-written SQL. Cast days to text and give every column its API name: `starts_at AS "startsAt"`. */
export type Reader = { rows: <T>(sql: string, params?: readonly unknown[]) => Promise<T[]> };

/** A transaction: Prisma for writes and single reads, SQL for the rest; no other handle is in reach inside it. */
export type Tx = Reader & { db: Prisma.TransactionClient };

export type Database = {
  read: Reader;
  /** Everything or nothing. It is given up after `seconds` (30), which only work of the night may raise. */
  transaction: <T>(work: (tx: Tx) => Promise<T>, seconds?: number) => Promise<T>;
  /** 'role': the service lacks the right to change history; 'triggers only': the server refused that role. */
  guards: 'role' | 'triggers only';
  /** Of the pool: open, idle, and requests that wait for one. */
  connections: () => { open: number; idle: number; waiting: number };
  close: () => Promise<void>;
};

/** A statement that took long, without what it was asked with. */
export type SlowStatement = { sql: string; ms: number };
const SLOW_MS = 1_000;

const APP_ROLE = 'backsight_app';
const OPTIONS = '-c timezone=UTC -c application_name=backsight';

/**
 * What a connection was once told, plans and what the tables are like, makes the first answer of a new one some ten times slower than the
 * next: whoever asks after a pause finds those of before. So many stay open; the others go once nobody asked for so many milliseconds.
 */
const STAYING = { min: 4, idleTimeoutMillis: 600_000, keepAlive: true };

/** Opens a migrated database. `size` is the largest number of connections; `slow` hears of statements that take a second and more. */
export async function openDatabase(url: string, size = 12, slow: (statement: SlowStatement) => void = () => {}): Promise<Database> {
  const guards = (await mayTakeRole(url)) ? 'role' : 'triggers only';
  const options = guards === 'role' ? `${OPTIONS} -c role=${APP_ROLE}` : OPTIONS;
  const pool = new pg.Pool({ connectionString: url, max: size, options, ...STAYING });
  pool.on('error', () => {}); // an idle connection that the server ends must not end the service
  const prisma = new PrismaClient({
    adapter: new PrismaPg(pool, { disposeExternalPool: false, statementNameGenerator: ({ sql }) => names.get(sql) ?? '' }),
    errorFormat: 'minimal',
  });
  return {
    guards,
    read: { rows: (sql, params = []) => timed(slow, sql, () => poolRows(pool, sql, params)) },
    transaction: (work, seconds = 30) =>
      prisma.$transaction((db) => work({ db, rows: (sql, params = []) => timed(slow, sql, () => transactionRows(db, sql, params)) }), {
        maxWait: 20_000,
        timeout: seconds * 1000,
      }),
    connections: () => ({ open: pool.totalCount, idle: pool.idleCount, waiting: pool.waitingCount }),
    close: async () => {
      await prisma.$disconnect();
      await pool.end();
    },
  };
}

async function mayTakeRole(url: string): Promise<boolean> {
  const client = new pg.Client({ connectionString: url, options: `${OPTIONS} -c role=${APP_ROLE}` });
  client.on('error', () => {});
  try {
    await client.connect();
    await client.query('SELECT 1 FROM firm LIMIT 1');
    return true;
  } catch (error) {
    if (['28000', '42501', '22023', '42704'].includes(String((error as { code?: string }).code))) return false;
    throw error;
  } finally {
    await client.end().catch(() => {});
  }
}

const DAY = 1082;
const BIG = 20;
const NUMERIC = 1700;
const parsers: pg.CustomTypesConfig = {
  getTypeParser: (oid: number, format?: string) => {
    if (oid === DAY) return (text: string) => text;
    if (oid === BIG || oid === NUMERIC) return Number;
    return pg.types.getTypeParser(oid, format as 'text');
  },
} as pg.CustomTypesConfig;

const names = new Map<string, string>();

/** A short, stable name per statement, so that the server plans it once per connection. */
function statementName(sql: string): string {
  let name = names.get(sql);
  if (!name) names.set(sql, (name = createHash('sha1').update(sql).digest('hex').slice(0, 16)));
  return name;
}

async function timed<T>(slow: (statement: SlowStatement) => void, sql: string, work: () => Promise<T>): Promise<T> {
  const before = performance.now();
  const result = await work();
  const ms = Math.round(performance.now() - before);
  if (ms >= SLOW_MS) slow({ sql, ms });
  return result;
}

async function poolRows<T>(pool: pg.Pool, sql: string, params: readonly unknown[]): Promise<T[]> {
  const result = await pool.query({ name: statementName(sql), text: sql, values: [...params], types: parsers });
  return result.rows as T[];
}

async function transactionRows<T>(db: Prisma.TransactionClient, sql: string, params: readonly unknown[]): Promise<T[]> {
  statementName(sql); // known by name, it is planned once per connection inside transactions too; what Prisma writes itself stays unnamed
  const rows = await db.$queryRawUnsafe<Record<string, unknown>[]>(sql, ...params);
  for (const row of rows) for (const key in row) row[key] = plain(row[key]);
  return rows as T[];
}

function plain(value: unknown): unknown {
  if (typeof value === 'bigint') return Number(value);
  if (value instanceof Prisma.Decimal) return value.toNumber();
  return value;
}

/** Runs a statement that returns nothing useful (a lock, a bulk update) and gives the number of rows touched. */
export const execute = (tx: Tx, sql: string, ...params: unknown[]): Promise<number> => tx.db.$executeRawUnsafe(sql, ...params);

/** ISO day -> what Prisma stores in a date column. */
export const dayIn = (day: string): Date => new Date(`${day}T00:00:00Z`);
/** What Prisma reads from a date column -> ISO day. */
export const dayOut = (date: Date): string => date.toISOString().slice(0, 10);

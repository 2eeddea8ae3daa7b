// Opens the firm's database: one pool for Prisma and for hand-written SQL, and the only way into a transaction.
import pg from 'pg';
import { Prisma, PrismaClient } from './generated/client.ts';
import { asGiven } from './given.ts';
import { ask, knowing, ownConnection, settled, tell, TellingPg, type OwnConnection } from './ownConnection.ts';
import { patient } from './patience.ts';
import { plainWrites, tablesOf, type Writer } from './plainWrites.ts';
import type { Table } from './plainSql.ts';
import { readsOver, type Took } from './readTogether.ts';
import { knownName, statementName } from './statementName.ts';
import { connected, TOLD } from './told.ts';

/** Runs hand-written SQL. Cast days to text and give every column its API name: `starts_at AS "startsAt"`. */
export type Reader = { rows: <T>(sql: string, params?: readonly unknown[]) => Promise<T[]> };

/**
 * A transaction: Prisma for writes and single reads, SQL for the rest; no other handle is in reach inside it. What answers nothing is sent with
 * the next statement that answers something, or at the end, and fails there.
 */
export type Tx = Reader & { db: Writer; run: (sql: string, params?: readonly unknown[]) => Promise<void> };

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
const OPTIONS = `${TOLD} -c application_name=backsight`;

/**
 * What a connection was once told, plans and what the tables are like, makes the first answer of a new one some ten times slower than the
 * next: whoever asks after a pause finds those of before. So many stay open; the others go once nobody asked for so many milliseconds.
 * A connection that nobody uses is kept alive, so that no firewall forgets it, and waited for no longer than `connectionTimeoutMillis`.
 */
const STAYING = {
  min: 4,
  idleTimeoutMillis: 600_000,
  keepAlive: true,
  keepAliveInitialDelayMillis: 30_000,
  connectionTimeoutMillis: 15_000,
};
/** Work of the night has connections of its own, which wait for as long as it takes, and none when nothing of it is under way. */
const AT_NIGHT = { max: 4, min: 0, idleTimeoutMillis: 10_000, keepAlive: true, connectionTimeoutMillis: 15_000 };

const TRANSACTION_MS = 30_000;
/** Milliseconds that a statement may take, and that its answer is waited for. */
export type Patience = { statement: number; answer: number };
/** Of the service: a little more than a transaction has, so that the one that knows why ends first. */
export const OF_THE_DAY: Patience = { statement: 32_000, answer: 35_000 };
/** The server frees what a service holds that went silent: locks of whoever is gone keep nobody waiting for long. */
const GONE = '-c idle_in_transaction_session_timeout=60s -c client_connection_check_interval=10s';
const GONE_UNHEARD = '-c tcp_keepalives_idle=30 -c tcp_keepalives_interval=10 -c tcp_keepalives_count=3';

/**
 * What people wait for are many small statements at once over tables whose pages lie in memory or on a disk without arms, so that a page by
 * an index costs hardly more than the next one of a table; and helpers of a statement would take the processors from the others.
 */
const PLANS = '-c random_page_cost=1.1 -c max_parallel_workers_per_gather=0';

export type OpenSettings = {
  /** Largest number of connections. */ size?: number;
  /** Hears of statements that take a second and more. */ slow?: (statement: SlowStatement) => void;
  /** null: statements take as long as they take. */ patience?: Patience | null;
};

/** Opens a migrated database. @throws NotHandedOn */
export async function openDatabase(url: string, settings: OpenSettings = {}): Promise<Database> {
  const { size = 12, slow = () => {}, patience = null } = settings;
  const guards = (await mayTakeRole(url)) ? 'role' : 'triggers only';
  const options = `${OPTIONS} ${GONE} ${GONE_UNHEARD}${guards === 'role' ? ` -c role=${APP_ROLE}` : ''}`;
  const waitedFor = `${options} ${PLANS}`;
  const prompt = patience
    ? { options: `${waitedFor} -c statement_timeout=${patience.statement}`, Client: patient(patience.answer) }
    : { options: waitedFor };
  const day = poolOf({ connectionString: url, max: size, ...STAYING, ...prompt });
  const took: Took = (sql, ms) => toldIfSlow(slow, sql, ms);
  const read = readsOver(day.pool, took);
  let night: Pooled | undefined;
  const at = (seconds: number) =>
    seconds * 1000 <= TRANSACTION_MS ? day : (night ??= poolOf({ connectionString: url, options, ...AT_NIGHT }));
  return {
    guards,
    read: { rows: async <T>(sql: string, params: readonly unknown[] = []) => (await read(queryOf(sql, params))).rows as T[] },
    transaction: (work, seconds = TRANSACTION_MS / 1000) => {
      const own = ownConnection(took);
      const { prisma, tables } = at(seconds);
      return knowing(own, () =>
        prisma.$transaction(
          async (db) => {
            const result = await work({
              db: plainWrites(own, db, tables),
              rows: (sql, params = []) => transactionRows(own, db, sql, params),
              run: (sql, params = []) => transactionRun(own, db, sql, params),
            });
            await settled(own);
            return result;
          },
          { maxWait: 20_000, timeout: seconds * 1000 },
        ),
      );
    },
    connections: () => ({ open: day.pool.totalCount, idle: day.pool.idleCount, waiting: day.pool.waitingCount }),
    close: async () => {
      for (const one of night ? [day, night] : [day]) {
        await one.prisma.$disconnect();
        await one.pool.end();
      }
    },
  };
}

type Pooled = { pool: pg.Pool; prisma: PrismaClient; tables: ReadonlyMap<string, Table> };

function poolOf(config: pg.PoolConfig): Pooled {
  const pool = new pg.Pool({ ...config, pipeline: true });
  pool.on('error', () => {}); // an idle connection that the server ends must not end the service
  const prisma = new PrismaClient({
    adapter: new TellingPg(pool, { disposeExternalPool: false, statementNameGenerator: ({ sql }) => knownName(sql) }),
    errorFormat: 'minimal',
  });
  return { pool, prisma, tables: tablesOf(prisma) };
}

async function mayTakeRole(url: string): Promise<boolean> {
  let client: pg.Client | undefined;
  try {
    client = await connected(url, `${OPTIONS} -c role=${APP_ROLE}`);
    await client.query('SELECT 1 FROM firm LIMIT 1');
    return true;
  } catch (error) {
    if (['28000', '42501', '22023', '42704'].includes(String((error as { code?: string }).code))) return false;
    throw error;
  } finally {
    await client?.end().catch(() => {});
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

const toldIfSlow = (slow: (statement: SlowStatement) => void, sql: string, ms: number): void => {
  if (ms >= SLOW_MS) slow({ sql, ms: Math.round(ms) });
};

function queryOf(said: string, params: readonly unknown[]) {
  const text = asGiven(said, params);
  return { name: statementName(text), text, values: [...params], types: parsers };
}

/** Through Prisma only once the transaction has ended, which then says so. */
async function transactionRows<T>(
  own: OwnConnection,
  db: Prisma.TransactionClient,
  said: string,
  params: readonly unknown[],
): Promise<T[]> {
  const answer = await ask(own, queryOf(said, params));
  if (answer) return answer.rows as T[];
  const sql = asGiven(said, params);
  statementName(sql); // known by name, it is planned once per connection inside transactions too; what Prisma writes itself stays unnamed
  const rows = await db.$queryRawUnsafe<Record<string, unknown>[]>(sql, ...params);
  for (const row of rows) for (const key in row) row[key] = plain(row[key]);
  return rows as T[];
}

async function transactionRun(own: OwnConnection, db: Prisma.TransactionClient, said: string, params: readonly unknown[]): Promise<void> {
  if (!(await tell(own, queryOf(said, params)))) await db.$executeRawUnsafe(asGiven(said, params), ...params);
}

function plain(value: unknown): unknown {
  if (typeof value === 'bigint') return Number(value);
  if (value instanceof Prisma.Decimal) return value.toNumber();
  return value;
}

/** Runs a statement that returns nothing useful (a lock, a bulk update). */
export const execute = (tx: Tx, sql: string, ...params: unknown[]): Promise<void> => tx.run(sql, params);
/** The same, and gives the number of rows touched. */
export const touched = (tx: Tx, sql: string, ...params: unknown[]): Promise<number> => tx.db.$executeRawUnsafe(sql, ...params);

/** ISO day -> what Prisma stores in a date column. */
export const dayIn = (day: string): Date => new Date(`${day}T00:00:00Z`);
/** What Prisma reads from a date column -> ISO day. */
export const dayOut = (date: Date): string => date.toISOString().slice(0, 10);

// Reads that are asked for in one go leave over one connection; each is still its own, and none waits twice behind a long one.
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openDatabase, type Database, type SlowStatement } from '@backsight/store/database';
import { testService } from '../support/database.ts';

const service = testService();
const slow: SlowStatement[] = [];
let database: Database;
beforeAll(async () => void (database = await openDatabase(service.url, { size: 4, slow: (one) => slow.push(one) })));
afterAll(() => database.close());

type Said = { pid: number; n: number; at: string };
const HERE = `pg_backend_pid() AS pid, now()::text AS at`;
const ask = async (n: number): Promise<Said> => (await database.read.rows<Said>(`SELECT $1::int AS n, ${HERE}`, [n]))[0]!;
const wait = async (seconds: number): Promise<Said> =>
  (await database.read.rows<Said>(`SELECT 0 AS n, ${HERE}, pg_sleep($1::float8)::text`, [seconds]))[0]!;

it('go over one connection and answer each what it asked, as a transaction of its own', async () => {
  const said = await Promise.all([1, 2, 3, 4, 5].map(ask));
  expect(said.map(({ n }) => n)).toEqual([1, 2, 3, 4, 5]);
  expect(new Set(said.map(({ pid }) => pid)).size).toBe(1);
  expect(new Set(said.map(({ at }) => at)).size).toBe(5);
});

it('fail alone, and what failed takes nothing with it', async () => {
  const bad = database.read.rows('SELECT 1 / $1::int AS n', [0]);
  const [first, broken, last] = await Promise.allSettled([ask(1), bad, ask(2)]);
  expect([first, last]).toMatchObject([{ value: { n: 1 } }, { value: { n: 2 } }]);
  expect(broken).toMatchObject({ status: 'rejected', reason: { code: '22012' } });
  expect((await Promise.all([ask(6), ask(7)])).map(({ n }) => n)).toEqual([6, 7]);
  expect(database.connections().waiting).toBe(0);
});

it('that took long the last time have a connection of their own, until they are short again', async () => {
  const pids = async (seconds: number) => (await Promise.all([wait(seconds), ask(1), ask(2)])).map(({ pid }) => pid);
  expect(new Set(await pids(0.1)).size).toBe(1);
  const [own, short, other] = await pids(0);
  expect(short).toBe(other);
  expect(own).not.toBe(short);
  expect(new Set(await pids(0)).size).toBe(1);
});

it('are told as slow by what each took, not by what it waited for', async () => {
  slow.length = 0;
  const once = database.read.rows('SELECT pg_sleep($1::float8)::text AS long', [1.1]);
  await Promise.all([once, ask(8)]);
  expect(slow.map(({ sql }) => sql)).toEqual(['SELECT pg_sleep($1::float8)::text AS long']);
});

it('are planned for many at once: without helpers, and with an index as cheap as a table; work of the night has the usual plans', async () => {
  const PLANS = `SELECT current_setting('max_parallel_workers_per_gather') AS helpers, current_setting('random_page_cost') AS page`;
  const [usual] = await database.transaction((tx) => tx.rows(PLANS), 600);
  const waitedFor = { helpers: '0', page: '1.1' };
  expect(await database.read.rows(PLANS)).toEqual([waitedFor]);
  expect(await database.transaction((tx) => tx.rows(PLANS))).toEqual([waitedFor]);
  expect(usual).not.toEqual(waitedFor);
});

// A second server that only reads: one service with one database server, and the same service whose reads outside transactions go to a
// second server that follows the first; they take turns. Then what a commit takes when it waits until the second server shows it, and how
// often the second does not show yet what was told as done. On two cores it answers no more: what counts is what the first server is spared.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import pg from 'pg';
import { startEmbedded } from '@backsight/store/embedded/server';
import { migrate } from '@backsight/store/migrate';
import { seedDemo } from '../../prisma/seed/demo/demo.ts';
import { quantile, type Bench } from './bench.ts';
import { asksOf } from './http/asks.ts';
import { builtProgram } from './http/built.ts';
import { processorOf } from './http/copies.ts';
import { load, requestOf } from './http/load.ts';
import { apiOver } from './http/parts.ts';
import { headersOf } from './http/recording.ts';
import { standbyOf } from './http/standby.ts';
import { startUnder, type Under } from './http/under.ts';
import { YEARS_NOW } from './years/databases.ts';

const ROOT = path.resolve(import.meta.dirname, '../..');
const FROM = path.join(ROOT, 'packages/store/package.json');
const [CONNECTIONS, TURNS, SECONDS, WARM_SECONDS] = [6, 7, 3, 5];
const COMMITS = 400;
const began = YEARS_NOW.getTime();

type Processor = () => number | null;
type Taken = { rate: number; service: number; first: number; second: number };

async function underLoad(service: Under, servers: readonly Processor[], requests: readonly Buffer[], seconds: number): Promise<Taken> {
  const used = async () => [(await service.used()).cpu, ...servers.map((one) => one() ?? NaN)];
  const before = await used();
  const until = performance.now() + seconds * 1000;
  let at = 0;
  const { answered, seconds: took } = await load(service.port, CONNECTIONS, () =>
    performance.now() < until ? requests[at++ % requests.length]! : null,
  );
  const [own, first, second] = (await used()).map((ms, nth) => (ms - before[nth]!) / answered);
  return { rate: answered / took, service: own!, first: first!, second: second! };
}

/** Milliseconds of a commit, and after how many of them the second server did not show the row at once. */
async function commits(first: pg.Client, second: pg.Client, how: 'local' | 'on' | 'remote_apply'): Promise<{ ms: number; late: number }> {
  await first.query(`SET synchronous_commit = ${how}`);
  const ms: number[] = [];
  let late = 0;
  for (let n = 0; n < COMMITS; n++) {
    const before = performance.now();
    const { rows } = await first.query<{ id: number }>(`INSERT INTO seen DEFAULT VALUES RETURNING id`);
    ms.push(performance.now() - before);
    late += (await second.query(`SELECT FROM seen WHERE id = $1`, [rows[0]!.id])).rowCount === 0 ? 1 : 0;
  }
  return { ms: quantile(ms, 0.5), late };
}

async function demoOn(url: string): Promise<void> {
  await migrate(url, path.join(ROOT, 'prisma/migrations'));
  await seedDemo(url, { now: YEARS_NOW, publicUrl: 'http://127.0.0.1:4800', pastDays: 0 });
}

async function connected(connectionString: string): Promise<pg.Client> {
  const client = new pg.Client({ connectionString });
  await client.connect();
  return client;
}

/** The same reads by a service on the first server alone, and by one that reads on the second. */
async function reads(url: string, second: string, servers: readonly Processor[]): Promise<Record<'one' | 'two', Taken>[]> {
  const api = await apiOver(url, { began, connections: 2 });
  const requests = (await asksOf(url, api.app)).map(([, ask]) => requestOf(ask.method, ask.path, headersOf(ask)));
  await api.close();
  const program = await builtProgram('program');
  const order = { url, began, connections: CONNECTIONS, recorded: null };
  const [one, two] = [await startUnder(program, order), await startUnder(program, { ...order, reads: second })];
  const taken: Record<'one' | 'two', Taken>[] = [];
  for (const service of [one, two]) await underLoad(service, servers, requests, WARM_SECONDS);
  for (let turn = 0; turn < TURNS; turn++)
    taken.push({ one: await underLoad(one, servers, requests, SECONDS), two: await underLoad(two, servers, requests, SECONDS) });
  await one.stop();
  await two.stop();
  return taken;
}

const bench: Bench = {
  about:
    'answers a second with one database server and with a second one for reading, processor ms for each answer; ms of a commit, and rows that the second server showed late',
  run: async (say, named) => {
    if (!named) return say({ what: 'only by name: npm run bench -- reading' });
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-reading-'));
    fs.chmodSync(folder, 0o755);
    const server = await startEmbedded({ dataDir: path.join(folder, 'first'), from: FROM });
    const url = server.url('postgres');
    await demoOn(url);
    const standby = await standbyOf(url, path.join(folder, 'second'), FROM);
    const [first, second] = [await connected(url), await connected(standby.url)];
    await first.query(`ALTER SYSTEM SET synchronous_standby_names = 'reading'`);
    await first.query(`ALTER SYSTEM SET synchronous_commit = 'remote_apply'`);
    await first.query('SELECT pg_reload_conf()');
    const taken = await reads(url, standby.url, [await processorOf(first), await processorOf(second)]);
    for (const which of ['one', 'two'] as const) {
      const median = (what: keyof Taken) =>
        quantile(
          taken.map((turn) => turn[which][what]),
          0.5,
        );
      const ratio = quantile(
        taken.map((turn) => turn[which].rate / turn.one.rate),
        0.5,
      );
      say({
        what: `${which} server${which === 'two' ? 's' : ''}`,
        'answers /s': median('rate'),
        'to one': ratio,
        'ms service': median('service'),
        'ms first': median('first'),
        'ms second': median('second'),
        'ms commit': null,
        late: null,
      });
    }
    await first.query('CREATE TABLE seen (id serial PRIMARY KEY)');
    for (const how of ['local', 'on', 'remote_apply'] as const) {
      const { ms, late } = await commits(first, second, how);
      say({
        what: `synchronous_commit ${how}`,
        'answers /s': null,
        'to one': null,
        'ms service': null,
        'ms first': null,
        'ms second': null,
        'ms commit': ms,
        late,
      });
    }
    await first.end();
    await second.end();
    await standby.stop();
    await server.stop();
    fs.rmSync(folder, { recursive: true });
  },
};
export default bench;

// How much the service answers beside a bare Fastify handler that runs the same statements and answers the same bytes: the routes that
// people wait for, and bookings. Each runs in a process of its own, they take turns. BENCH_PROFILE=folder keeps a profile of the service.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { TOGETHER, quantile, type Bench, type Row } from './bench.ts';
import { asksOf } from './http/asks.ts';
import { keyOf, type Recorded } from './http/bare.ts';
import { bookingsOf, type Booking } from './http/bookings.ts';
import { builtProgram } from './http/built.ts';
import { withCopies, type Copies } from './http/copies.ts';
import { again, each, load, requestOf } from './http/load.ts';
import { apiOver } from './http/parts.ts';
import { headersOf, recordedOf, signedInOver, type Ask } from './http/recording.ts';
import { startUnder, type Under } from './http/under.ts';
import { YEARS_NOW } from './years/databases.ts';

const CONNECTIONS = 6;
const TURNS = 7;
const SECONDS = 0.6;
/** Requests and seconds at most before anything is measured: programs are compiled, and statements planned on each connection, as they run. */
const WARM = { requests: 150, seconds: 6 };
const POOL = CONNECTIONS;
/** A machine that does much else gets fewer turns, so that all of it ends within some two minutes. */
const FEWEST_TURNS = 3;
const ENOUGH_MS = TOGETHER ? 40_000 : 80_000;
const began = performance.now();

type Route = { name: string; ask: Ask; recorded: Recorded };
type Pair = { ours: Under; bare: Under };
/** Of one turn: answers a second, processor milliseconds of the process and of the database for each answer. */
type Turn = { rate: number; cpu: number; database: number | null };

const known = ({ ask: { method, path: address, key }, recorded }: { ask: Ask; recorded: Recorded }) =>
  [keyOf(method, address, key), recorded] as const;
const requestFor = (ask: Ask): Buffer => requestOf(ask.method, ask.path, headersOf(ask), ask.body);

async function routesOf(url: string): Promise<Route[]> {
  const api = await apiOver(url, { began: YEARS_NOW.getTime(), connections: POOL });
  const routes: Route[] = [];
  for (const [name, ask] of await asksOf(url, api.app))
    routes.push({ name, ask, recorded: await recordedOf(api.app, new URL(url).pathname.slice(1), ask) });
  await api.close();
  return routes;
}

async function turn(under: Under, copies: Copies, connections: number, next: () => Buffer | null): Promise<Turn> {
  const [before, databaseBefore] = [await under.used(), copies.cpu()];
  const { answered, seconds } = await load(under.port, connections, next);
  const [after, databaseAfter] = [await under.used(), copies.cpu()];
  return {
    rate: answered / seconds,
    cpu: (after.cpu - before.cpu) / answered,
    database: databaseBefore === null || databaseAfter === null ? null : (databaseAfter - databaseBefore) / answered,
  };
}

/** Ours and bare turn about; the ratio is of the two of one turn, because what else the machine does comes and goes. */
async function compare(name: string, turns: number, take: (side: keyof Pair, n: number) => Promise<Turn>, about: Row): Promise<Row> {
  const [ours, bare]: [Turn[], Turn[]] = [[], []];
  for (let n = 0; n < turns && (n < FEWEST_TURNS || performance.now() - began < ENOUGH_MS); n += 1)
    for (const side of n % 2 === 0 ? (['ours', 'bare'] as const) : (['bare', 'ours'] as const))
      (side === 'ours' ? ours : bare).push(await take(side, n));
  const ratios = ours.map(({ rate }, n) => rate / bare[n]!.rate);
  const median = (of: readonly Turn[], what: keyof Turn) =>
    of.some((one) => one[what] === null)
      ? null
      : quantile(
          of.map((one) => one[what]!),
          0.5,
        );
  return {
    name,
    'ours /s': median(ours, 'rate'),
    'bare /s': median(bare, 'rate'),
    ratio: quantile(ratios, 0.5),
    'ratio from to': `${Math.min(...ratios).toFixed(2)} ${Math.max(...ratios).toFixed(2)}`,
    ...about,
    'ms cpu ours': median(ours, 'cpu'),
    'ms cpu bare': median(bare, 'cpu'),
    'ms db ours': median(ours, 'database'),
    'ms db bare': median(bare, 'database'),
  };
}

type Over = { program: string; urls: Record<keyof Pair, string>; recorded: Record<string, Recorded>; connections: number };

async function pairOver({ program, urls, recorded, connections }: Over): Promise<Pair & { stop: () => Promise<void> }> {
  const file = path.join(os.tmpdir(), `backsight-recorded-${process.pid}.json`);
  fs.writeFileSync(file, JSON.stringify(recorded));
  const order = { began: YEARS_NOW.getTime(), connections };
  const folder = process.env['BENCH_PROFILE'];
  const ours = await startUnder(
    program,
    { ...order, url: urls.ours, recorded: null },
    folder ? ['--cpu-prof', `--cpu-prof-dir=${folder}`] : [],
  );
  const bare = await startUnder(program, { ...order, url: urls.bare, recorded: file });
  fs.rmSync(file);
  return { ours, bare, stop: async () => void (await Promise.all([ours.stop(), bare.stop()])) };
}

async function reads(copies: Copies, program: string, say: (row: Row) => void): Promise<void> {
  const url = await copies.copy('http_reads');
  const routes = await routesOf(url);
  const pair = await pairOver({
    program,
    urls: { ours: url, bare: url },
    recorded: Object.fromEntries(routes.map(known)),
    connections: POOL,
  });
  for (const { name, ask, recorded } of routes) {
    const request = requestFor(ask);
    for (const side of ['ours', 'bare'] as const) await load(pair[side].port, CONNECTIONS, again(request, WARM.seconds, WARM.requests));
    const about = { statements: recorded.reads.length, kB: JSON.stringify(recorded.reply).length / 1000 };
    say(await compare(name, TURNS, (side) => turn(pair[side], copies, CONNECTIONS, again(request, SECONDS)), about));
  }
  await pair.stop();
}

const WRITERS = 4;
const EACH_TURN = 12;
const BOOK_TURNS = 5;
const WARM_TURNS = TOGETHER ? 4 : 10;

/** Held and confirmed in two copies of one database, each booking once in each; the first turns only warm up. */
async function bookings(copies: Copies, program: string, say: (row: Row) => void): Promise<void> {
  const recorded = await copies.copy('http_recorded');
  const cookie = await signedInOver(recorded, 'dolores');
  const urls = { ours: await copies.copy('http_ours', 'http_recorded'), bare: await copies.copy('http_bare', 'http_recorded') };
  const made = await bookingsOf(recorded, cookie, (BOOK_TURNS + WARM_TURNS) * EACH_TURN);
  const pair = await pairOver({
    program,
    urls,
    recorded: Object.fromEntries(made.flatMap(({ hold, confirm }) => [hold, confirm].map(known))),
    connections: WRITERS,
  });
  const step = (what: keyof Booking) => (side: keyof Pair, n: number) =>
    turn(pair[side], copies, WRITERS, each(made.slice(n * EACH_TURN, (n + 1) * EACH_TURN).map((one) => requestFor(one[what].ask))));
  for (const what of ['hold', 'confirm'] as const) {
    const take = step(what);
    for (const side of ['ours', 'bare'] as const) for (let n = 0; n < WARM_TURNS; n += 1) await take(side, n);
    const { writes, reply } = made[0]![what].recorded;
    const about = { statements: writes.length, kB: JSON.stringify(reply).length / 1000 };
    say(await compare(`booking: ${what}`, BOOK_TURNS, (side, n) => take(side, n + WARM_TURNS), about));
  }
  await pair.stop();
}

const bench: Bench = {
  about: `answers a second of the service beside a bare handler with the same statements and bytes, ${CONNECTIONS} requests under way (bookings ${WRITERS}); processor ms of process and database for each answer`,
  run: async (say) => {
    const copies = await withCopies();
    try {
      const program = await builtProgram('program');
      await reads(copies, program, say);
      await bookings(copies, program, say);
    } finally {
      await copies.stop();
    }
  },
};
export default bench;

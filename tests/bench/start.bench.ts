// How long the first and the second start take, and what the service then holds of memory: at rest, in a run of requests and after it.
// Beside it, in the same run, a bare process with Fastify: what Node and the web server alone take on this machine. Linux only.
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { DEMO_PASSWORD, emailOf, PEOPLE } from '../../prisma/seed/demo/people.ts';
import { dataFolder, freePort, startProgram, type Program } from '../support/program.ts';
import { TOGETHER, quantile, type Bench, type Row } from './bench.ts';
import { cpuOf, residentOf } from './processes.ts';

const ROOT = path.resolve(import.meta.dirname, '../..');
/** What an installation lacks that was never started. */
const MADE = ['packages/store/src/generated', 'apps/api/dist', 'apps/web/dist'].map((folder) => path.join(ROOT, folder, '.stamp'));
const SECOND_STARTS = TOGETHER ? 1 : 3;
const BARE_STARTS = 3;
const REST_S = TOGETHER ? 12 : 60;
const LOAD_S = TOGETHER ? 6 : 20;
const AT_ONCE = 8;
const MB = 1e6;
const MOST = { first: 30_000, second: 3_000, rest: 250, load: 400 };
const LOADED = 'the past of the demo firm is loaded';

const BARE = `import Fastify from 'fastify'; const app = Fastify(); app.get('/', async () => ({ ok: true }));
await app.listen({ port: 0, host: '127.0.0.1' }); console.log('ready'); setInterval(() => {}, 1000);`;

/** Wall and processor ms until ready; the second counts everything that was started, the database too. */
type Start = { wall: number; cpu: number };

async function bareStart(): Promise<Start & { mb: number }> {
  const began = performance.now();
  const child = spawn(process.execPath, ['--input-type=module', '-e', BARE], { cwd: ROOT, stdio: ['ignore', 'pipe', 'inherit'] });
  await new Promise((resolve) => child.stdout.once('data', resolve));
  const start = { wall: performance.now() - began, cpu: cpuOf(child.pid!) };
  await sleep(2_000);
  const mb = residentOf(child.pid!) / MB;
  child.kill();
  return { ...start, mb };
}

async function started(env: Record<string, string>): Promise<Start & { program: Program }> {
  const began = performance.now();
  const program = startProgram(env);
  await program.ready;
  return { wall: performance.now() - began, cpu: cpuOf(program.process.pid!), program };
}

/** The database's own processes, which hold memory of their own beside the service. */
const databaseMb = (folder: string): number => {
  const postmaster = Number(fs.readFileSync(path.join(folder, 'pg18/postmaster.pid'), 'utf8').split('\n')[0]);
  return residentOf(postmaster, true) / MB;
};

/** Reads what people open all day, `AT_ONCE` requests at a time. Answers the most memory seen meanwhile, in MB, and how many were answered. */
async function load(url: string, pid: number): Promise<{ most: number; answered: number }> {
  const sent = { method: 'POST', headers: { 'content-type': 'application/json' } };
  const signedIn = await fetch(`${url}/api/session`, {
    ...sent,
    body: JSON.stringify({ email: emailOf(PEOPLE.office), password: DEMO_PASSWORD }),
  });
  const cookie = signedIn.headers.getSetCookie()[0]!.split(';')[0]!;
  const paths = [
    '/api/home',
    '/api/week?from=' + new Date().toISOString().slice(0, 10),
    '/api/jobs',
    '/api/callbacks',
    '/api/find?q=alder',
    '/',
  ];
  const until = performance.now() + LOAD_S * 1_000;
  let [most, answered] = [0, 0];
  const one = async (nth: number): Promise<void> => {
    for (let at = nth; performance.now() < until; at += 1, answered += 1) {
      await (await fetch(url + paths[at % paths.length]!, { headers: { cookie } })).arrayBuffer();
      most = Math.max(most, residentOf(pid) / MB);
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, (_, nth) => one(nth)));
  return { most, answered };
}

const median = (numbers: readonly number[]): number => quantile(numbers, 0.5);

type Bare = { wall: number; cpu: number; mb: number };
type Tell = (what: string, is: { wall?: number; cpu?: number; mb?: number }, most: number | null) => void;

const tellerOf =
  (bare: Bare, say: (row: Row) => void): Tell =>
  (what, is, most) => {
    const held = is.wall ?? is.mb!;
    say({
      what: what.padEnd(40),
      ms: is.wall ?? null,
      'processor ms': is.cpu ?? null,
      MB: is.mb ?? null,
      'times bare': is.wall === undefined ? held / bare.mb : is.cpu! / bare.cpu,
      most,
      verdict: most === null ? '' : held <= most ? 'within' : 'OVER',
    });
  };

async function bareOnes(): Promise<Bare> {
  const bare: Bare[] = [];
  for (let n = 0; n < BARE_STARTS; n += 1) bare.push(await bareStart());
  const of = (part: keyof Bare): number => median(bare.map((one) => one[part]));
  return { wall: of('wall'), cpu: of('cpu'), mb: of('mb') };
}

async function firstStart(env: Record<string, string>, tell: Tell): Promise<void> {
  for (const stamp of MADE) fs.rmSync(stamp, { force: true });
  const { program, ...first } = await started(env);
  tell('first start, nothing generated or built', first, MOST.first);
  const began = performance.now();
  while (!program.said().includes(LOADED)) await sleep(200);
  tell('then: until the past is there', { wall: performance.now() - began, cpu: cpuOf(program.process.pid!) - first.cpu }, null);
  await program.stop();
}

/** The last one still runs. */
async function secondStarts(env: Record<string, string>, tell: Tell): Promise<Program> {
  const starts: (Start & { program: Program })[] = [];
  for (let n = 0; n < SECOND_STARTS; n += 1) {
    await starts.at(-1)?.program.stop();
    starts.push(await started(env));
  }
  const of = (part: keyof Start): number => median(starts.map((one) => one[part]));
  tell(`second start, median of ${SECOND_STARTS}`, { wall: of('wall'), cpu: of('cpu') }, MOST.second);
  return starts.at(-1)!.program;
}

async function memory(url: string, folder: string, pid: number, tell: Tell): Promise<void> {
  await sleep(REST_S * 1_000);
  tell(`service at rest, after ${REST_S} s`, { mb: residentOf(pid) / MB }, MOST.rest);
  const { most, answered } = await load(url, pid);
  tell(`service, most during ${answered} requests`, { mb: most }, MOST.load);
  tell('database beside it', { mb: databaseMb(folder) }, null);
  await sleep(REST_S * 1_000);
  tell(`service, ${REST_S} s after them`, { mb: residentOf(pid) / MB }, null);
}

async function measure(folder: string, say: (row: Row) => void): Promise<void> {
  const bare = await bareOnes();
  const tell = tellerOf(bare, say);
  tell('bare Fastify: start', { wall: bare.wall, cpu: bare.cpu }, null);
  tell('bare Fastify: at rest', { mb: bare.mb }, null);
  const env = { DATA_DIR: folder, PORT: String(await freePort()), DEMO: '1' };
  await firstStart(env, tell);
  const program = await secondStarts(env, tell);
  try {
    await memory(`http://127.0.0.1:${env.PORT}`, folder, program.process.pid!, tell);
  } finally {
    await program.stop();
  }
}

const bench: Bench = {
  about:
    'ms from the command to "ready" and processor time of all that is started, MB of memory held (resident; of the database its own share); beside a bare Fastify of the same run',
  run: async (say) => {
    const folder = dataFolder();
    try {
      await measure(folder, say);
    } finally {
      fs.rmSync(folder, { recursive: true, force: true });
    }
  },
};
export default bench;

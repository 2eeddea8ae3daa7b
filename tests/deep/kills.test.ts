// The service and its database are killed hard at random points while people work: what was acknowledged is there, once, and everything holds.
import { randomUUID } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { dataFolder, freePort, startProgram, type Program } from '../support/program.ts';

const KILLS = 8;
const WORKERS = 8;
/** The same kills again: HOSTILE_SEED. */
const SEED = Number(process.env.HOSTILE_SEED ?? Date.now() % 1_000_000);

const folder = dataFolder();
const env = { DATA_DIR: folder, DEMO: '0', SECOND_FACTOR: 'nobody' };
let program: Program;
afterAll(async () => {
  await program?.stop();
  fs.rmSync(folder, { recursive: true, force: true });
});

/** Numbers from 0 to 1 (mulberry32, from memory). */
function chance(seed: number): () => number {
  let a = seed;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}
const sleep = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
const databasePid = (): number => Number(fs.readFileSync(path.join(folder, 'pg18/postmaster.pid'), 'utf8').split('\n')[0]);

let base: string;
let cookie = '';
async function start(port: number): Promise<void> {
  program = startProgram({ ...env, PORT: String(port) });
  await program.ready;
}
const post = (at: string, body: unknown, key: string = randomUUID()) =>
  fetch(`${base}${at}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', 'idempotency-key': key, cookie },
    body: JSON.stringify(body),
    signal: AbortSignal.timeout(20_000),
  });

const OFFICE = randomUUID();
async function setUp(): Promise<void> {
  const code = /with this code: (\S+)/.exec(program.said())![1]!;
  const weekday = [480, 1020];
  const hours = { 1: weekday, 2: weekday, 3: weekday, 4: weekday, 5: weekday, 6: null, 7: null };
  const firm = {
    name: 'Heron Inspections',
    phone: '920-555-0100',
    email: 'office@heron.example',
    address: '2 Pier Road, Birchmere',
    zone: 'America/Chicago',
  };
  const office = {
    id: OFFICE,
    name: 'Birchmere',
    jurisdiction: 'US-WI',
    address: '2 Pier Road, Birchmere',
    lat: 44.03,
    lon: -88.54,
    hours,
  };
  const owner = {
    id: randomUUID(),
    name: 'Oda Owner',
    email: 'oda@heron.example',
    phone: '920-555-0102',
    password: 'a long test password',
  };
  const made = await post('/api/set-up', { code, firm: { ...firm, onCallPhone: '920-555-0101' }, office, owner, beginWithExamples: true });
  expect(made.status, await made.text()).toBeLessThan(300);
  const signedIn = await post('/api/session', { email: owner.email, password: owner.password });
  cookie = signedIn.headers.getSetCookie()[0]!.split(';')[0]!;
}

const person = (id: string, n: number) => ({
  ...{ id, officeId: OFFICE, startedOn: '2026-05-01', name: `Person ${n}`, email: `person${n}@heron.example`, phone: '920-555-0177' },
  ...{ trainee: false, mayLead: true, homeAddress: '5 Shore Road', homeLat: 44.11, homeLon: -88.71, roles: ['inspector'] },
});

it(`${KILLS} kills while ${WORKERS} people work, seed ${SEED}`, async () => {
  const port = await freePort();
  base = `http://127.0.0.1:${port}`;
  await start(port);
  await setUp();
  const acknowledged: string[] = [];
  const told = { requests: 0, unanswered: 0, again: 0 };
  let [n, over] = [0, false];
  const work = async () => {
    while (!over) {
      const [id, key, at] = [randomUUID(), randomUUID(), ++n];
      // Whoever gets no answer sends the same again, under the same key, until there is one.
      for (let tries = 0; ; tries++) {
        told.requests += 1;
        const reply = await post('/api/people', person(id, at), key).catch(() => null);
        if (reply?.status === 201) {
          acknowledged.push(id);
          if (tries > 0) told.again += 1;
          break;
        }
        if (reply) expect(reply.status, await reply.text()).toBeGreaterThanOrEqual(500);
        told.unanswered += 1;
        await sleep(100);
      }
    }
  };
  const workers = Array.from({ length: WORKERS }, work);
  const random = chance(SEED);
  for (let kill = 0; kill < KILLS; kill++) {
    await sleep(300 + random() * 2_000);
    const which = random();
    if (which < 0.4) process.kill(databasePid(), 'SIGKILL');
    if (which > 0.2) program.process.kill('SIGKILL');
    await program.ended; // the service ends with its database, and says so
    if (which < 0.2) expect(program.said()).toContain('The built-in database has ended by itself.');
    await start(port);
  }
  await sleep(1_000);
  over = true;
  await Promise.all(workers);
  const there = (await (await fetch(`${base}/api/people`, { headers: { cookie } })).json()) as { id: string; email: string }[];
  const ids = there.map(({ id }) => id);
  console.log(
    `${told.requests} requests, ${KILLS} kills, ${told.unanswered} without an answer, ${told.again} sent again and then acknowledged, ${acknowledged.length} acknowledged, lost: ${acknowledged.filter((id) => !ids.includes(id)).length}`,
  );
  expect(
    acknowledged.filter((id) => !ids.includes(id)),
    'acknowledged and not there',
  ).toEqual([]);
  expect(new Set(there.map(({ email }) => email)).size, 'nobody twice').toBe(there.length);
  expect(there.length).toBe(acknowledged.length + 1);
  const verifying = startProgram(env, ['verify']);
  expect([await verifying.ended, verifying.said()]).toEqual([0, expect.stringContaining('Everything holds.')]);
}, 300_000);

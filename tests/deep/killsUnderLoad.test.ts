// While everybody works, service and database are killed hard, and connections are cut, stalled, delayed and robbed of their answers, all at
// random points: what was acknowledged is there, once, and everything holds.
import path from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { chance, clientsOf, SEED, sleep } from '../support/faults/clients.ts';
import { prepare, startLoad, type Prepared } from '../support/faults/load.ts';
import { startRelay, type Relay } from '../support/faults/relay.ts';
import { halvesIn, holdMail, holdTruths } from '../support/faults/truths.ts';
import { faultWorld, type RunningService, type World } from '../support/faults/world.ts';
import { smtpServer } from '../support/smtp.ts';

const TIMES = 10;
const LONGEST_MS = 60_000;
const PEOPLE = 8;
const { arrived, state } = smtpServer({ forgets: false });
let world: World;
let running: RunningService;
let prepared: Prepared;
/** Between the people and the service. */
let front: Relay;
const clients = clientsOf(() => `http://127.0.0.1:${front.port}`);
const env = () => ({ SMTP_URL: `smtp://127.0.0.1:${state.port}` });

beforeAll(async () => {
  world = await faultWorld();
  running = await world.start(env());
  front = await startRelay(running.port);
  prepared = await prepare(world.service, clients);
}, 400_000);
afterAll(async () => {
  await front?.close();
  await world?.close();
});

/** The service goes hard and is started again on its address, as whoever keeps services running does. */
async function killService(): Promise<void> {
  running.program.process.kill('SIGKILL');
  await running.program.ended;
  running = await world.start(env(), { port: running.port });
}

/** The database goes hard; the service stays, says that it is away, and goes on when it is back. */
async function killDatabase(): Promise<void> {
  world.server.kill();
  await expect.poll(async () => (await fetch(`${running.base}/api/health`)).status).toBe(503);
  await world.server.start();
  world.reconnect();
}

/** Breaks one thing after the other while everybody works, at most for a minute (a busy machine takes its time), then looks at what is true. */
async function breakAll(fault: string, breaks: Record<string, () => Promise<unknown>>): Promise<void> {
  const before = structuredClone(clients.tally);
  const load = startLoad(clients, prepared, { many: PEOPLE, seed: SEED });
  const random = chance(SEED);
  const done: Record<string, number> = {};
  const begun = performance.now();
  for (let n = 0; n < TIMES && performance.now() - begun < LONGEST_MS; n++) {
    await load.more(Math.ceil(random() * 12));
    await sleep(random() * 400);
    const which = Object.keys(breaks)[Math.floor(random() * Object.keys(breaks).length)]!;
    done[which] = (done[which] ?? 0) + 1;
    await breaks[which]!();
  }
  await load.more(10);
  await load.stop();
  const folder = path.join(world.folder, 'data');
  const truths = await holdTruths({ service: world.service, folder, told: load.told });
  const mail = await holdMail(world.service, arrived);
  const { requests, unanswered, again } = clients.tally;
  const told = Object.fromEntries(Object.entries(load.told).map(([kind, ids]) => [kind, ids.length]));
  const asked = { requests: requests - before.requests, unanswered: unanswered - before.unanswered, again: again - before.again };
  const said = {
    ...truths,
    told,
    refused: load.refused,
    ...mail,
    halves: halvesIn(folder),
    seconds: Math.round((performance.now() - begun) / 1000),
  };
  console.log(JSON.stringify({ fault, seed: SEED, ...asked, outages: clients.tally.outages, done, ...said }));
  expect(truths.acknowledged).toBeGreaterThan(20);
}

it(
  'kills of service and database',
  () => breakAll('kill -9', { service: killService, database: killDatabase, serviceAgain: killService }),
  480_000,
);

it('connections cut, silent, slow, and answers lost', async () => {
  const whole = async (ms: number) => {
    await sleep(ms);
    world.relay.pass();
  };
  await breakAll('connections', {
    'cut of the database': async () => world.relay.cut(),
    'silence of the database': () => (world.relay.stall(), whole(1_500)),
    'slow database': () => (world.relay.delay(20), whole(1_000)),
    'cut of the clients': async () => front.cut(),
    'answers lost': async () => front.loseAnswers(5),
  });
  console.log(JSON.stringify({ database: world.relay.done, clients: front.done }));
}, 480_000);

// A disk without a byte left, for photos and mail and for the built-in database: it is said, nothing is half kept, and it goes on once there is room.
import { randomUUID } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { MemberRecord } from '@backsight/contract/sitework';
import { answer, start } from '../http/sitework/support.ts';
import { clientsOf, sleep } from '../support/faults/clients.ts';
import { smallDisk, type SmallDisk } from '../support/faults/smallDisk.ts';
import { faultWorld, type World } from '../support/faults/world.ts';
import type { TestApi } from '../support/http.ts';
import { picture } from '../support/pictures.ts';
import { dataFolder, freePort, startProgram, type Program } from '../support/program.ts';
import { siteJob } from '../support/siteJob.ts';

const open: (() => unknown)[] = [];
afterAll(async () => {
  for (const close of open.toReversed()) await close();
});
const mayNot = (): void => console.log('not tried: this user may make no disk of its own');

async function worldOn(disk: SmallDisk, folder: string) {
  const world: World = await faultWorld();
  open.push(world.close);
  const running = await world.start({ DATA_DIR: folder }, { enter: disk.enter });
  return { world, clients: clientsOf(() => running.base) };
}

describe('photos and mail', () => {
  it('without room: the photo is refused with 507, nothing half of it stays, and it is taken once there is room', async () => {
    const folder = dataFolder();
    const disk = await smallDisk(folder, 8);
    if (!disk) return mayNot();
    open.push(() => fs.rmSync(folder, { recursive: true }), disk.close);
    const { world, clients } = await worldOn(disk, folder);
    const { visitId } = await siteJob(world.service);
    const id = await start({ ...world.service, send: clients.send } as unknown as TestApi, visitId);
    const record = (await clients.send('anna', 'GET', `/api/records/${id}`)).body as MemberRecord;
    const photo = randomUUID();
    const entry = answer(
      record.steps.find((s) => !s.partnerCheck)!,
      'anna',
      { photos: [photo], observedAt: new Date().toISOString() },
    );
    const at = `/api/records/${id}`;
    expect((await clients.send('anna', 'POST', `${at}/entries`, { body: { entries: [entry] } })).body.results).toMatchObject([
      { stored: true },
    ]);
    const files = () => (fs.existsSync(path.join(disk.seen, 'files')) ? fs.readdirSync(path.join(disk.seen, 'files')) : []);
    const original = (await picture('jpeg', 7, 900, 700)).toString('base64');
    const body = { id: photo, entryId: entry.id, original, takenAt: new Date().toISOString(), name: 'IMG_1.jpg' };
    const key = randomUUID();
    disk.fill();
    for (let n = 0; n < 3; n++) {
      const full = await clients.once('anna', 'POST', `${at}/photos`, { body, key });
      expect(full).toMatchObject({ status: 507, body: { code: 'disk-full', title: expect.stringContaining('Nothing was saved') } });
      expect(files()).toEqual([]);
    }
    expect(await world.service.database.read.rows('SELECT FROM site_photo')).toEqual([]);
    await clients.send('office', 'POST', '/api/mail/test', { body: {} });
    const mail = async () =>
      (
        await world.service.database.read.rows<{ state: string; error: string | null }>(
          `SELECT state, last_error AS error FROM outgoing_mail WHERE kind = 'test'`,
        )
      )[0]!;
    await expect.poll(async () => (await mail()).error).toMatch(/ENOSPC|no space/i);
    expect((await mail()).state).toBe('waiting');
    const letters = () => (fs.existsSync(path.join(disk.seen, 'mail')) ? fs.readdirSync(path.join(disk.seen, 'mail')) : []);
    expect(letters()).toEqual([]);
    disk.free();
    expect((await clients.send('anna', 'POST', `${at}/photos`, { body, key })).status).toBe(201);
    expect(files()).toHaveLength(2);
    expect((await clients.send('anna', 'GET', `${at}/photos/${photo}`)).status).toBe(200);
    await world.service.database.read.rows(`UPDATE outgoing_mail SET next_try_at = now() RETURNING 1`);
    await expect.poll(async () => (await mail()).state).toBe('kept');
    expect(letters()).toHaveLength(1);
    console.log(JSON.stringify({ fault: 'disk full for photos and mail', ...clients.tally, lost: 0, halves: 0 }));
  }, 400_000);
});

const person = (id: string, officeId: string, n: number) => ({
  ...{ id, officeId, startedOn: '2026-05-01', name: `Person ${n}`, email: `person${n}@heron.example`, phone: '920-555-0177' },
  ...{ trainee: false, mayLead: true, homeAddress: '5 Shore Road', homeLat: 44.11, homeLon: -88.71, roles: ['inspector'] },
});

describe('the built-in database', () => {
  it('without room says so, or ends and says so; once there is room it has all that was acknowledged', async () => {
    const folder = dataFolder();
    const disk = process.getuid?.() === 0 ? await smallDisk(folder, 160) : null;
    if (!disk) return mayNot();
    open.push(() => fs.rmSync(folder, { recursive: true }), disk.close);
    const port = await freePort();
    const base = `http://127.0.0.1:${port}`;
    const run = (): Program =>
      startProgram({ DATA_DIR: folder, PORT: String(port), DEMO: '0', SECOND_FACTOR: 'nobody', LOG_LEVEL: 'fatal' }, [], undefined, {
        script: 'container.mjs',
        enter: disk.enter,
      });
    let program = run();
    open.push(() => void program.process.kill('SIGKILL'));
    await program.ready;
    const { cookie, officeId } = await setUp(base, program);
    const acknowledged: string[] = [];
    const add = async (n: number): Promise<Response | null> => {
      const id = randomUUID();
      const reply = await postPerson(base, cookie, person(id, officeId, n));
      if (reply?.status === 201) acknowledged.push(id);
      return reply;
    };
    for (let n = 0; n < 10; n++) expect((await add(n))?.status).toBe(201);
    disk.fill();
    let [n, refused] = [10, null as Response | null];
    for (let more = true; more && n < 700; n++) {
      refused = await add(n);
      more = refused?.status === 201;
      if (more) disk.fill();
    }
    const before = acknowledged.length;
    const body = (await refused?.json().catch(() => null)) as { code?: string } | null;
    expect(['disk-full', 'database-away', undefined]).toContain(body?.code);
    await sleep(1_500);
    const ended = program.process.exitCode !== null;
    if (ended) expect(program.said()).toContain('The built-in database has ended by itself.');
    disk.free();
    if (ended) {
      program = run();
      await program.ready;
    }
    await expect.poll(async () => (await add(n++))?.status).toBe(201);
    const there = (await (await fetch(`${base}/api/people`, { headers: { cookie } })).json()) as { id: string }[];
    const ids = new Set(there.map(({ id }) => id));
    const lost = acknowledged.filter((id) => !ids.has(id));
    console.log(
      JSON.stringify({ fault: 'disk full for the database', acknowledged: before, answer: body?.code ?? 'none', ended, lost: lost.length }),
    );
    expect(lost).toEqual([]);
    await program.stop();
    const verifying = startProgram({ DATA_DIR: folder, DEMO: '0' }, ['verify'], undefined, { script: 'container.mjs', enter: disk.enter });
    expect([await verifying.ended, verifying.said()]).toEqual([0, expect.stringContaining('Everything holds.')]);
  }, 400_000);
});

const postPerson = (base: string, cookie: string, body: unknown): Promise<Response | null> =>
  fetch(`${base}/api/people`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', 'idempotency-key': randomUUID(), cookie },
    body: JSON.stringify(body),
    signal: AbortSignal.timeout(20_000),
  }).catch(() => null);

/** The first owner of a new firm, signed in. */
async function setUp(base: string, program: Program): Promise<{ cookie: string; officeId: string }> {
  const code = /with this code: (\S+)/.exec(program.said())![1]!;
  const day = [480, 1020];
  const officeId = randomUUID();
  const address = '2 Pier Road, Birchmere';
  const firm = { name: 'Heron Inspections', phone: '920-555-0100', email: 'office@heron.example', address, zone: 'America/Chicago' };
  const office = { id: officeId, name: 'Birchmere', jurisdiction: 'US-WI', address, lat: 44.03, lon: -88.54 };
  const hours = { 1: day, 2: day, 3: day, 4: day, 5: day, 6: null, 7: null };
  const owner = {
    id: randomUUID(),
    name: 'Oda Owner',
    email: 'oda@heron.example',
    phone: '920-555-0102',
    password: 'a long test password',
  };
  const post = (at: string, body: unknown) =>
    fetch(`${base}${at}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', 'idempotency-key': randomUUID() },
      body: JSON.stringify(body),
    });
  const whole = { code, firm: { ...firm, onCallPhone: '920-555-0101' }, office: { ...office, hours }, owner, beginWithExamples: true };
  const made = await post('/api/set-up', whole);
  expect(made.status, await made.text()).toBeLessThan(300);
  const signedIn = await post('/api/session', { email: owner.email, password: owner.password });
  return { officeId, cookie: signedIn.headers.getSetCookie()[0]!.split(';')[0]! };
}

// The database goes away, falls silent or comes back, and disks are full: whoever asks is told so, nothing is half kept, and it goes on afterwards.
import fs from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openDatabase, type Database } from '@backsight/store/database';
import { outageOf } from '@backsight/store/outage';
import { clearHalfWritten, storeFile } from '@backsight/store/sitework/files';
import { noteFile } from '@backsight/store/sitework/report';
import { removeUnnamedFiles } from '@backsight/store/sitework/unnamedFiles';
import { buildApp } from '../../apps/api/src/app.ts';
import { testService } from '../support/database.ts';
import { startRelay, type Relay } from '../support/faults/relay.ts';
import { freePort } from '../support/program.ts';
import { servicesOf } from '../support/services.ts';

const service = testService();
let relay: Relay;
let database: Database;
const SOON = { statement: 2_000, answer: 1_000 };

beforeAll(async () => {
  const url = new URL(service.url);
  relay = await startRelay(Number(url.port || 5432));
  url.port = String(relay.port);
  database = await openDatabase(url.href, { size: 3, patience: SOON });
});
afterAll(async () => {
  relay.pass();
  await database.close();
  await relay.close();
});

const ask = () => database.read.rows<{ one: number }>('SELECT 1 AS one');
const inside = (seconds?: number) => database.transaction((tx) => tx.rows<{ one: number }>('SELECT 1 AS one'), seconds);
const failure = async (work: Promise<unknown>): Promise<unknown> =>
  work.then(
    () => null,
    (error: unknown) => outageOf(error),
  );

describe('a connection to the database', () => {
  it('that breaks while something is asked is told as an outage; the next question gets a new one', async () => {
    await Promise.all([ask(), inside()]);
    const slow = database.read.rows('SELECT pg_sleep(20)');
    const within = database.transaction((tx) => tx.rows('SELECT pg_sleep(20)'));
    await new Promise((resolve) => setTimeout(resolve, 200));
    expect(relay.cut()).toBeGreaterThan(0);
    expect(await Promise.all([failure(slow), failure(within)])).toEqual(['database', 'database']);
    expect([await ask(), await inside()]).toEqual([[{ one: 1 }], [{ one: 1 }]]);
  });
  it('that falls silent is given up, and leaves the pool whole', async () => {
    await Promise.all([ask(), ask(), inside()]);
    relay.stall();
    const before = performance.now();
    expect(await Promise.all([failure(ask()), failure(inside()), failure(ask())])).toEqual(['database', 'database', 'database']);
    expect(performance.now() - before).toBeLessThan(20_000);
    relay.pass();
    await expect.poll(async () => failure(Promise.all([ask(), ask(), inside(), inside(), inside()]))).toBe(null);
    expect(database.connections().waiting).toBe(0);
  });
  it('that is slow is waited for, and a lost answer leaves nothing half done', async () => {
    relay.delay(50);
    expect(await inside()).toEqual([{ one: 1 }]);
    relay.delay(0);
    await inside();
    relay.loseAnswers(1);
    expect(await failure(inside())).toBe('database');
    expect(await inside()).toEqual([{ one: 1 }]);
  });
  it('for work of the night waits for as long as it takes', async () => {
    expect(await failure(database.transaction((tx) => tx.rows('SELECT pg_sleep(1.5)')))).toBe('database');
    expect(await failure(database.transaction((tx) => tx.rows('SELECT pg_sleep(1.5)'), 60))).toBe(null);
  });
});

describe('while the database is away', () => {
  it('health is 503, whoever asks or sends is told to do so again, a client on a page too; and it goes on when it is back', async () => {
    const services = servicesOf({ ...service, database });
    const app = await buildApp(services);
    const port = Number(new URL(service.url).port || 5432);
    const health = async () => (await app.inject({ url: '/api/health' })).statusCode;
    const enter = () =>
      app.inject({ method: 'POST', url: '/api/session', payload: { email: 'a@test.example', password: 'not it at all' } });
    expect([await health(), (await enter()).statusCode]).toEqual([200, 401]);
    relay.to(await freePort());
    relay.cut();
    expect(await health()).toBe(503);
    const sent = await enter();
    expect([sent.statusCode, sent.headers['retry-after'], sent.json().code]).toEqual([503, '5', 'database-away']);
    expect(sent.json().title).toContain('it is done once');
    const page = await app.inject({ url: `/client/${'a'.repeat(43)}` });
    expect([page.statusCode, page.headers['content-type'], page.body]).toEqual([
      503,
      'text/html; charset=utf-8',
      expect.stringContaining('Please try again in a moment'),
    ]);
    relay.to(port);
    expect([await health(), (await enter()).statusCode]).toEqual([200, 401]);
    await services.planner.close();
    await app.close();
  });
});

it.each([
  ['a statement that took too long', { code: 'P2010', meta: { driverAdapterError: { cause: { originalCode: '57014' } } } }, 'database'],
  ['a server that is starting', { code: '57P03' }, 'database'],
  ['a server whose disk is full', { code: '53100' }, 'disk'],
  ['a disk that is full', { code: 'ENOSPC' }, 'disk'],
  ['a limit of the size of files', { code: 'EFBIG' }, 'disk'],
  ['a rule of the database', { code: '23505' }, null],
  ['a mistake of our own', new TypeError('x is not a function'), null],
  ['nothing', null, null],
])('of %s is told as what it is', (_, error, outage) => expect(outageOf(error)).toBe(outage));

describe('a file', () => {
  it('that finds no room leaves nothing behind', async () => {
    const directory = await fs.mkdtemp(path.join(os.tmpdir(), 'backsight-full-'));
    await fs.mkdir(path.join(directory, 'files'));
    const full = Object.assign(new Error('no space left'), { code: 'ENOSPC' });
    const bytes = Buffer.alloc(1_000_000, 7);
    const { open } = fs;
    fs.open = (async (...given: Parameters<typeof open>) => {
      const file = await open(...given);
      if (String(given[0]).endsWith('.part'))
        file.writeFile = async () => {
          await file.write(bytes.subarray(0, 500_000));
          throw full;
        };
      return file;
    }) as typeof open;
    try {
      await expect(storeFile(directory, bytes)).rejects.toBe(full);
    } finally {
      fs.open = open;
    }
    expect(await fs.readdir(path.join(directory, 'files'))).toEqual([]);
    const sha256 = await storeFile(directory, bytes);
    expect(await fs.readdir(path.join(directory, 'files'))).toEqual([sha256]);
    await fs.rm(directory, { recursive: true });
  });
  it('that no row names is taken away after a week, and no other', async () => {
    const directory = await fs.mkdtemp(path.join(os.tmpdir(), 'backsight-unnamed-'));
    const [named, unnamed, again, young] = await Promise.all(
      ['named', 'unnamed', 'again', 'young'].map((word) => storeFile(directory, Buffer.from(`${word} of a week ago`))),
    );
    await service.database.transaction((tx) =>
      noteFile(tx, { sha256: named!, mediaType: 'text/plain', bytes: 20, name: 'named', at: service.clock.now }),
    );
    const now = new Date();
    for (const name of [named, unnamed, again])
      await fs.utimes(path.join(directory, 'files', name!), now, new Date(now.getTime() - 8 * 86_400_000));
    await storeFile(directory, Buffer.from('again of a week ago'));
    expect(await removeUnnamedFiles(service.database.read, directory, now)).toBe(1);
    expect((await fs.readdir(path.join(directory, 'files'))).toSorted()).toEqual([named!, again!, young!].toSorted());
    await fs.rm(directory, { recursive: true });
  });
  it('of which a killed service left half is cleared after an hour, and no other', async () => {
    const directory = await fs.mkdtemp(path.join(os.tmpdir(), 'backsight-halves-'));
    const sha256 = await storeFile(directory, Buffer.from('whole'));
    const [old, fresh] = ['0123456789ab', 'ba9876543210'].map((end) => path.join(directory, 'files', `${sha256}.${end}.part`));
    for (const half of [old!, fresh!]) await fs.writeFile(half, 'ha');
    const now = new Date();
    await fs.utimes(old!, now, new Date(now.getTime() - 3_700_000));
    expect(await clearHalfWritten(directory, now)).toBe(1);
    expect((await fs.readdir(path.join(directory, 'files'))).toSorted()).toEqual([sha256, path.basename(fresh!)].toSorted());
    await fs.rm(directory, { recursive: true });
  });
});

// A fresh database for one test file, cloned from the migrated template, and the service's parts over it.
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { afterAll, beforeAll, inject } from 'vitest';
import { openDatabase, type Database } from '@backsight/store/database';
import { createRunner, type Runner } from '@backsight/usecases/run';
import { uuidv7 } from '@backsight/usecases/ids';

export type TestService = {
  url: string;
  database: Database;
  runner: Runner;
  /** The clock of the service: set it to travel in time. */
  clock: { now: Date };
  newId: () => string;
  /** What the database holds from the beginning; a known firm is written once per run, and each file begins with a copy. */
  holds: Holding[];
};

/** Something that many test files begin with, by name: `write` fills a migrated database with it. */
export type Holding = { name: string; write: (database: Database) => Promise<void> };

/** The instant at which every test begins, unless it sets the clock: a Tuesday morning in Wisconsin, or another (FIRST_NOW). */
export const TEST_NOW = new Date(process.env.FIRST_NOW ?? '2026-05-12T15:00:00Z');

/** Makes the database before all tests of the file and drops it after them. */
export function testService(): TestService {
  const service = { clock: { now: TEST_NOW }, newId: () => uuidv7(service.clock.now), holds: [] as Holding[] } as TestService;
  let admin: pg.Client;
  const name = `t_${randomUUID().slice(0, 8)}`;
  beforeAll(async () => {
    admin = new pg.Client(urlOf('postgres'));
    await admin.connect();
    await clone(admin, name, await templateOf(admin, service.holds));
    service.url = urlOf(name);
    service.database = await openDatabase(service.url, { size: 10 });
    service.runner = createRunner({
      database: service.database,
      clock: () => service.clock.now,
      newId: service.newId,
      publicUrl: 'http://office.test',
    });
  });
  afterAll(async () => {
    await service.database?.close();
    await admin?.query(`DROP DATABASE ${name}`); // fails when a test left a connection open
    await admin?.end();
    Object.assign(service, { database: undefined, runner: undefined }); // the module of a test file lives as long as its process
  });
  return service;
}

const urlOf = (database: string): string => inject('server').replace('TEMPLATE_NAME', database);

const clone = (admin: pg.Client, name: string, template: string) =>
  admin.query(`CREATE DATABASE ${name} TEMPLATE ${template} STRATEGY file_copy`);

/** The template that holds all of these, in this order; who needs it first makes it, others wait. */
async function templateOf(admin: pg.Client, holds: readonly Holding[]): Promise<string> {
  const base = inject('template');
  if (holds.length === 0) return base;
  const name = [base, ...holds.map((one) => one.name)].join('_');
  const known = async () => (await admin.query('SELECT FROM pg_database WHERE datname = $1', [name])).rowCount === 1;
  if (await known()) return name;
  const before = await templateOf(admin, holds.slice(0, -1));
  await admin.query('SELECT pg_advisory_lock(hashtext($1))', [name]);
  try {
    if (!(await known())) await fill(admin, name, before, holds.at(-1)!);
  } finally {
    await admin.query('SELECT pg_advisory_unlock(hashtext($1))', [name]);
  }
  return name;
}

/** It has its name only when it is whole. */
async function fill(admin: pg.Client, name: string, before: string, { write }: Holding): Promise<void> {
  const making = `${name}_${randomUUID().slice(0, 8)}`;
  await clone(admin, making, before);
  const database = await openDatabase(urlOf(making), { size: 1 });
  try {
    await write(database);
  } finally {
    await database.close();
  }
  await admin.query(`ALTER DATABASE ${making} RENAME TO ${name}`);
}

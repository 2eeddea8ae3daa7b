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
};

/** The instant at which every test begins, unless it sets the clock: a Tuesday morning in Wisconsin. */
export const TEST_NOW = new Date('2026-05-12T15:00:00Z');

/** Makes the database before all tests of the file and drops it after them. */
export function testService(): TestService {
  const service = { clock: { now: TEST_NOW }, newId: () => uuidv7(service.clock.now) } as TestService;
  let admin: pg.Client;
  const name = `t_${randomUUID().slice(0, 8)}`;
  beforeAll(async () => {
    const server = inject('server');
    admin = new pg.Client(server.replace('TEMPLATE_NAME', 'postgres'));
    await admin.connect();
    await admin.query(`CREATE DATABASE ${name} TEMPLATE ${inject('template')} STRATEGY file_copy`);
    service.url = server.replace('TEMPLATE_NAME', name);
    service.database = await openDatabase(service.url, 10);
    service.runner = createRunner({ database: service.database, clock: () => service.clock.now, newId: service.newId });
  });
  afterAll(async () => {
    await service.database?.close();
    await admin?.query(`DROP DATABASE ${name}`); // fails when a test left a connection open
    await admin?.end();
  });
  return service;
}

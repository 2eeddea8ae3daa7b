// A database as an earlier release left it: brought up only to a migration, then further by the test.
import { randomUUID } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import pg from 'pg';
import { afterAll, beforeAll, inject } from 'vitest';
import { migrate } from '@backsight/store/migrate';
import { root } from '../../apps/api/scripts/schemaEngine.ts';

const ALL = path.join(root, 'prisma/migrations');

/** Makes it before the tests of a file and drops it after them. `until`: the first migration that it does not have yet. */
export function oldDatabase(until: string) {
  const before = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-migrations-'));
  const name = `t_${randomUUID().slice(0, 8)}`;
  const at = (database: string): string => inject('server').replace('TEMPLATE_NAME', database);
  let client: pg.Client;
  const asAdmin = async (sql: string): Promise<void> => {
    const admin = new pg.Client(at('postgres'));
    await admin.connect();
    await admin.query(sql);
    await admin.end();
  };
  beforeAll(async () => {
    for (const folder of fs.readdirSync(ALL))
      if (folder < until) fs.cpSync(path.join(ALL, folder), path.join(before, folder), { recursive: true });
    await asAdmin(`CREATE DATABASE ${name}`);
    await migrate(at(name), before);
    client = new pg.Client(at(name));
    await client.connect();
  });
  afterAll(async () => {
    await client.end();
    await asAdmin(`DROP DATABASE ${name}`);
    fs.rmSync(before, { recursive: true, force: true });
  });
  return {
    run: async (sql: string, params: unknown[] = []): Promise<void> => void (await client.query(sql, params)),
    rows: async (sql: string): Promise<unknown[]> => (await client.query({ text: sql, rowMode: 'array' })).rows,
    /** Brings it up to date; answers the migrations that were applied. */
    bringUp: (): Promise<string[]> => migrate(at(name), ALL),
  };
}

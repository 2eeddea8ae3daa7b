// A newer version over the data of an older one: a backup first, all of its changes or none, and the way back.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import pg from 'pg';
import { afterAll, afterEach, beforeAll, expect, it } from 'vitest';
import { runningServer } from '@backsight/store/embedded/running';
import { dataFolder, freePort, startProgram, type Program } from '../support/program.ts';

const root = path.resolve(import.meta.dirname, '../..');
const [folder, newer] = [dataFolder(), fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-newer-'))];
const running: Program[] = [];
const backups = (): string[] => fs.readdirSync(path.join(folder, 'backups')).sort();

/** A change that goes well, and one that breaks off in its middle. */
const GOOD = 'ALTER TABLE firm ADD COLUMN motto text; CREATE TABLE motto (words text NOT NULL);';
const BAD = `INSERT INTO motto VALUES ('We look twice.'); ALTER TABLE firm ALTER COLUMN motto SET NOT NULL;`;
const plant = (name: string, sql: string): void => {
  fs.mkdirSync(path.join(newer, 'prisma/migrations', name), { recursive: true });
  fs.writeFileSync(path.join(newer, 'prisma/migrations', name, 'migration.sql'), sql);
};

async function start(version: 'older' | 'newer', words: string[] = [], dataDir = folder): Promise<Program & { port: number }> {
  const port = await freePort();
  const env = { DATA_DIR: dataDir, PORT: String(port), DEMO: '0' };
  const program = startProgram(env, words, version === 'newer' ? newer : undefined);
  running.push(program);
  return { ...program, port };
}
const health = async (port: number) => (await fetch(`http://127.0.0.1:${port}/api/health`)).json() as Promise<Record<string, unknown>>;

/** Every table with its columns, and how many rows it holds. */
async function database(): Promise<unknown[]> {
  const client = new pg.Client(runningServer(folder, 'postgres')!);
  await client.connect();
  try {
    const columns = `SELECT table_name || '.' || column_name || ' ' || is_nullable AS what FROM information_schema.columns WHERE table_schema = 'public' ORDER BY 1`;
    const changes = 'SELECT migration_name, checksum FROM _prisma_migrations ORDER BY 1';
    return [(await client.query(columns)).rows, (await client.query(changes)).rows, (await client.query('SELECT name FROM firm')).rows];
  } finally {
    await client.end();
  }
}

beforeAll(() => {
  for (const name of ['apps', 'packages', 'node_modules', 'package.json']) fs.symlinkSync(path.join(root, name), path.join(newer, name));
  fs.cpSync(path.join(root, 'prisma/migrations'), path.join(newer, 'prisma/migrations'), { recursive: true });
});
afterEach(async () => {
  for (const program of running.splice(0))
    if (program.process.exitCode === null && program.process.signalCode === null) await program.stop();
});
afterAll(() => {
  for (const one of [folder, newer]) fs.rmSync(one, { recursive: true, force: true });
});

it(
  'changes nothing when one of its changes cannot be made, says so and what to do, and the older version goes on',
  { timeout: 180_000 },
  async () => {
    const older = await start('older');
    await older.ready;
    const client = new pg.Client(runningServer(folder, 'postgres')!);
    await client.connect();
    await client.query(
      `INSERT INTO firm (id, name, phone, email, address, zone, on_call_phone, set_up_at, states) VALUES (1, 'Quay Street Inspections', '920-555-0100', 'office@test.example', '1 Quay Street', 'America/Chicago', '920-555-0101', now(), '{US-WI}')`,
    );
    await client.end();
    const before = await database();
    await older.stop();
    plant('9998_motto', GOOD);
    plant('9999_motto_needed', BAD);
    const failing = await start('newer');
    expect(await failing.ended).toBe(1);
    expect(failing.said()).toMatch(/this version changes the database \(2 changes\); making a backup first/);
    expect(failing.said()).toMatch(
      /This version could not change the database: 9999_motto_needed: column "motto" of relation "firm" contains null values\. Nothing was changed\. The version that ran before starts and works as it did/,
    );
    expect(failing.said(), 'one line, no stack').not.toMatch(/^\s+at /m);
    expect(backups()).toHaveLength(1);
    const again = await start('older');
    await again.ready;
    expect(await health(again.port)).toMatchObject({ status: 'well' });
    expect(await database()).toEqual(before);
  },
);

it(
  'keeps the older version from working with what it does not know; the backup before the changes is its way back',
  { timeout: 180_000 },
  async () => {
    fs.rmSync(path.join(newer, 'prisma/migrations/9999_motto_needed'), { recursive: true });
    const changed = await start('newer');
    await changed.ready;
    expect(changed.said()).toContain('database brought up to date (1 changes)');
    await changed.stop();
    const older = await start('older');
    expect(await older.ended).toBe(1);
    expect(older.said()).toMatch(
      /The database has the change "9998_motto", which this version does not know.*Start that version, or put the backup/,
    );
    expect(older.said()).not.toMatch(/^\s+at /m);
    const empty = dataFolder();
    try {
      const back = await start('older', ['restore', path.join(folder, 'backups', backups().at(-1)!)], empty);
      expect([await back.ended, back.said()]).toEqual([0, expect.stringMatching(/whole: Quay Street Inspections[^]*Restored\./)]);
    } finally {
      fs.rmSync(empty, { recursive: true, force: true });
    }
    const still = await start('newer');
    await still.ready;
    expect(await health(still.port)).toMatchObject({ status: 'well' });
  },
);

// The databases of the bench: the demo firm, and the same multiplied; made once and kept with the packages until something that
// they are made of changes. A firm that is not there yet is made only where the bench was asked for by name: it takes long.
import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import pg from 'pg';
import { openDatabase } from '@backsight/store/database';
import { startEmbedded } from '@backsight/store/embedded/server';
import { migrate } from '@backsight/store/migrate';
import { freezePayOf } from '@backsight/usecases/fees/pay';
import { uuidv7 } from '@backsight/usecases/ids';
import { createRunner } from '@backsight/usecases/run';
import { seedDemo } from '../../../prisma/seed/demo/demo.ts';
import { multiply, type Years } from './multiply.ts';

const ROOT = path.resolve(import.meta.dirname, '../../..');
const PUBLIC_URL = 'http://127.0.0.1:4800';
const CACHE = path.join(ROOT, 'node_modules/.cache/backsight-years');
/** Half past eleven on a Wednesday in Wisconsin: somebody is on site. */
export const YEARS_NOW = new Date('2026-05-13T16:30:00Z');
/** What the demo firm is made of; the firms of many years are made of it and of what lies in this folder. */
const GROUND = ['prisma/migrations', 'prisma/seed'];
/** While a firm is made nothing needs to survive a crash: an unfinished one is made again. */
const MAKING = { autovacuum: 'off', full_page_writes: 'off', max_wal_size: "'8GB'", checkpoint_timeout: "'1h'" };

export type YearsServer = { urls: string[]; url: (database: string) => string; stop: () => Promise<void> };

/**
 * Starts a server with one database per size, in that order; what is there already is not made again. Null where one is missing and
 * `make` is not set.
 */
export async function withYears(sizes: readonly Years[], make: boolean, say: (line: string) => void): Promise<YearsServer | null> {
  const folder = path.join(CACHE, fingerprint(GROUND));
  const names = sizes.map(({ blocks, teams, crews }) => `years_${blocks}_${teams}x${crews}_${fingerprint(['tests/bench/years'])}`);
  if (!make && !fs.existsSync(folder)) return null;
  for (const old of fs.existsSync(CACHE) ? fs.readdirSync(CACHE) : [])
    if (old !== path.basename(folder)) fs.rmSync(path.join(CACHE, old), { recursive: true, force: true });
  const server = await startEmbedded({ dataDir: folder, from: path.join(ROOT, 'packages/store/package.json') });
  const admin = new pg.Client({ connectionString: server.url('postgres') });
  await admin.connect();
  const { rows } = await admin.query<{ name: string }>(`SELECT datname AS name FROM pg_database`);
  const there = new Set(rows.map(({ name }) => name));
  const missing = ['ground', ...names].some((name) => !there.has(name));
  if (missing && make) await makeMissing(admin, server.url, { sizes, names, there, say });
  await admin.end();
  if (!missing || make) return { urls: names.map(server.url), url: server.url, stop: server.stop };
  await server.stop();
  return null;
}

type Wanted = { sizes: readonly Years[]; names: readonly string[]; there: Set<string>; say: (line: string) => void };

async function makeMissing(admin: pg.Client, url: (name: string) => string, { sizes, names, there, say }: Wanted): Promise<void> {
  for (const old of there)
    if (/^years_/.test(old) && names[0] && old.split('_')[3] !== names[0].split('_')[3]) await admin.query(`DROP DATABASE ${old}`);
  /** A database is made under another name, so that one that was cut off is made again. */
  const make = async (name: string, template: string, fill: (url: string) => Promise<void>): Promise<void> => {
    if (there.has(name)) return;
    const began = performance.now();
    await admin.query('DROP DATABASE IF EXISTS unfinished');
    await admin.query(`CREATE DATABASE unfinished TEMPLATE ${template}`);
    await fill(url('unfinished'));
    await admin.query(`ALTER DATABASE unfinished RENAME TO ${name}`);
    say(`${name}: made in ${((performance.now() - began) / 60_000).toFixed(1)} minutes`);
  };
  for (const [name, value] of Object.entries(MAKING)) await admin.query(`ALTER SYSTEM SET ${name} = ${value}`);
  await admin.query('SELECT pg_reload_conf()');
  await make('ground', 'template0', async (at) => {
    await migrate(at, path.join(ROOT, 'prisma/migrations'));
    await seedDemo(at, { now: YEARS_NOW, publicUrl: PUBLIC_URL, pastDays: 0 });
    await payAll(at);
  });
  for (const [at, size] of sizes.entries()) await make(names[at]!, 'ground', (one) => multiply(one, size, say));
  await admin.query('ALTER SYSTEM RESET ALL');
  await admin.query('SELECT pg_reload_conf()');
  await admin.query('CHECKPOINT');
}

/** Freezes the pay of every visit, as the clock would have. */
async function payAll(url: string): Promise<void> {
  const database = await openDatabase(url, { size: 2 });
  const clock = () => YEARS_NOW;
  const runner = createRunner({ database, clock, newId: () => uuidv7(YEARS_NOW), publicUrl: PUBLIC_URL });
  while ((await freezePayOf({ database, runner, clock })) > 0);
  await database.close();
}

/** A word for everything that lies in these folders. */
function fingerprint(folders: readonly string[]): string {
  const hash = createHash('sha256');
  for (const folder of folders)
    for (const entry of fs
      .readdirSync(path.join(ROOT, folder), { recursive: true, withFileTypes: true })
      .sort((a, b) => (a.parentPath + a.name < b.parentPath + b.name ? -1 : 1)))
      if (entry.isFile()) hash.update(fs.readFileSync(path.join(entry.parentPath, entry.name)));
  return hash.digest('hex').slice(0, 12);
}

// The databases of the bench: the demo firm, and the same multiplied; made once and kept with the packages until something that
// they are made of changes.
import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import pg from 'pg';
import { startEmbedded } from '@backsight/store/embedded/server';
import { migrate } from '@backsight/store/migrate';
import { seedDemo } from '../../../prisma/seed/demo/demo.ts';
import { multiply, type Years } from './multiply.ts';

const ROOT = path.resolve(import.meta.dirname, '../../..');
const CACHE = path.join(ROOT, 'node_modules/.cache/backsight-years');
/** Half past eleven on a Wednesday in Wisconsin: somebody is on site. */
export const YEARS_NOW = new Date('2026-05-13T16:30:00Z');
const MADE_OF = ['prisma/migrations', 'prisma/seed', 'tests/bench/years'];

export type YearsServer = { urls: string[]; stop: () => Promise<void> };

/** Starts a server with one database per size, in that order; what is there already is not made again. */
export async function withYears(sizes: readonly Years[], say: (line: string) => void): Promise<YearsServer> {
  const folder = path.join(CACHE, fingerprint());
  for (const old of fs.existsSync(CACHE) ? fs.readdirSync(CACHE) : [])
    if (old !== path.basename(folder)) fs.rmSync(path.join(CACHE, old), { recursive: true, force: true });
  const server = await startEmbedded({ dataDir: folder, from: path.join(ROOT, 'packages/store/package.json') });
  const admin = new pg.Client({ connectionString: server.url('postgres') });
  await admin.connect();
  const missing = async (name: string): Promise<boolean> =>
    (await admin.query('SELECT FROM pg_database WHERE datname = $1', [name])).rowCount === 0;
  /** A database is made under another name, so that one that was cut off is made again. */
  const make = async (name: string, template: string, fill: (url: string) => Promise<void>): Promise<void> => {
    await admin.query('DROP DATABASE IF EXISTS unfinished');
    await admin.query(`CREATE DATABASE unfinished TEMPLATE ${template}`);
    await fill(server.url('unfinished'));
    await admin.query(`ALTER DATABASE unfinished RENAME TO ${name}`);
  };
  if (await missing('ground'))
    await make('ground', 'template0', async (url) => {
      await migrate(url, path.join(ROOT, 'prisma/migrations'));
      await seedDemo(url, { now: YEARS_NOW, publicUrl: 'http://127.0.0.1:4800', pastDays: 0 });
    });
  const urls = [];
  for (const size of sizes) {
    const name = `years_${size.blocks}_${size.teams}`;
    if (await missing(name)) {
      say(`making ${name} ...`);
      await make(name, 'ground', (url) => multiply(url, size, say));
    }
    urls.push(server.url(name));
  }
  await admin.end();
  return { urls, stop: server.stop };
}

function fingerprint(): string {
  const hash = createHash('sha256');
  for (const folder of MADE_OF)
    for (const entry of fs
      .readdirSync(path.join(ROOT, folder), { recursive: true, withFileTypes: true })
      .sort((a, b) => (a.parentPath + a.name < b.parentPath + b.name ? -1 : 1)))
      if (entry.isFile()) hash.update(fs.readFileSync(path.join(entry.parentPath, entry.name)));
  return hash.digest('hex').slice(0, 16);
}

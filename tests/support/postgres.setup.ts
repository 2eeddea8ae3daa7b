// The PostgreSQL of a test run: embedded, a container (TEST_DATABASE=container), or a given server (TEST_DATABASE_URL).
// One migrated template database; every test file clones it, or one of those made from it (database.ts).
import { randomBytes } from 'node:crypto';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import pg from 'pg';
import type { TestProject } from 'vitest/node';
import { migrate } from '@backsight/store/migrate';
import { startEmbedded } from '@backsight/store/embedded/server';

type Server = { url: (database: string) => string; stop: () => Promise<void> };
type Shared = { users: number; ready: Promise<{ server: Server; template: string }> };

declare module 'vitest' {
  export interface ProvidedContext {
    server: string;
    template: string;
  }
}

const root = path.resolve(import.meta.dirname, '../..');
const OLD_MS = 10 * 60_000;

async function embedded(): Promise<Server> {
  removeLeftOvers();
  const dataDir = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-test-'));
  fs.chmodSync(dataDir, 0o755);
  return startEmbedded({ dataDir, from: path.join(root, 'packages/store/package.json'), volatile: true });
}

/** Folders of runs that were killed: old, and with no living owner. */
function removeLeftOvers(): void {
  for (const name of fs.readdirSync(os.tmpdir()).filter((n) => n.startsWith('backsight-test-'))) {
    const folder = path.join(os.tmpdir(), name);
    try {
      if (Date.now() - fs.statSync(folder).mtimeMs < OLD_MS) continue;
      const owner = path.join(folder, 'running');
      if (fs.existsSync(owner)) process.kill(Number(fs.readFileSync(owner, 'utf8').split(' ')[0]), 0);
      else fs.rmSync(folder, { recursive: true, force: true });
    } catch {
      fs.rmSync(folder, { recursive: true, force: true });
    }
  }
}

async function container(): Promise<Server> {
  const { GenericContainer, Wait } = await import('testcontainers');
  const password = randomBytes(12).toString('hex');
  const started = await new GenericContainer('postgres:18')
    .withEnvironment({ POSTGRES_PASSWORD: password })
    .withExposedPorts(5432)
    .withWaitStrategy(Wait.forLogMessage(/database system is ready to accept connections/, 2))
    .start();
  const url = `postgresql://postgres:${password}@${started.getHost()}:${started.getMappedPort(5432)}/postgres`;
  return { url: (database) => swap(url, database), stop: async () => void (await started.stop()) };
}

const swap = (url: string, database: string): string => {
  const changed = new URL(url);
  changed.pathname = `/${database}`;
  return changed.href;
};

function open(): Promise<Server> {
  const given = process.env.TEST_DATABASE_URL;
  if (given)
    return Promise.resolve({ url: (database) => (database === 'postgres' ? given : swap(given, database)), stop: () => Promise.resolve() });
  return process.env.TEST_DATABASE === 'container' ? container() : embedded();
}

async function create(): Promise<{ server: Server; template: string }> {
  const server = await open();
  const admin = new pg.Client(server.url('postgres'));
  await admin.connect();
  const holds = await admin.query(`SELECT to_regclass('public.firm') AS firm`);
  if (holds.rows[0].firm !== null && (await admin.query('SELECT FROM firm')).rowCount)
    throw new Error('That server holds a firm. Tests never touch a database that they did not make.');
  const template = `backsight_template_${randomBytes(4).toString('hex')}`;
  await admin.query(`CREATE DATABASE ${template}`);
  await migrate(server.url(template), path.join(root, 'prisma/migrations'));
  await admin.end();
  return { server, template };
}

/** Called once per project; the projects share one server. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const all = globalThis as unknown as { backsightTests?: Shared };
  const shared = (all.backsightTests ??= { users: 0, ready: create() });
  shared.users += 1;
  const { server, template } = await shared.ready;
  project.provide('server', server.url('TEMPLATE_NAME'));
  project.provide('template', template);
  return async () => {
    shared.users -= 1;
    if (shared.users > 0) return;
    const admin = new pg.Client(server.url('postgres'));
    await admin.connect();
    const made = await admin.query<{ name: string }>('SELECT datname AS name FROM pg_database WHERE starts_with(datname, $1)', [template]);
    for (const { name } of made.rows) await admin.query(`DROP DATABASE IF EXISTS ${name} WITH (FORCE)`);
    await admin.end();
    await server.stop();
    delete all.backsightTests;
  };
}

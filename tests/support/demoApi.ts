// The API over a few jobs of the demo firm, as its people use it, and a scan of every column of the database.
import { createHash } from 'node:crypto';
import { hash as argon2id } from '@node-rs/argon2';
import type { FastifyInstance } from 'fastify';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect } from 'vitest';
import { copyIn } from '@backsight/store/copy';
import type { Database } from '@backsight/store/database';
import { storeFile } from '@backsight/store/sitework/files';
import { buildApp } from '../../apps/api/src/app.ts';
import type { Services } from '../../apps/api/src/http/services.ts';
import { DEMO_PASSWORD, demoFor } from '../../prisma/seed/demo/demo.ts';
import { loadTables } from '../../prisma/seed/demo/load.ts';
import { testService, type TestService } from './database.ts';
import { servicesOf } from './services.ts';

type Who = 'harriet' | 'dolores' | 'ruth' | 'amos' | 'nobody';
type Method = 'GET' | 'POST';
export type DemoAnswer = { status: number; body: any; bytes: Buffer; headers: Record<string, unknown> };
export type DemoApi = TestService & {
  dataDir: string;
  app: () => FastifyInstance;
  send: (who: Who, method: Method, path: string, body?: unknown) => Promise<DemoAnswer>;
};

export const DEMO_NOW = new Date('2026-05-13T16:30:00Z');

/** Sixteen jobs of the demo firm at DEMO_NOW. */
export function demoApi(jobs = 16): DemoApi {
  const service = testService() as DemoApi;
  const dataDir = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-demo-'));
  let app: FastifyInstance;
  let services: Services;
  beforeAll(async () => {
    service.clock.now = DEMO_NOW;
    const passwordHash = await argon2id(DEMO_PASSWORD, { memoryCost: 8, timeCost: 1, parallelism: 1 });
    const { tables } = await demoFor(DEMO_NOW, { publicUrl: 'http://office.test', passwordHash, jobs, pastDays: 0 });
    await copyIn(service.url, (session) => loadTables(session, tables, DEMO_NOW, ['invoice', 'ledgerEntry']));
    services = servicesOf(service, { DATA_DIR: dataDir });
    app = await buildApp(services);
    await app.ready();
  }, 120_000);
  afterAll(async () => {
    await services?.planner.close();
    await app?.close();
    fs.rmSync(dataDir, { recursive: true, force: true });
  });
  const cookies = new Map<Who, { cookie: string; until: number }>();
  async function cookieOf(who: Who): Promise<string> {
    const known = cookies.get(who);
    if (known && Math.abs(service.clock.now.getTime() - known.until) < 3_600_000) return known.cookie;
    const payload = { email: `${who}@hollingrebe.example`, password: DEMO_PASSWORD };
    const reply = await app.inject({ method: 'POST', url: '/api/session', payload });
    expect(reply.statusCode, reply.body).toBe(200);
    const cookie = String(reply.headers['set-cookie']).split(';')[0]!;
    cookies.set(who, { cookie, until: service.clock.now.getTime() });
    return cookie;
  }
  const send: DemoApi['send'] = async (who, method, url, body) => {
    const headers: Record<string, string> = who === 'nobody' ? {} : { cookie: await cookieOf(who) };
    if (method === 'POST')
      headers['idempotency-key'] = createHash('sha256')
        .update(url + JSON.stringify(body) + service.newId())
        .digest('hex')
        .slice(0, 40);
    const reply = await app.inject({ method, url, headers, ...(body === undefined ? {} : { payload: body as object }) });
    const json = String(reply.headers['content-type']).includes('json');
    return { status: reply.statusCode, body: json ? reply.json() : reply.body, bytes: reply.rawPayload, headers: reply.headers };
  };
  return Object.assign(service, { dataDir, app: () => app, send });
}

/** Puts a file on the disk and into the database. */
export async function fileOf({ database, dataDir }: DemoApi, words: string): Promise<string> {
  const sha256 = await storeFile(dataDir, Buffer.from(words));
  await database.transaction(({ db }) =>
    db.storedFile.create({ data: { sha256, mediaType: 'application/pdf', bytes: words.length, name: words, recordedAt: DEMO_NOW } }),
  );
  return sha256;
}

type Place = { table: string; column: string; type: string };

/** Every column that can hold words: text, JSON and bytes, as the catalog has them. */
export const wordColumns = (database: Database): Promise<Place[]> =>
  database.read.rows<Place>(
    `SELECT c.relname::text AS table, a.attname::text AS column, format_type(a.atttypid, NULL) AS type FROM pg_class c JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped
     WHERE c.relkind = 'r' AND c.relnamespace = 'public'::regnamespace AND c.relname <> '_prisma_migrations' AND format_type(a.atttypid, NULL) IN ('text', 'character varying', 'jsonb', 'json', 'bytea', 'text[]') ORDER BY 1, 2`,
  );

/** Where any of these words stands in the database, as `table.column`. Bytes are looked through as escaped text. */
export async function whereIs(database: Database, words: readonly string[]): Promise<string[]> {
  const found: string[] = [];
  const patterns = words.map((word) => `%${word.toLowerCase().replaceAll('\\', '\\\\').replaceAll('%', '\\%').replaceAll('_', '\\_')}%`);
  for (const { table, column, type } of await wordColumns(database)) {
    const [row] = await database.read.rows<{ n: number }>(
      `SELECT count(*)::int AS n FROM "${table}" WHERE lower(${type === 'bytea' ? `encode("${column}", 'escape')` : `"${column}"::text`}) LIKE ANY ($1::text[])`,
      [patterns],
    );
    if (row!.n > 0) found.push(`${table}.${column}`);
  }
  return found;
}

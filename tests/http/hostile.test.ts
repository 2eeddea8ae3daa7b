// Two thousand bad requests over all routes: none may break the service, each no is told in plain words, and nothing is half-saved.
import fc from 'fast-check';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Route } from '@backsight/contract/route';
import { allRoutes, nameOf } from '../support/contracts.ts';
import { testApi } from '../support/http.ts';
import { badRequest } from '../support/hostile.ts';
import { withStarter } from '../support/starter.ts';

const HOW_MANY = Number(process.env.HOSTILE ?? 2000);
const SEED = Number(process.env.HOSTILE_SEED ?? 20260512);
/** Signing out would end the session that the others need; signing in is slow on purpose. */
const LEFT_OUT = new Set(['DELETE /api/session', 'POST /api/session']);

const api = testApi();
withStarter(api);
let routes: Route[];
let cookie: string;

beforeAll(async () => {
  routes = (await allRoutes()).filter((route) => !LEFT_OUT.has(nameOf(route)));
  const reply = await api
    .app()
    .inject({ method: 'POST', url: '/api/session', payload: { email: 'olive@test.example', password: 'a long test password' } });
  cookie = String(reply.headers['set-cookie']).split(';')[0]!;
});

/** How many rows each table holds, asked in one statement on a connection of its own, so that its plan is made once. */
let counts: () => Promise<Record<string, number>>;
let counting: pg.Client;
beforeAll(async () => {
  const tables = await api.database.read.rows<{ name: string }>(
    `SELECT tablename AS name FROM pg_tables WHERE schemaname = 'public' AND tablename NOT IN ('audit_seal', 'person_day', 'kit_day')`,
  );
  const text = `SELECT ${tables.map(({ name }) => `(SELECT count(*)::int FROM "${name}") AS "${name}"`).join(', ')}`;
  counting = new pg.Client(api.url);
  await counting.connect();
  counts = async () => (await counting.query<Record<string, number>>({ name: 'counts', text })).rows[0]!;
});
afterAll(() => counting?.end());

describe('bad requests', () => {
  it(`${HOW_MANY} of them, seed ${SEED}`, { timeout: 240_000 }, async () => {
    let n = 0;
    let before: Record<string, number> | null = null;
    const wrong: string[] = [];
    const statuses = new Map<number, number>();
    for (const [at, route] of routes.entries()) {
      const share = Math.ceil(HOW_MANY / routes.length);
      for (const bad of fc.sample(
        badRequest(route, () => `hostile-${at}-${n++}`),
        { numRuns: share, seed: SEED + at },
      )) {
        before ??= await counts();
        const reply = await api
          .app()
          .inject({ method: route.method, url: bad.path, headers: { ...bad.headers, cookie }, payload: bad.payload });
        statuses.set(reply.statusCode, (statuses.get(reply.statusCode) ?? 0) + 1);
        const told = `${nameOf(route)} ${JSON.stringify(bad).slice(0, 600)} -> ${reply.statusCode} ${reply.body.slice(0, 300)}`;
        if (reply.statusCode >= 500) wrong.push(told);
        if (reply.statusCode >= 400) {
          if (!String(reply.headers['content-type']).startsWith('application/problem+json') || !reply.json().title)
            wrong.push(`no problem details: ${told}`);
          const after = await counts();
          const grown = Object.keys(after).filter((table) => after[table] !== before![table]);
          before = after;
          if (grown.length > 0) wrong.push(`changed ${grown.join(', ')}: ${told}`);
        } else before = null; // what is let in may write
      }
    }
    expect(wrong.slice(0, 10)).toEqual([]);
    expect([...statuses.values()].reduce((a, b) => a + b, 0)).toBeGreaterThanOrEqual(HOW_MANY);
    const refused = [...statuses].filter(([status]) => status >= 400).reduce((sum, [, many]) => sum + many, 0);
    expect(refused, 'most of them are refused').toBeGreaterThan(HOW_MANY / 2);
  });
});

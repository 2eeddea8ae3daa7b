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

/** What a schema library says of itself: somebody may read it beside an input. */
const OF_A_LIBRARY = /invalid|pattern|regex|undefined|union|must match/i;

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

/** The tables in which a row came or went since it was last asked. */
let touched: () => Promise<string[]>;
let watching: pg.Client;
beforeAll(async () => {
  const tables = await api.database.read.rows<{ name: string }>(
    `SELECT tablename AS name FROM pg_tables WHERE schemaname = 'public' AND tablename NOT IN ('audit_seal', 'person_day', 'kit_day')`,
  );
  watching = new pg.Client(api.url);
  await watching.connect();
  await watching.query(
    `CREATE TABLE touched ("table" text NOT NULL);
     CREATE FUNCTION note_touched() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public AS
       'BEGIN INSERT INTO touched VALUES (TG_TABLE_NAME); RETURN NULL; END';
     ${tables.map(({ name }) => `CREATE TRIGGER note_touched AFTER INSERT OR DELETE ON "${name}" FOR EACH ROW EXECUTE FUNCTION note_touched();`).join(' ')}`,
  );
  touched = async () => {
    const { rows } = await watching.query<{ table: string }>({ name: 'touched', text: 'DELETE FROM touched RETURNING "table"' });
    return [...new Set(rows.map(({ table }) => table))];
  };
});
afterAll(() => watching?.end());

describe('bad requests', () => {
  it(`${HOW_MANY} of them, seed ${SEED}`, { timeout: 240_000 }, async () => {
    let n = 0;
    const wrong: string[] = [];
    const statuses = new Map<number, number>();
    for (const [at, route] of routes.entries()) {
      const share = Math.ceil(HOW_MANY / routes.length);
      for (const bad of fc.sample(
        badRequest(route, () => `hostile-${at}-${n++}`),
        { numRuns: share, seed: SEED + at },
      )) {
        const reply = await api
          .app()
          .inject({ method: route.method, url: bad.path, headers: { ...bad.headers, cookie }, payload: bad.payload });
        statuses.set(reply.statusCode, (statuses.get(reply.statusCode) ?? 0) + 1);
        const told = `${nameOf(route)} ${JSON.stringify(bad).slice(0, 600)} -> ${reply.statusCode} ${reply.body.slice(0, 300)}`;
        if (reply.statusCode >= 500) wrong.push(told);
        if (reply.statusCode >= 400) {
          if (!String(reply.headers['content-type']).startsWith('application/problem+json') || !reply.json().title)
            wrong.push(`no problem details: ${told}`);
          const errors = (reply.json().errors ?? []) as { message: string }[];
          for (const { message } of errors) if (OF_A_LIBRARY.test(message)) wrong.push(`not in plain words: ${message} (${nameOf(route)})`);
          const grown = await touched();
          if (grown.length > 0) wrong.push(`changed ${grown.join(', ')}: ${told}`);
        } else await touched(); // what is let in may write
      }
    }
    expect(wrong.slice(0, 10)).toEqual([]);
    expect([...statuses.values()].reduce((a, b) => a + b, 0)).toBeGreaterThanOrEqual(HOW_MANY);
    const refused = [...statuses].filter(([status]) => status >= 400).reduce((sum, [, many]) => sum + many, 0);
    expect(refused, 'most of them are refused').toBeGreaterThan(HOW_MANY / 2);
  });

  it.each([
    ['a part of the address', 'PUT', '/api/ledger/accounts/%00', { name: 'Repairs' }, 'code'],
    ['the query', 'GET', '/api/find?q=%00', undefined, 'q'],
    ['the body', 'POST', '/api/session', { email: 'olive@test.example', password: 'a\u0000b' }, 'password'],
    ['a list in the body', 'POST', '/api/fee-schedules/what-if', { services: ['home', '\u0000'] }, 'services.1'],
  ] as const)('tells of a zero character in %s, which the database keeps in no text', async (_, method, url, payload, field) => {
    const reply = await api.app().inject({ method, url, headers: { cookie }, ...(payload ? { payload } : {}) });
    expect([reply.statusCode, reply.json().errors]).toEqual([
      422,
      [{ field, message: 'There is a character in it that cannot be kept: type it anew.' }],
    ]);
  });
});

// Bad requests over all routes, and what must hold after each: none breaks the service, each no is told in plain words and changes nothing, and no change is without its audit row.
import fc from 'fast-check';
import pg from 'pg';
import { afterAll, beforeAll, expect } from 'vitest';
import type { Route } from '@backsight/contract/route';
import { allRoutes, nameOf } from './contracts.ts';
import { badRequest } from './hostile.ts';
import type { TestApi } from './http.ts';

/** Signing out would end the session that the others need; signing in is slow on purpose. */
const LEFT_OUT = new Set(['DELETE /api/session', 'POST /api/session']);
/** What the service notes besides an act: that a key was used, that somebody tried to sign in. */
const BESIDES = new Set(['idempotency_key', 'sign_in_attempt']);

/** Acts of the planner, which ends in a thread of its own while other requests are under way. */
const LATER = ['schedule.finish-plan', 'schedule.break-off-plan'];

/** Call inside a test file after the firm is there. The returned function sends at least `howMany`, the same for the same seed. */
export function hostileTo(api: TestApi): { cookie: () => string; send: (howMany: number, seed: number) => Promise<Map<number, number>> } {
  let routes: Route[];
  let cookie: string;
  let watching: pg.Client;
  beforeAll(async () => {
    routes = (await allRoutes()).filter((route) => !LEFT_OUT.has(nameOf(route)));
    const payload = { email: 'olive@test.example', password: 'a long test password' };
    const reply = await api.app().inject({ method: 'POST', url: '/api/session', payload });
    cookie = String(reply.headers['set-cookie']).split(';')[0]!;
    watching = await watch(api);
  });
  afterAll(() => watching?.end());
  const send = async (howMany: number, seed: number) => {
    let n = 0;
    const wrong: string[] = [];
    const statuses = new Map<number, number>();
    for (const [at, route] of routes.entries()) {
      const numRuns = Math.ceil(howMany / routes.length);
      for (const bad of fc.sample(
        badRequest(route, () => `hostile-${at}-${n++}`),
        { numRuns, seed: seed + at },
      )) {
        const request = { method: route.method, url: bad.path, headers: { ...bad.headers, cookie }, payload: bad.payload };
        const reply = await api.app().inject(request);
        statuses.set(reply.statusCode, (statuses.get(reply.statusCode) ?? 0) + 1);
        const told = `${nameOf(route)} ${JSON.stringify(bad).slice(0, 600)} -> ${reply.statusCode} ${reply.body.slice(0, 300)}`;
        const grown = await touchedTables(watching);
        if (reply.statusCode >= 500) wrong.push(told);
        else if (reply.statusCode >= 400) {
          if (!String(reply.headers['content-type']).startsWith('application/problem+json') || !reply.json().title)
            wrong.push(`no problem details: ${told}`);
          if (grown.length > 0) wrong.push(`changed ${grown.join(', ')}: ${told}`);
        } else if (grown.length > 0 && !grown.includes('audit_row'))
          wrong.push(`changed ${grown.join(', ')} without an audit row: ${told}`);
      }
    }
    expect(wrong.slice(0, 10)).toEqual([]);
    expect([...statuses.values()].reduce((a, b) => a + b, 0)).toBeGreaterThanOrEqual(howMany);
    const refused = [...statuses].filter(([status]) => status >= 400).reduce((sum, [, many]) => sum + many, 0);
    expect(refused, 'most of them are refused').toBeGreaterThan(howMany / 2);
    return statuses;
  };
  return { cookie: () => cookie, send };
}

/** The tables in which a row came or went since it was last asked. */
export async function touchedTables(watching: pg.Client): Promise<string[]> {
  const { rows } = await watching.query<{ table: string }>({ name: 'touched', text: 'DELETE FROM touched RETURNING "table"' });
  return [...new Set(rows.map(({ table }) => table))].filter((table) => !BESIDES.has(table));
}

/** Notes each table in which a row comes or goes. */
export async function watch(api: TestApi): Promise<pg.Client> {
  const tables = await api.database.read.rows<{ name: string }>(
    `SELECT tablename AS name FROM pg_tables WHERE schemaname = 'public' AND tablename NOT IN ('audit_seal', 'person_day', 'kit_day')`,
  );
  const watching = new pg.Client(api.url);
  await watching.connect();
  await watching.query(
    `CREATE TABLE touched ("table" text NOT NULL);
     CREATE FUNCTION note_touched() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public AS
       'BEGIN INSERT INTO touched VALUES (TG_TABLE_NAME); RETURN NULL; END';
     ${tables.map(({ name }) => `CREATE TRIGGER note_touched AFTER ${name === 'audit_row' ? `INSERT ON audit_row FOR EACH ROW WHEN (NEW.operation NOT IN ('${LATER.join("', '")}'))` : `INSERT OR DELETE ON "${name}" FOR EACH ROW`} EXECUTE FUNCTION note_touched();`).join(' ')}`,
  );
  return watching;
}

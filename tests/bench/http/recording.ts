// What the service runs in the database for a request, written down once, so that the bare limit can run the same.
import type { FastifyInstance } from 'fastify';
import { DEMO_PASSWORD } from '../../../prisma/seed/demo/demo.ts';
import { statementsOf } from '../../support/statements.ts';
import { YEARS_NOW } from '../years/databases.ts';
import type { Recorded, Sent } from './bare.ts';
import { apiOver } from './parts.ts';

export type Ask = { method: 'GET' | 'POST'; path: string; cookie: string; body?: unknown; key?: string };

export const headersOf = ({ cookie, key }: Ask): Record<string, string> => ({ cookie, ...(key ? { 'idempotency-key': key } : {}) });

/** Asks once; statements of a transaction that change nothing are left out. @throws Error when the answer is a no */
export async function recordedOf(app: FastifyInstance, database: string, ask: Ask): Promise<Recorded> {
  const { method, path: url, body } = ask;
  const { value, statements } = await statementsOf(database, () =>
    app.inject({ method, url, headers: headersOf(ask), ...(body === undefined ? {} : { payload: body as object }) }),
  );
  if (value.statusCode >= 300) throw new Error(`${method} ${url}: ${value.statusCode} ${value.body.slice(0, 500)}`);
  const begun = new Set(statements.filter(({ text }) => /^BEGIN/.test(text)).map(({ connection }) => connection));
  const sent = ({ text, values }: (typeof statements)[number]): Sent => ({ text, values: [...values] });
  return {
    reads: statements.filter(({ connection }) => !begun.has(connection)).map(sent),
    writes: statements.filter(({ text, connection }) => begun.has(connection) && /^(?:INSERT|UPDATE|DELETE)/i.test(text)).map(sent),
    status: value.statusCode,
    reply: value.json(),
  };
}

/** The cookie of somebody of the demo firm. */
export async function signedIn(app: FastifyInstance, name: string): Promise<string> {
  const payload = { email: `${name}@hollingrebe.example`, password: DEMO_PASSWORD };
  const { cookies } = await app.inject({ method: 'POST', url: '/api/session', payload });
  return cookies.map((one) => `${one.name}=${one.value}`).join('; ');
}

/** Signs in over a database that nothing else is open on. */
export async function signedInOver(url: string, name: string): Promise<string> {
  const api = await apiOver(url, { began: YEARS_NOW.getTime(), connections: 2 });
  const cookie = await signedIn(api.app, name);
  await api.close();
  return cookie;
}

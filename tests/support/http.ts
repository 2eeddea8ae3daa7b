// Talks to the API of a test's service as one of the cast, without a socket; every create is sent twice.
import { randomUUID } from 'node:crypto';
import type { FastifyInstance } from 'fastify';
import { afterAll, beforeAll, expect } from 'vitest';
import { buildApp } from '../../apps/api/src/app.ts';
import type { Services } from '../../apps/api/src/http/services.ts';
import { CAST, PASSWORD, withCast, type CastName } from './cast.ts';
import { testService, type TestService } from './database.ts';
import { servicesOf, SET_UP_CODE } from './services.ts';

export { SET_UP_CODE };

export type Answer = { status: number; body: any; headers: Record<string, string | string[] | number | undefined>; bytes: Buffer };
type Method = 'GET' | 'POST' | 'PATCH' | 'PUT' | 'DELETE';
export type Options = { body?: unknown; key?: string; version?: number; headers?: Record<string, string>; once?: boolean };

export type TestApi = TestService & {
  app: () => FastifyInstance;
  /** Sends a request as somebody ('nobody' = not signed in). A POST goes out twice with one key and must answer the same. */
  send: (who: CastName | 'nobody', method: Method, path: string, options?: Options) => Promise<Answer>;
  /** The cookie of somebody who is signed in. */
  cookie: (who: CastName) => string;
  /** Somebody whose sessions were ended signs in anew at the next request. */
  signsInAnew: (who: CastName) => void;
};

/** Within the twelve hours of a session; whoever acts after that signs in anew. */
const SIGNED_IN_MS = 11 * 3_600_000;

/** The API over a fresh database with the cast. */
export function testApi(): TestApi {
  const service = testService();
  withCast(service);
  let app: FastifyInstance | undefined;
  let services: Services | undefined;
  const cookies = new Map<CastName, { cookie: string; until: number }>();
  beforeAll(async () => {
    services = servicesOf(service);
    app = await buildApp(services);
    await app.ready();
  });
  afterAll(async () => {
    await services?.planner.close();
    await app?.close();
    app = services = undefined; // the module of a test file lives as long as its process
  });

  async function cookieOf(who: CastName): Promise<string> {
    const known = cookies.get(who);
    if (known && service.clock.now.getTime() < known.until) return known.cookie;
    const reply = await app!.inject({ method: 'POST', url: '/api/session', payload: { email: CAST[who].email, password: PASSWORD } });
    expect(reply.statusCode, reply.body).toBe(200);
    const cookie = String(reply.headers['set-cookie']).split(';')[0]!;
    cookies.set(who, { cookie, until: service.clock.now.getTime() + SIGNED_IN_MS });
    return cookie;
  }

  async function one(who: CastName | 'nobody', method: Method, path: string, o: Options): Promise<Answer> {
    const headers: Record<string, string> = { ...o.headers };
    if (who !== 'nobody') headers.cookie = await cookieOf(who);
    if (o.key) headers['idempotency-key'] = o.key;
    if (o.version !== undefined) headers['if-match'] = `"${o.version}"`;
    const reply = await app!.inject({ method, url: path, headers, ...(o.body === undefined ? {} : { payload: o.body as object }) });
    const renewed = String(reply.headers['set-cookie'] ?? '').split(';')[0]!;
    if (who !== 'nobody' && /=./.test(renewed)) cookies.set(who, { ...cookies.get(who)!, cookie: renewed });
    const json = String(reply.headers['content-type']).includes('json');
    return { status: reply.statusCode, body: json ? reply.json() : reply.body, headers: reply.headers, bytes: reply.rawPayload };
  }

  const send: TestApi['send'] = async (who, method, path, options = {}) => {
    if (method !== 'POST') return one(who, method, path, options);
    const o = { ...options, key: options.key ?? randomUUID() };
    const first = await one(who, method, path, o);
    if (options.once || first.status >= 400) return first;
    const second = await one(who, method, path, o);
    expect({ status: second.status, body: second.body }, 'the same request sent twice answers the same').toEqual({
      status: first.status,
      body: first.body,
    });
    return first;
  };
  return Object.assign(service, {
    app: () => app!,
    send,
    cookie: (who: CastName) => cookies.get(who)!.cookie,
    signsInAnew: (who: CastName) => void cookies.delete(who),
  });
}

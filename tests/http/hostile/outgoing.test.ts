// Whatever is sent to the service, it asks nobody else: OWASP Server-Side Request Forgery Prevention Cheat Sheet, ASVS 5.0, 1.3.6. Only the mail
// server and the road service of the settings are ever connected to, and no request can say what they are.
import dns from 'node:dns';
import net from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Route } from '@backsight/contract/route';
import { CAST, PASSWORD } from '../../support/cast.ts';
import { allRoutes, nameOf } from '../../support/contracts.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';

const api = testApi();
withStarter(api);
const ASKED = [
  'http://169.254.169.254/latest/meta-data',
  'http://metadata.example/x',
  '//inside.example/y',
  'file:///etc/passwd',
  'gopher://inside.example:25/',
];

/** Hosts that this process was made to look up or connect to, but for the database of the tests. */
const reached: string[] = [];
const HERE = new Set(['127.0.0.1', '::1', 'localhost', '']);
const note = (host: unknown): void => {
  const name = typeof host === 'string' ? host : '';
  if (!HERE.has(name) && !name.startsWith('/')) reached.push(name);
};
const connect = Reflect.get(net.Socket.prototype, 'connect') as (this: net.Socket, ...given: unknown[]) => net.Socket;
const { lookup } = dns;
beforeAll(() => {
  net.Socket.prototype.connect = function (this: net.Socket, ...given: unknown[]) {
    const [first] = (Array.isArray(given[0]) ? given[0] : given) as { host?: string; path?: string }[];
    if (typeof first === 'object' && first.path === undefined) note(first.host);
    return Reflect.apply(connect, this, given) as net.Socket;
  } as net.Socket['connect'];
  dns.lookup = ((...given: unknown[]) => (note(given[0]), Reflect.apply(lookup, dns, given) as void)) as unknown as typeof lookup;
});
afterAll(() => {
  net.Socket.prototype.connect = connect as net.Socket['connect'];
  dns.lookup = lookup;
});

/** What a schema asks for, with an address wherever a text may stand. */
function filled(schema: unknown, to: string): unknown {
  const { def } = (schema ?? {}) as { def?: Record<string, any> };
  if (!def) return to;
  if (def.shape) return Object.fromEntries(Object.entries(def.shape as object).map(([name, inner]) => [name, filled(inner, to)]));
  if (def.element) return [filled(def.element, to)];
  if (def.innerType) return filled(def.innerType, to);
  if (def.in) return filled(def.in, to);
  if (def.options) return filled(def.options[0], to);
  if (def.entries) return Object.values(def.entries as object)[0];
  if (def.type === 'string') {
    if (def.format === 'uuid') return '99999999-0000-7000-8000-000000000001';
    if (def.format === 'date') return '2026-05-12';
    if (def.format === 'datetime') return '2026-05-12T15:00:00Z';
    if (def.format === 'email') return 'x@inside.example';
    return to;
  }
  if (def.type === 'literal') return def.values[0];
  return { number: 1, int: 1, boolean: true }[def.type as string] ?? null;
}

describe('the service', () => {
  it('notices when somebody does ask (planted)', async () => {
    await fetch('http://planted.example/').catch(() => undefined);
    expect(reached).toContain('planted.example');
    reached.length = 0;
  });
  it('asks no address that is sent to it, by any field of any route', async () => {
    const payload = { email: CAST.owner.email, password: PASSWORD };
    const cookie = String((await api.app().inject({ method: 'POST', url: '/api/session', payload })).headers['set-cookie']).split(';')[0]!;
    const routes = (await allRoutes()).filter((route: Route) => !/\/api\/session|second-factor|sessions/.test(route.path));
    for (const [n, route] of routes.entries()) {
      const to = ASKED[n % ASKED.length]!;
      const query = new URLSearchParams(
        Object.entries((filled(route.query, to) as object) ?? {}).map(([name, value]) => [name, String(value)]),
      );
      const headers = {
        cookie,
        'idempotency-key': `outgoing-${n}-key`,
        'if-match': '"1"',
        referer: to,
        'x-forwarded-for': '169.254.169.254',
      };
      await api.app().inject({
        method: route.method,
        url: `${route.path.replace(/:\w+/g, encodeURIComponent('99999999-0000-7000-8000-000000000001'))}?${route.query ? query.toString() : ''}`,
        headers: route.body ? { ...headers, 'content-type': 'application/json' } : headers,
        ...(route.body ? { payload: JSON.stringify(filled(route.body, to)) } : {}),
      });
    }
    expect(reached).toEqual([]);
  }, 120_000);
  it('has no field that names a service or an address to ask', async () => {
    const named = (await allRoutes()).flatMap((route) => {
      const names: string[] = [];
      const walk = (schema: unknown): void => {
        const { def } = (schema ?? {}) as { def?: Record<string, any> };
        if (!def) return;
        names.push(...Object.keys((def.shape ?? {}) as object));
        for (const inner of Object.values((def.shape ?? {}) as object)) walk(inner);
        for (const inner of [def.element, def.innerType, def.in, def.valueType, ...(def.options ?? []), ...(def.items ?? [])]) walk(inner);
      };
      [route.query, route.body].forEach(walk);
      return names
        .filter((name) => /^(url|uri|host|smtp|webhook|endpoint|proxy)|(Url|Uri|Host|Smtp|Webhook|Endpoint|Proxy)/.test(name))
        .map((name) => `${nameOf(route)} ${name}`);
    });
    expect(named).toEqual([]);
  });
});

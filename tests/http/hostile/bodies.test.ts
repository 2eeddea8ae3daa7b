// Bodies and queries made to break whoever reads them: OWASP Prototype Pollution Prevention Cheat Sheet, OWASP ASVS 5.0, 1.5 and 2.2, RFC 8259,
// section 9 (a parser may set limits on depth, size and range), section 4 (names that are not unique).
import { beforeAll, describe, expect, it } from 'vitest';
import type { Route } from '@backsight/contract/route';
import { CAST, PASSWORD } from '../../support/cast.ts';
import { allRoutes, nameOf } from '../../support/contracts.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';

const api = testApi();
withStarter(api);
let routes: Route[];
let cookie: string;
beforeAll(async () => {
  routes = (await allRoutes()).filter((route) => !/\/api\/session/.test(route.path));
  const payload = { email: CAST.owner.email, password: PASSWORD };
  cookie = String((await api.app().inject({ method: 'POST', url: '/api/session', payload })).headers['set-cookie']).split(';')[0]!;
});
const ID = '99999999-0000-7000-8000-000000000001';
let sent = 0;
const send = (route: Route, payload: string | undefined, query = '') => {
  sent += 1;
  const headers = { cookie, 'idempotency-key': `hostile-body-${sent}`, 'if-match': '"1"' };
  return api.app().inject({
    method: route.method,
    url: `${route.path.replace(/:\w+/g, ID)}${query}`,
    headers: payload === undefined ? headers : { ...headers, 'content-type': 'application/json' },
    ...(payload === undefined ? {} : { payload }),
  });
};
const nested = (many: number, open: string, close: string): string => open.repeat(many) + close.repeat(many);
const withBody = () => routes.filter(({ body, method }) => body !== undefined && method !== 'DELETE');

describe('a body', () => {
  it.each([
    ['that names the prototype', '{"__proto__":{"planted":true}}'],
    ['that names it by the constructor', '{"constructor":{"prototype":{"planted":true}}}'],
    ['that names it inside', '{"id":{"__proto__":{"planted":true}},"details":[{"constructor":{"prototype":{"planted":true}}}]}'],
    ['that hides the name', '{"\\u005f_proto__":{"planted":true}}'],
  ])('%s plants nothing and breaks nothing, on every route', async (_, payload) => {
    const wrong: string[] = [];
    for (const route of withBody()) {
      const { statusCode } = await send(route, payload);
      if (statusCode < 400 || statusCode >= 500) wrong.push(`${nameOf(route)}: ${statusCode}`);
    }
    expect(wrong).toEqual([]);
    expect(({} as { planted?: true }).planted).toBeUndefined();
  });
  it.each([
    ['100,000 lists deep', nested(100_000, '[', ']')],
    ['100,000 objects deep', `${'{"a":'.repeat(100_000)}1${'}'.repeat(100_000)}`],
    ['100,000 lists deep in a field', `{"words":${nested(100_000, '[', ']')}}`],
    ['a list of 300,000 numbers', `[${'1,'.repeat(300_000)}1]`],
    ['an object of 60,000 names', `{${Array.from({ length: 60_000 }, (__, n) => `"k${n}":0`).join(',')}}`],
    ['a number beyond all numbers', '{"cents":1e400,"limitCents":1e400,"minutes":1e400}'],
    ['a number of 100,000 digits', `{"cents":${'9'.repeat(100_000)}}`],
    ['a text of 1.5 million signs', `{"words":"${'x'.repeat(1_500_000)}","name":"y"}`],
  ])(
    '%s is refused in plain words',
    async (_, payload) => {
      for (const route of withBody().filter((__, at) => at % 25 === 0)) {
        const reply = await send(route, payload);
        expect([400, 413, 422], `${nameOf(route)}: ${reply.body.slice(0, 200)}`).toContain(reply.statusCode);
        expect(reply.json().title).not.toBe('');
      }
    },
    60_000,
  );
  it('may be as deep as a rule is, and no deeper', async () => {
    const route = routes.find((one) => nameOf(one) === 'PUT /api/desk-rules')!;
    expect((await send(route, nested(58, '[', ']'))).json().code).toBe('not-valid');
    expect((await send(route, nested(62, '[', ']'))).json().code).toBe('too-deep');
  });
  it('with a name twice counts the last, for whoever checks it and for whoever uses it', async () => {
    const payload = `{"email":"${CAST.anna.email}","password":"x","password":"${PASSWORD}"}`;
    const reply = await api.app().inject({ method: 'POST', url: '/api/session', headers: { 'content-type': 'application/json' }, payload });
    expect(reply.statusCode).toBe(200);
  });
  it('larger than it may be is refused before it is read', async () => {
    const route = routes.find((one) => nameOf(one) === 'PUT /api/desk-rules')!;
    const reply = await send(route, `"${'x'.repeat(3 * 1024 * 1024)}"`);
    expect([reply.statusCode, reply.json().title]).toEqual([413, 'The request is too large.']);
  });
});

describe('a query', () => {
  it('that names the prototype, repeats a name or is long breaks no route', async () => {
    const wrong: string[] = [];
    for (const route of routes.filter(({ method }) => method === 'GET'))
      for (const query of ['?__proto__[planted]=1&constructor.prototype.planted=1&__proto__=x', '?q=a&q=b&from=1&from=2&id=1&id=2']) {
        const { statusCode } = await send(route, undefined, query);
        if (statusCode >= 500) wrong.push(`${nameOf(route)}${query}: ${statusCode}`);
      }
    expect(wrong).toEqual([]);
    expect(({} as { planted?: unknown }).planted).toBeUndefined();
  }, 60_000);
});

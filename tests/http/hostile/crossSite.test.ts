// Requests that another site makes a browser send: OWASP Cross-Site Request Forgery Prevention Cheat Sheet (verifying origin, Fetch Metadata,
// SameSite), ASVS 5.0, 3.5; other origins read nothing (Fetch standard, 3.2, "CORS protocol").
import { beforeAll, describe, expect, it } from 'vitest';
import type { Route } from '@backsight/contract/route';
import { CAST, PASSWORD } from '../../support/cast.ts';
import { allRoutes, nameOf } from '../../support/contracts.ts';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';

const api = testApi();
withStarter(api);
let changing: Route[];
let routes: Route[];
let cookie: string;
beforeAll(async () => {
  routes = await allRoutes();
  changing = routes.filter(({ method }) => method !== 'GET');
  const payload = { email: CAST.owner.email, password: PASSWORD };
  cookie = String((await api.app().inject({ method: 'POST', url: '/api/session', payload })).headers['set-cookie']).split(';')[0]!;
});
const at = (route: Route): string => route.path.replace(/:\w+/g, '-');
const send = (route: Route, headers: Record<string, string>, payload?: string) =>
  api.app().inject({
    method: route.method,
    url: at(route),
    headers: { host: 'localhost', cookie, 'idempotency-key': 'from-elsewhere', 'if-match': '"1"', ...headers },
    ...(payload === undefined ? {} : { payload }),
  });

const ELSEWHERE: Record<string, Record<string, string>> = {
  'another site': { origin: 'https://evil.example' },
  'another port': { origin: 'http://localhost:8080' },
  'a name that begins alike': { origin: 'http://localhost.evil.example' },
  'an origin that is hidden': { origin: 'null' },
  'what is no origin': { origin: 'localhost' },
  'another site, as the browser says': { 'sec-fetch-site': 'cross-site' },
  'a site beside it': { 'sec-fetch-site': 'same-site' },
  'a page of another site that says the right origin': { origin: 'http://localhost', 'sec-fetch-site': 'cross-site' },
};

describe('a change', () => {
  it('from elsewhere is refused on every route, whoever is signed in', async () => {
    const wrong: string[] = [];
    for (const route of changing)
      for (const [what, headers] of Object.entries(ELSEWHERE).slice(0, at(route).startsWith('/api/me') ? 8 : 1)) {
        const reply = await send(route, headers);
        if (reply.statusCode !== 400 || reply.json().code !== 'from-another-site')
          wrong.push(`${nameOf(route)} from ${what}: ${reply.statusCode}`);
      }
    expect(wrong).toEqual([]);
    expect(changing.length).toBeGreaterThan(200);
  }, 240_000);
  it('is not taken in what a form of any page can send: urlencoded, multipart or plain text', async () => {
    const wrong: string[] = [];
    const forms = { 'application/x-www-form-urlencoded': 'a=1', 'multipart/form-data; boundary=x': '--x--\r\n', 'text/plain': '{"a":1}' };
    for (const route of changing.filter(
      ({ method, body, who }) => method !== 'DELETE' && body !== undefined && (typeof who === 'string' || who.includes('owner')),
    ))
      for (const [type, payload] of Object.entries(forms)) {
        const reply = await send(route, { 'content-type': type }, payload);
        if (reply.statusCode !== 415) wrong.push(`${nameOf(route)} as ${type}: ${reply.statusCode}`);
      }
    expect(wrong).toEqual([]);
  }, 120_000);
  it('goes through from the own origin, and from a program that says none and has no browser’s cookie jar', async () => {
    const route = changing.find((one) => nameOf(one) === 'POST /api/me/sessions/end')!;
    const own: Record<string, string>[] = [
      {},
      { origin: 'http://localhost' },
      { origin: 'http://localhost', 'sec-fetch-site': 'same-origin' },
      { 'sec-fetch-site': 'none' },
    ];
    for (const headers of own) expect((await send(route, headers)).json().code, JSON.stringify(headers)).not.toBe('from-another-site');
  });
  it('is never made by reading: no header and no field turns a GET into something else', async () => {
    const before = await api.database.read.rows('SELECT count(*)::int AS n FROM audit_row');
    for (const override of ['x-http-method-override', 'x-http-method', 'x-method-override'])
      for (const url of ['/api/me/sessions/end-others', '/api/mail/pause', '/api/me?_method=DELETE']) {
        const reply = await api
          .app()
          .inject({ method: 'GET', url, headers: { cookie, [override]: 'POST', 'idempotency-key': 'overridden-1' } });
        expect([200, 404], url).toContain(reply.statusCode);
      }
    expect(await api.database.read.rows('SELECT count(*)::int AS n FROM audit_row')).toEqual(before);
  });
});

describe('another origin', () => {
  it('is allowed nothing: no answer says that it may be read, no question ahead is answered', async () => {
    for (const route of routes) {
      const ahead = {
        origin: 'https://evil.example',
        'access-control-request-method': route.method,
        'access-control-request-headers': 'content-type',
      };
      const replies = [
        await api.app().inject({ method: 'OPTIONS', url: at(route), headers: ahead }),
        ...(route.method === 'GET'
          ? [await api.app().inject({ method: 'GET', url: at(route), headers: { cookie, origin: 'https://evil.example' } })]
          : []),
      ];
      expect(replies[0]!.statusCode, nameOf(route)).toBe(404);
      for (const { headers } of replies)
        expect(
          Object.keys(headers).filter((name) => name.startsWith('access-control-')),
          nameOf(route),
        ).toEqual([]);
    }
  }, 120_000);
});

// What every answer says to the browser, by the OWASP HTTP Headers Cheat Sheet and ASVS 5.0, 3.4 (headers), 3.3 (cookies) and 14.3.2 (no-store).
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FastifyInstance } from 'fastify';
import { PAGES } from '@backsight/contract/pages';
import { buildApp } from '../../../apps/api/src/app.ts';
import type { Services } from '../../../apps/api/src/http/services.ts';
import { CAST, PASSWORD } from '../../support/cast.ts';
import { allRoutes, nameOf } from '../../support/contracts.ts';
import { testApi } from '../../support/http.ts';
import { servicesOf } from '../../support/services.ts';
import { withStarter } from '../../support/starter.ts';

const api = testApi();
withStarter(api);
let secure: FastifyInstance;
let services: Services;
beforeAll(async () => {
  services = servicesOf(api, { PUBLIC_URL: 'https://office.test' });
  secure = await buildApp(services);
});
afterAll(() => Promise.all([secure.close(), services.planner.close()]));

type Headers = Record<string, unknown>;
/** What is wrong with the headers of an answer that may hold something of a person. */
function faultsOf(headers: Headers, mayBeKept: boolean): string[] {
  const policy = String(headers['content-security-policy']);
  const directive = (name: string): string => new RegExp(`(?:^|;)${name} ([^;]*)`).exec(policy)?.[1] ?? 'missing';
  const must: [string, boolean][] = [
    ['no script of the page itself or of others', directive('script-src') === "'self'"],
    ['no style of the page itself', directive('style-src') === "'self'"],
    ['nothing else by default', directive('default-src') === "'none'"],
    ['no frame around it', directive('frame-ancestors') === "'none'" && headers['x-frame-options'] === 'DENY'],
    ['no other base, no form to elsewhere', directive('base-uri') === "'none'" && directive('form-action') === "'self'"],
    ['nothing unsafe', !/unsafe|\*|https?:/.test(policy)],
    ['no guess at the type', headers['x-content-type-options'] === 'nosniff'],
    ['no referrer', headers['referrer-policy'] === 'no-referrer'],
    ['no feature that is not used', /geolocation=\(\)/.test(String(headers['permissions-policy']))],
    ['no name of the server', headers['x-powered-by'] === undefined && headers.server === undefined],
    ['no cache', mayBeKept || /no-store|private, no-cache/.test(String(headers['cache-control']))],
  ];
  return must.filter(([, holds]) => !holds).map(([what]) => what);
}

describe('headers', () => {
  it('are safe on every route and page, whoever asks and whatever the answer is', async () => {
    const cookie = String(
      (await api.app().inject({ method: 'POST', url: '/api/session', payload: { email: CAST.owner.email, password: PASSWORD } })).headers[
        'set-cookie'
      ],
    ).split(';')[0]!;
    const wrong: string[] = [];
    const rows = [...(await allRoutes()).filter((route) => nameOf(route) !== 'DELETE /api/session'), ...PAGES];
    for (const row of rows) {
      const url = row.path.replace(/:\w+/g, '-');
      const reply = await api.app().inject({ method: row.method, url, headers: { cookie } });
      const kept = /^\/client-page\/|^\/verify\.js$/.test(url);
      const faults = faultsOf(reply.headers, kept);
      if (faults.length > 0) wrong.push(`${row.method} ${row.path} (${reply.statusCode}): ${faults.join('; ')}`);
    }
    expect(wrong).toEqual([]);
  }, 120_000);
  it('ask for https where people come by it, and only there', async () => {
    const hsts = async (app: FastifyInstance) => (await app.inject({ url: '/api/health' })).headers['strict-transport-security'];
    expect(await hsts(api.app())).toBeUndefined();
    const [, seconds] = /^max-age=(\d+); includeSubDomains$/.exec(String(await hsts(secure))) ?? [];
    expect(Number(seconds)).toBeGreaterThanOrEqual(365 * 86_400); // ASVS 5.0, 3.4.1: a year at least
  });
  it('of pages hold for their own markup: no script, style or handler stands inside', async () => {
    const pages = ['/verify', '/complaints', '/client/x', '/client/after/x', `/client/${'A'.repeat(43)}`];
    for (const url of pages) {
      const { body } = await api.app().inject({ url });
      expect(body.replace(/<script src="[^"]+" defer><\/script>/g, ''), url).not.toMatch(/<script|<style|\sstyle=|\son\w+=|javascript:/i);
    }
  });
});

describe('the session’s cookie', () => {
  const signIn = async (app: FastifyInstance) =>
    String(
      (await app.inject({ method: 'POST', url: '/api/session', payload: { email: CAST.lead.email, password: PASSWORD } })).headers[
        'set-cookie'
      ],
    );
  it('is out of reach of scripts and other sites, and by https bound to this host (RFC 6265bis, 4.1.3.2)', async () => {
    const [plain, bound] = [await signIn(api.app()), await signIn(secure)];
    for (const cookie of [plain, bound]) expect(cookie).toMatch(/; Path=\/; HttpOnly.*SameSite=Strict/);
    expect(plain).toMatch(/^backsight_session=/);
    expect(bound).toMatch(/^__Host-backsight_session=[\w-]{43};.*; Secure/);
    for (const cookie of [plain, bound]) expect(cookie).not.toMatch(/Domain=/i);
    const headers = { cookie: bound.split(';')[0]! };
    expect((await secure.inject({ url: '/api/me', headers })).statusCode).toBe(200);
    const gone = await secure.inject({ method: 'DELETE', url: '/api/session', headers });
    expect(String(gone.headers['set-cookie'])).toMatch(/^__Host-backsight_session=;.*Path=\/; Expires=Thu, 01 Jan 1970.*Secure/);
    expect((await secure.inject({ url: '/api/me', headers })).statusCode).toBe(401);
  });
  it('by https is not taken under its plain name, which a page over http could set', async () => {
    const cookie = (await signIn(secure)).split(';')[0]!.replace('__Host-', '');
    expect((await secure.inject({ url: '/api/me', headers: { cookie } })).statusCode).toBe(401);
  });
});

// Addresses that lead out of their folder or to another site: OWASP, "Path Traversal" and the Unvalidated Redirects and Forwards Cheat Sheet
// (CWE-22, CWE-601).
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FastifyInstance } from 'fastify';
import { buildApp } from '../../../apps/api/src/app.ts';
import { CAST, PASSWORD } from '../../support/cast.ts';
import { testApi } from '../../support/http.ts';
import { servicesOf } from '../../support/services.ts';
import { withStarter } from '../../support/starter.ts';

const api = testApi();
withStarter(api);
const outside = fs.mkdtempSync(path.join(os.tmpdir(), 'backsight-paths-'));
const web = path.join(outside, 'web');
const SECRET = 'nobody may read this';
let app: FastifyInstance;
let closed: () => Promise<unknown>;
beforeAll(async () => {
  fs.mkdirSync(path.join(web, 'assets'), { recursive: true });
  fs.mkdirSync(path.join(outside, 'files'));
  fs.writeFileSync(path.join(web, 'index.html'), '<!doctype html><title>Backsight</title>');
  fs.writeFileSync(path.join(web, 'assets', 'start.js'), 'export {};');
  for (const at of ['secret.key', 'files/secret.key', 'web/.env']) fs.writeFileSync(path.join(outside, at), SECRET);
  const services = servicesOf(api, { DATA_DIR: outside });
  app = await buildApp(services, web);
  closed = () => Promise.all([app.close(), services.planner.close()]);
});
afterAll(async () => {
  await closed();
  fs.rmSync(outside, { recursive: true, force: true });
});

const DOTS = ['..', '%2e%2e', '%252e%252e', '..%00', '....', '..;', '%c0%ae%c0%ae', '%u002e%u002e', '.%2e'];
const SLASHES = ['/', '%2f', '%252f', '\\', '%5c', '%255c', '//', '%c0%af'];
const TAILS = ['secret.key', 'secret.key%00.html', 'files/secret.key', '.env', 'etc/passwd'];
const ways = DOTS.flatMap((dots) => SLASHES.flatMap((slash) => TAILS.map((tail) => `${dots}${slash}${dots}${slash}${tail}`)));

describe('an address with a way out', () => {
  it('reads no file, whatever it begins with', async () => {
    const cookie = String(
      (await app.inject({ method: 'POST', url: '/api/session', payload: { email: CAST.owner.email, password: PASSWORD } })).headers[
        'set-cookie'
      ],
    ).split(';')[0]!;
    const before = [
      '/',
      '/assets/',
      '/client-page/',
      '/client/',
      '/calendar/',
      '/api/job-files/',
      '/api/certificates/',
      '/api/estimates/',
      '/api/docs/static/',
    ];
    for (const at of before)
      for (const way of ways) {
        const reply = await app.inject({ method: 'GET', url: `${at}${way}`, headers: { cookie } });
        expect(reply.body, `${at}${way}`).not.toContain(SECRET);
        expect(reply.statusCode, `${at}${way}`).toBeLessThan(500);
      }
  }, 120_000);
  it('finds no hidden file beside the app', async () => {
    for (const url of ['/.env', '/%2eenv', '/assets/../.env']) expect((await app.inject({ url })).body, url).not.toContain(SECRET);
  });
});

describe('a way to another site', () => {
  const ELSEWHERE = [
    '//evil.example',
    '/\\evil.example',
    'https://evil.example',
    'https:evil.example',
    '/%09/evil.example',
    '////evil.example/%2e%2e',
  ];
  it('is taken from no address and no parameter', async () => {
    for (const to of ELSEWHERE) {
      const asked = ['next', 'return', 'returnTo', 'url', 'redirect', 'to', 'continue']
        .map((name) => `${name}=${encodeURIComponent(to)}`)
        .join('&');
      for (const url of [
        to.startsWith('/') ? to : `/${to}`,
        `/?${asked}`,
        `/sign-in?${asked}`,
        `/verify?${asked}`,
        `/api/me?${asked}`,
        `/client/${'A'.repeat(43)}?${asked}`,
      ]) {
        const { statusCode, headers } = await app.inject({ url });
        expect([statusCode >= 300 && statusCode < 400 ? String(headers.location) : '', headers.refresh ?? ''], url).toEqual(['', '']);
      }
    }
  });
  it('is not made of the host that is asked', async () => {
    const headers = { host: 'evil.example', 'x-forwarded-host': 'evil.example', 'x-forwarded-proto': 'https' };
    const replies = [
      await app.inject({ url: '/verify', headers }),
      await app.inject({ url: '/complaints', headers }),
      await app.inject({
        method: 'POST',
        url: '/api/session/forgotten',
        headers: { ...headers, origin: 'http://evil.example' },
        payload: { email: CAST.anna.email },
      }),
    ];
    for (const { body, headers: sent } of replies) expect(`${body}${JSON.stringify(sent)}`).not.toContain('evil.example');
    const mails = await api.database.read.rows<{ body: string }>(`SELECT body FROM outgoing_mail WHERE to_address = '${CAST.anna.email}'`);
    expect(mails.length).toBe(1);
    expect(mails[0]!.body).not.toContain('evil.example');
  });
});

// The log of what matters for safety (OWASP ASVS 5.0.0, 16.2 and 16.3): sign-ins, changes of how one signs in, and whatever was refused.
import { Writable } from 'node:stream';
import type { InjectOptions } from 'fastify';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildApp } from '../../apps/api/src/app.ts';
import { CAST, PASSWORD } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { servicesOf } from '../support/services.ts';

const api = testApi();
const lines: Record<string, unknown>[] = [];
let app: Awaited<ReturnType<typeof buildApp>>;
beforeAll(async () => {
  const services = servicesOf(api, { LOG_LEVEL: 'fatal', TRUST_PROXY: '1' });
  const logTo = new Writable({ write: (chunk, _, done) => (lines.push(JSON.parse(String(chunk))), done()) });
  app = await buildApp({ ...services, logTo });
  afterAll(() => Promise.all([app.close(), services.planner.close()]));
});

/** The lines that a request leaves. */
async function linesOf(request: InjectOptions) {
  lines.length = 0;
  const reply = await app.inject(request);
  return { reply, lines: [...lines] };
}
const enter = (password: string, headers = {}) =>
  linesOf({ method: 'POST', url: '/api/session', headers, payload: { email: CAST.anna.email, password } });

describe('the security log', () => {
  it('has each sign-in, that failed and that did not, whatever LOG_LEVEL says: when in UTC, what, who, from where, with what', async () => {
    const failed = await enter('not it at all');
    expect(failed.lines).toEqual([
      expect.objectContaining({
        log: 'security',
        time: expect.stringMatching(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/),
        event: 'POST /api/session',
        outcome: 'refused',
        code: 'sign-in-failed',
        from: '127.0.0.1',
        account: expect.stringMatching(/^[0-9a-f]{16}$/),
        reqId: failed.reply.headers['x-request-id'],
      }),
    ]);
    const done = await enter(PASSWORD);
    expect(done.lines).toEqual([expect.objectContaining({ outcome: 'done', personId: CAST.anna.id, factor: 'none' })]);
    const whole = JSON.stringify([...failed.lines, ...done.lines]);
    for (const secret of [CAST.anna.email, PASSWORD, 'not it at all', String(done.reply.headers['set-cookie']).slice(20, 60)])
      expect(whole).not.toContain(secret);
  });

  it('has who was refused what, and what was not valid; what is read or done as it should be is none of it', async () => {
    const cookie = String((await enter(PASSWORD)).reply.headers['set-cookie']).split(';')[0]!;
    const nobody = await linesOf({ url: '/api/people' });
    expect(nobody.lines).toEqual([expect.objectContaining({ event: 'GET /api/people', code: 'not-signed-in', status: 401 })]);
    const denied = await linesOf({ url: '/api/audit', headers: { cookie } });
    expect(denied.lines).toEqual([expect.objectContaining({ event: 'GET /api/audit', code: 'not-allowed', personId: CAST.anna.id })]);
    const wrong = await linesOf({ method: 'PUT', url: '/api/me/password', headers: { cookie }, payload: { password: 7 } });
    expect(wrong.lines).toEqual([expect.objectContaining({ event: 'PUT /api/me/password', code: 'not-valid', status: 422 })]);
    const elsewhere = await linesOf({ method: 'DELETE', url: '/api/session', headers: { cookie, 'sec-fetch-site': 'cross-site' } });
    expect(elsewhere.lines).toEqual([expect.objectContaining({ code: 'from-another-site' })]);
    expect((await linesOf({ url: '/api/people', headers: { cookie } })).lines).toEqual([]);
    const again = await linesOf({
      method: 'PUT',
      url: '/api/me/password',
      headers: { cookie },
      payload: { present: PASSWORD, password: 'herons over the reeds' },
    });
    expect(again.lines).toEqual([expect.objectContaining({ event: 'PUT /api/me/password', outcome: 'done', personId: CAST.anna.id })]);
    expect(JSON.stringify(again.lines)).not.toContain('herons');
  });

  it('says the address that the proxy saw, never one that the caller made up; a line stays one line', async () => {
    const { lines: told } = await enter('x', { 'x-forwarded-for': '198.51.100.7, 203.0.113.9' });
    expect(told).toEqual([expect.objectContaining({ from: '203.0.113.9' })]);
    const direct = { url: '/api/people', remoteAddress: '203.0.113.50', headers: { 'x-forwarded-for': '198.51.100.7' } };
    expect((await linesOf(direct)).lines, 'whoever comes past the proxy').toEqual([expect.objectContaining({ from: '203.0.113.50' })]);
    const { lines: odd } = await linesOf({ url: '/api/no%0A%22such', headers: { 'x-forwarded-for': 'a\u00a0b' } });
    expect(odd.every((line) => typeof line === 'object')).toBe(true);
  });
});

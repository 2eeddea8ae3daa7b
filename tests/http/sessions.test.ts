// Tag: time.
// Sessions over HTTP: where one is signed in, ending that elsewhere, and what ends one by itself.
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildApp } from '../../apps/api/src/app.ts';
import { CAST, PASSWORD, type CastName } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { servicesOf } from '../support/services.ts';
import { ask, cookieOf, enter, later } from '../support/signIns.ts';

const api = testApi();
const wait = (seconds: number) => later(api, seconds);
let strict: Awaited<ReturnType<typeof buildApp>>;
beforeAll(async () => {
  const services = servicesOf(api, { IDLE_MINUTES: '60' });
  strict = await buildApp(services);
  afterAll(() => Promise.all([strict.close(), services.planner.close()]));
});

describe('sessions', () => {
  it('are listed with their browser, and ended one by one or all but this one; nobody ends those of others', async () => {
    wait(3600);
    const here = cookieOf(await enter(api.app(), 'anna', undefined, 'Heron 2.0'));
    const [phone, old] = [
      cookieOf(await enter(api.app(), 'anna', undefined, `Phone ${'x'.repeat(400)}`)),
      cookieOf(await enter(api.app(), 'anna')),
    ];
    const { sessions } = (await ask(api.app(), here, 'GET', '/api/me/security')).body;
    expect(sessions.map(({ agent, here: mine }: { agent: string; here: boolean }) => [agent.slice(0, 9), mine])).toEqual(
      expect.arrayContaining([
        ['Heron 2.0', true],
        ['Phone xxx', false],
        ['Heron 1.0', false],
      ]),
    );
    const other = sessions.find(({ agent }: { agent: string }) => agent.startsWith('Phone'));
    const end = (by: string, body: object) => ask(api.app(), by, 'POST', '/api/me/sessions/end', body);
    expect((await end(cookieOf(await enter(api.app(), 'ben')), { password: PASSWORD, id: other.id })).status).toBe(404);
    expect((await end(here, { password: 'not it at all', id: other.id })).body.code).toBe('password-wrong');
    expect((await end(here, { password: PASSWORD, id: other.id })).status).toBe(200);
    expect([(await ask(api.app(), phone, 'GET', '/api/me')).status, (await ask(api.app(), old, 'GET', '/api/me')).status]).toEqual([
      401, 200,
    ]);
    expect((await end(here, { password: PASSWORD })).body.ended).toBeGreaterThan(0);
    expect([(await ask(api.app(), here, 'GET', '/api/me')).status, (await ask(api.app(), old, 'GET', '/api/me')).status]).toEqual([
      200, 401,
    ]);
  });
  it('are ended by an owner for somebody else, with the own password', async () => {
    const cookie = cookieOf(await enter(api.app(), 'cora'));
    const end = (who: CastName, password: string) =>
      api.send(who, 'POST', `/api/people/${CAST.cora.id}/sessions/end`, { body: { password }, once: true });
    expect((await end('office', PASSWORD)).status).toBe(403);
    expect((await end('owner', 'not it at all')).body.code).toBe('password-wrong');
    expect((await end('owner', PASSWORD)).body).toEqual({ ended: 1 });
    expect((await ask(api.app(), cookie, 'GET', '/api/me')).status).toBe(401);
  });
  it('take the place of the one of before in the same browser, and are ten at most', async () => {
    const app = api.app();
    const first = cookieOf(await enter(app, 'cora'));
    const payload = { email: CAST.cora.email, password: PASSWORD };
    const second = cookieOf(await app.inject({ method: 'POST', url: '/api/session', headers: { cookie: first }, payload }));
    expect([(await ask(app, first, 'GET', '/api/me')).status, (await ask(app, second, 'GET', '/api/me')).status]).toEqual([401, 200]);
    for (let n = 0; n < 10; n++) await enter(app, 'cora');
    expect((await ask(app, second, 'GET', '/api/me')).status, 'the oldest of eleven').toBe(401);
    const { sessions } = (await ask(app, cookieOf(await enter(app, 'cora')), 'GET', '/api/me/security')).body;
    expect(sessions).toHaveLength(10);
  });
  it('end when nobody does anything: after an hour at a desk, four on site, twelve for whoever goes on', async () => {
    const [desk, site] = [cookieOf(await enter(strict, 'office')), cookieOf(await enter(strict, 'anna'))];
    const me = async (cookie: string, headers = {}) => (await ask(strict, cookie, 'GET', '/api/me', undefined, headers)).status;
    wait(50 * 60);
    expect([await me(desk), await me(site)]).toEqual([200, 200]);
    wait(50 * 60);
    expect(await me(desk), 'it was used in between').toBe(200);
    wait(40 * 60);
    expect(await me(desk, { 'x-at-rest': '1' }), 'what a window asks by itself').toBe(200);
    wait(40 * 60);
    expect([await me(desk), await me(site)], 'keeps nobody signed in').toEqual([401, 200]);
    for (let hours = 3; hours < 9; hours += 3) {
      wait(3 * 3600);
      expect(await me(site)).toBe(200);
    }
    wait(3 * 3600);
    expect(await me(site), 'twelve hours are over').toBe(401);
  });
  it('end when a person gets other roles or leaves, and not when only the phone changes', async () => {
    const cookie = cookieOf(await enter(api.app(), 'ben'));
    const change = async (body: object) => {
      const { version } = (await api.send('owner', 'GET', `/api/people/${CAST.ben.id}`)).body;
      expect((await api.send('owner', 'PATCH', `/api/people/${CAST.ben.id}`, { version, body })).status).toBe(200);
      return (await ask(api.app(), cookie, 'GET', '/api/me')).status;
    };
    expect(await change({ phone: '920-555-0199' })).toBe(200);
    expect(await change({ roles: ['inspector'] })).toBe(200);
    expect(await change({ roles: ['inspector', 'office_manager'] })).toBe(401);
  });
});

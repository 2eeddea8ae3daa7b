// People over HTTP: who may, what is refused, what is remembered.
import { describe, expect, it } from 'vitest';
import { CAST, OFFICE, PASSWORD } from '../support/cast.ts';
import { testApi } from '../support/http.ts';

const api = testApi();

const newcomer = (n: number) => ({
  id: `00000000-0000-7000-8000-00000000090${n}`,
  officeId: OFFICE,
  startedOn: '2026-05-01',
  name: 'Nils Newcomer',
  email: `nils${n}@test.example`,
  phone: '920-555-0177',
  trainee: false,
  mayLead: true,
  homeAddress: '5 Shore Road, Stony Ferry',
  homeLat: 44.11,
  homeLon: -88.71,
  roles: ['inspector'],
});

describe('signing in', () => {
  it('opens a session with the right password', async () => {
    const me = await api.send('office', 'GET', '/api/me');
    expect(me).toMatchObject({ status: 200, body: { name: 'Otto Office', roles: ['office_manager'], firm: 'Test Inspections' } });
  });
  it('refuses a wrong password and an unknown address with the same words', async () => {
    const wrong = await api.send('nobody', 'POST', '/api/session', { body: { email: CAST.dan.email, password: 'not the password' } });
    const unknown = await api.send('nobody', 'POST', '/api/session', { body: { email: 'who@test.example', password: PASSWORD } });
    expect(wrong).toMatchObject({ status: 401, body: { code: 'sign-in-failed' } });
    expect(unknown.body).toEqual(wrong.body);
  });
  it('pauses after five failures, and says for how long', async () => {
    const tries = [];
    for (let i = 0; i < 6; i++)
      tries.push(await api.send('nobody', 'POST', '/api/session', { body: { email: CAST.cora.email, password: 'x' } }));
    expect(tries.map((t) => t.status)).toEqual([401, 401, 401, 401, 401, 429]);
    expect(tries[5]!.body.title).toBe('Too many failed attempts. Try again in 15 minutes.');
  });
  it('ends a session by signing out', async () => {
    const signed = await api
      .app()
      .inject({ method: 'POST', url: '/api/session', payload: { email: CAST.second.email, password: PASSWORD } });
    const cookie = String(signed.headers['set-cookie']).split(';')[0]!;
    expect(signed.headers['set-cookie']).toMatch(/HttpOnly; SameSite=Strict/);
    await api.app().inject({ method: 'DELETE', url: '/api/session', headers: { cookie } });
    expect((await api.app().inject({ url: '/api/me', headers: { cookie } })).statusCode).toBe(401);
  });
  it('refuses a write that another site makes the browser send', async () => {
    const answer = await api.send('owner', 'POST', '/api/people', { body: newcomer(9), headers: { 'sec-fetch-site': 'cross-site' } });
    expect(answer).toMatchObject({ status: 400, body: { code: 'from-another-site' } });
  });
});

describe('adding a person', () => {
  it('adds one, and sending it twice adds one', async () => {
    const answer = await api.send('office', 'POST', '/api/people', { body: newcomer(1) });
    expect(answer).toMatchObject({ status: 201, body: { id: newcomer(1).id } });
    const list = await api.send('office', 'GET', '/api/people');
    expect(list.body.filter((p: { email: string }) => p.email === newcomer(1).email)).toHaveLength(1);
  });
  it.each(['anna', 'lead'] as const)('is not for %s', async (who) => {
    expect(await api.send(who, 'POST', '/api/people', { body: newcomer(2) })).toMatchObject({ status: 403, body: { code: 'not-allowed' } });
  });
  it('is not for nobody', async () => {
    expect((await api.send('nobody', 'POST', '/api/people', { body: newcomer(2) })).status).toBe(401);
  });
  it('refuses an address that signs somebody else in, by the constraint', async () => {
    expect(await api.send('owner', 'POST', '/api/people', { body: { ...newcomer(3), email: CAST.anna.email } })).toMatchObject({
      status: 409,
      body: { code: 'email-taken' },
    });
  });
  it('names every field that does not fit', async () => {
    const answer = await api.send('owner', 'POST', '/api/people', { body: { ...newcomer(4), email: 'no address', homeLat: 123 } });
    expect(answer.status).toBe(422);
    expect(answer.headers['content-type']).toMatch('application/problem+json');
    expect(answer.body.errors.map((e: { field: string }) => e.field)).toEqual(['email', 'homeLat']);
  });
  it('refuses a request without a key, and one key for two contents', async () => {
    const bare = await api.app().inject({ method: 'POST', url: '/api/people', headers: { cookie: '' }, payload: newcomer(5) });
    expect(bare.statusCode).toBe(401);
    const key = 'one-key-for-two';
    await api.send('owner', 'POST', '/api/people', { body: newcomer(5), key });
    expect(await api.send('owner', 'POST', '/api/people', { body: newcomer(6), key })).toMatchObject({
      status: 409,
      body: { code: 'key-reused' },
    });
  });
});

describe('roles and passwords', () => {
  it('the office adds inspectors, and only an owner makes owners', async () => {
    expect(await api.send('office', 'POST', '/api/people', { body: { ...newcomer(7), roles: ['owner'] } })).toMatchObject({
      status: 403,
      body: { code: 'role-not-yours-to-give', field: 'roles' },
    });
    expect((await api.send('owner', 'POST', '/api/people', { body: { ...newcomer(7), roles: ['lead_inspector'] } })).status).toBe(201);
  });
  it("one changes one's own password with the present one, and the old one stops working", async () => {
    const signIn = (password: string) =>
      api.app().inject({ method: 'POST', url: '/api/session', payload: { email: CAST.tess.email, password } });
    expect(
      await api.send('tess', 'PUT', '/api/me/password', { body: { present: 'wrong', password: 'another long password' } }),
    ).toMatchObject({ status: 422, body: { code: 'password-wrong', field: 'present' } });
    const before = api.cookie('tess');
    expect(
      (await api.send('tess', 'PUT', '/api/me/password', { body: { present: PASSWORD, password: 'another long password' } })).status,
    ).toBe(200);
    expect((await signIn(PASSWORD)).statusCode).toBe(401);
    expect((await signIn('another long password')).statusCode).toBe(200);
    expect((await api.app().inject({ url: '/api/me', headers: { cookie: before } })).statusCode, 'under the token of before').toBe(401);
    expect((await api.send('tess', 'GET', '/api/me')).status).toBe(200);
  });
  it('are refused where they are among the most used, or hardly more than names; length alone counts besides', async () => {
    const choose = (password: string) =>
      api.send('tess', 'PUT', '/api/me/password', { body: { present: 'another long password', password } });
    const no = async (password: string) => (await choose(password)).body.code;
    expect(await no('Qwerty123456')).toBe('password-common');
    expect(await no('leavemealone')).toBe('password-common');
    expect(await no('ababababababab')).toBe('password-common');
    expect(await no('Backsight2026!')).toBe('password-of-names');
    expect(await no(`${CAST.tess.name.replaceAll(' ', '')}-1999`)).toBe('password-of-names');
    expect(await no('eleven char')).toBe('password-too-short');
    expect((await choose('\u{1F438} leaps over the \u{1F333}')).status, 'any characters').toBe(200);
    const wrong = await api.send('owner', 'PUT', `/api/people/${CAST.tess.id}/password`, {
      body: { owners: 'x', password: 'long and wide lake' },
    });
    expect(wrong.body).toMatchObject({ code: 'password-wrong', field: 'owners' });
    const long = 'z9 '.repeat(60);
    expect(
      (await api.send('tess', 'PUT', '/api/me/password', { body: { present: '\u{1F438} leaps over the \u{1F333}', password: `a${long}` } }))
        .status,
    ).toBe(200);
    const signIn = (password: string) =>
      api.app().inject({ method: 'POST', url: '/api/session', payload: { email: CAST.tess.email, password } });
    expect(
      [(await signIn(`a${long}`)).statusCode, (await signIn(`a${long.trim()}`)).statusCode],
      'as it was typed, to the last blank',
    ).toEqual([200, 401]);
  });
  it('an address to sign in with is changed with the own password, and both addresses hear of it', async () => {
    const { version, email } = (await api.send('owner', 'GET', `/api/people/${CAST.cora.id}`)).body;
    const move = (body: object) => api.send('owner', 'PATCH', `/api/people/${CAST.cora.id}`, { version, body });
    expect((await move({ email: 'cora.new@test.example' })).body).toMatchObject({ code: 'password-needed', field: 'password' });
    expect((await move({ email: 'cora.new@test.example', password: 'x' })).body.code).toBe('password-wrong');
    expect((await move({ email: email.toUpperCase() })).status, 'the same address').toBe(200);
    expect(
      (
        await api.send('owner', 'PATCH', `/api/people/${CAST.cora.id}`, {
          version: version + 1,
          body: { email: 'cora.new@test.example', password: PASSWORD },
        })
      ).status,
    ).toBe(200);
    const told = await api.database.read.rows<{ to: string }>(
      `SELECT to_address AS to FROM outgoing_mail WHERE message_key LIKE 'sign-in-changed:%' AND body LIKE '%cora.new@test.example%' ORDER BY id`,
    );
    expect(told.map(({ to }) => to.toLowerCase())).toEqual([email, 'cora.new@test.example']);
  });
  it("the owner gives a new password, which ends the person's sessions; nobody else may", async () => {
    expect(
      (
        await api.send('office', 'PUT', `/api/people/${CAST.lead2.id}/password`, {
          body: { owners: PASSWORD, password: 'given by the owner' },
        })
      ).status,
    ).toBe(403);
    expect((await api.send('lead2', 'GET', '/api/me')).status).toBe(200);
    expect(
      (
        await api.send('owner', 'PUT', `/api/people/${CAST.lead2.id}/password`, {
          body: { owners: PASSWORD, password: 'given by the owner' },
        })
      ).status,
    ).toBe(200);
    expect((await api.send('lead2', 'GET', '/api/me')).status).toBe(401);
    expect(
      await api.send('owner', 'PUT', `/api/people/${CAST.lead2.id}/password`, { body: { owners: PASSWORD, password: 'short' } }),
    ).toMatchObject({
      status: 422,
      body: { code: 'password-too-short' },
    });
  });
});

describe('changing a person', () => {
  it('keeps the newest version and refuses the stale one', async () => {
    const before = await api.send('owner', 'GET', `/api/people/${CAST.ben.id}`);
    const done = await api.send('owner', 'PATCH', `/api/people/${CAST.ben.id}`, {
      version: before.body.version,
      body: { phone: '920-555-0188' },
    });
    expect(done).toMatchObject({ status: 200, body: { version: before.body.version + 1 } });
    const stale = await api.send('owner', 'PATCH', `/api/people/${CAST.ben.id}`, {
      version: before.body.version,
      body: { phone: '920-555-0189' },
    });
    expect(stale).toMatchObject({ status: 412, body: { code: 'changed-meanwhile' } });
    expect((await api.send('owner', 'GET', `/api/people/${CAST.ben.id}`)).body.phone).toBe('920-555-0188');
  });
  it('needs the version that was seen', async () => {
    expect(await api.send('owner', 'PATCH', `/api/people/${CAST.ben.id}`, { body: { phone: '1' } })).toMatchObject({
      status: 400,
      body: { code: 'version-missing' },
    });
  });
  it('keeps the last owner', async () => {
    const second = await api.send('owner', 'GET', `/api/people/${CAST.second.id}`);
    expect(
      (await api.send('owner', 'PATCH', `/api/people/${CAST.second.id}`, { version: second.body.version, body: { roles: [] } })).status,
    ).toBe(200);
    const owner = await api.send('owner', 'GET', `/api/people/${CAST.owner.id}`);
    expect(
      await api.send('owner', 'PATCH', `/api/people/${CAST.owner.id}`, { version: owner.body.version, body: { roles: ['inspector'] } }),
    ).toMatchObject({ status: 409, body: { code: 'last-owner', field: 'roles' } });
  });
});

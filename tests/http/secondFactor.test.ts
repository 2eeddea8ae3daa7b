// Tag: time.
// The second factor over HTTP: setting up, signing in with it, losing it, who must have one; and links to choose a password.
import { TOTP, Secret } from 'otpauth';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildApp } from '../../apps/api/src/app.ts';
import { CAST, OFFICE, PASSWORD } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { servicesOf } from '../support/services.ts';
import { ask, cookieOf, enter, lastTold, later as wait } from '../support/signIns.ts';

const api = testApi();
let strict: Awaited<ReturnType<typeof buildApp>>;
let otherKey: typeof strict;
beforeAll(async () => {
  const services = servicesOf(api, { SECOND_FACTOR: 'owners' });
  strict = await buildApp(services);
  otherKey = await buildApp({ ...services, secretKey: Buffer.alloc(32, 9) });
  afterAll(() => Promise.all([strict.close(), otherKey.close(), services.planner.close()]));
});

type App = typeof strict;
const later = (seconds: number) => wait(api, seconds);
const lastMail = (to: string) => lastTold(api, to);
const shownBy = (secret: string): string =>
  new TOTP({ secret: Secret.fromBase32(secret) }).generate({ timestamp: api.clock.now.getTime() });

/** Sets it up and answers how to go on. */
async function setUp(app: App, cookie: string) {
  const begun = await ask(app, cookie, 'POST', '/api/me/second-factor', { password: PASSWORD });
  expect(begun.status, JSON.stringify(begun.body)).toBe(200);
  const confirmed = await ask(app, cookie, 'PUT', '/api/me/second-factor', { code: shownBy(begun.body.secret) });
  return { secret: begun.body.secret as string, codes: confirmed.body.codes as string[], cookie: confirmed.cookie };
}

describe('the second factor', () => {
  let secret: string;
  let codes: string[];
  it('is begun with the present password, counts from the first code of the phone on, and ends the other sessions', async () => {
    let [here, elsewhere] = [cookieOf(await enter(api.app(), 'lead')), cookieOf(await enter(api.app(), 'lead'))];
    expect(await ask(api.app(), here, 'POST', '/api/me/second-factor', { password: 'not it at all' })).toMatchObject({
      status: 422,
      body: { code: 'password-wrong' },
    });
    expect(await ask(api.app(), here, 'PUT', '/api/me/second-factor', { code: '123456' })).toMatchObject({
      body: { code: 'factor-not-begun' },
    });
    await ask(api.app(), here, 'POST', '/api/me/second-factor', { password: PASSWORD });
    expect(await ask(api.app(), here, 'PUT', '/api/me/second-factor', { code: '000000' })).toMatchObject({
      status: 401,
      body: { code: 'code-wrong', field: 'code' },
    });
    expect((await enter(api.app(), 'lead')).statusCode, 'not asked for before it is confirmed').toBe(200);
    const before = here;
    ({ secret, codes, cookie: here } = await setUp(api.app(), here));
    expect((await ask(api.app(), before, 'GET', '/api/me')).status, 'the token of before opens nothing').toBe(401);
    expect(await lastMail(CAST.lead.email)).toBe('From now on you sign in with your password and a code of your phone.');
    expect([new Set(codes).size, codes.every((code) => /^([a-z2-9]{4}-){6}[a-z2-9]{4}$/.test(code))]).toEqual([10, true]);
    expect((await ask(api.app(), elsewhere, 'GET', '/api/me')).status).toBe(401);
    expect((await ask(api.app(), here, 'GET', '/api/me/security')).body).toMatchObject({ factor: 'on', mustHave: false, codesLeft: 10 });
    const rows = await api.database.read.rows<{ whole: string }>(
      `SELECT (SELECT string_agg(t::text, ' ') FROM second_factor t) || ' ' || (SELECT string_agg(t::text, ' ') FROM recovery_code t) AS whole`,
    );
    for (const clear of [secret, Buffer.from(Secret.fromBase32(secret).bytes).toString('hex'), ...codes])
      expect(rows[0]!.whole).not.toContain(clear);
  });

  it('is asked for after the right password alone, and each code is good once, also for two at once', async () => {
    const wrong = await api
      .app()
      .inject({ method: 'POST', url: '/api/session', payload: { email: CAST.lead.email, password: 'not it at all', code: '1' } });
    expect(wrong.json()).toMatchObject({ code: 'sign-in-failed' });
    expect((await enter(api.app(), 'lead')).json()).toMatchObject({ code: 'code-needed', field: 'code', status: 401 });
    later(60);
    const both = await Promise.all([enter(api.app(), 'lead', shownBy(secret)), enter(api.app(), 'lead', shownBy(secret))]);
    expect(both.map(({ statusCode }) => statusCode).sort()).toEqual([200, 401]);
    expect((await enter(api.app(), 'lead', shownBy(secret))).json()).toMatchObject({ code: 'code-wrong' });
    later(60);
    expect((await enter(api.app(), 'lead', shownBy(secret).replace(/(...)/, '$1 '))).statusCode).toBe(200);
  });

  it('is made good by a recovery code, each once; new ones take the place of the old', async () => {
    expect((await enter(api.app(), 'lead', codes[0]!.toUpperCase().replaceAll('-', ' '))).statusCode).toBe(200);
    expect((await enter(api.app(), 'lead', codes[0])).json()).toMatchObject({ code: 'code-wrong' });
    const cookie = cookieOf(await enter(api.app(), 'lead', codes[1]));
    expect((await ask(api.app(), cookie, 'GET', '/api/me/security')).body.codesLeft).toBe(8);
    expect(await lastMail(CAST.lead.email)).toMatch(/^Somebody signed in with one of your recovery codes/);
    const renew = (password: string, code: string) => ask(api.app(), cookie, 'POST', '/api/me/recovery-codes', { password, code });
    expect((await renew('not it at all', shownBy(secret))).body.code).toBe('password-wrong');
    expect((await renew(PASSWORD, '000000')).body.code).toBe('code-wrong');
    later(60);
    const renewed = await renew(PASSWORD, shownBy(secret));
    expect(await lastMail(CAST.lead.email)).toMatch(/^You have new recovery codes/);
    expect(renewed.body.codes).toHaveLength(10);
    expect((await enter(api.app(), 'lead', codes[2])).json()).toMatchObject({ code: 'code-wrong' });
    expect((await enter(otherKey, 'lead', '123456')).json().title).toMatch(/lost the key of your second factor/);
    expect((await enter(otherKey, 'lead', renewed.body.codes[0])).statusCode).toBe(200);
  });

  it('counts wrong codes as failures, which pause nobody else', async () => {
    later(3600);
    for (let n = 0; n < 5; n++) await enter(api.app(), 'lead', '000000');
    expect((await enter(api.app(), 'lead', shownBy(secret))).json()).toMatchObject({ code: 'sign-in-paused', status: 429 });
    const fromElsewhere = await api.app().inject({
      method: 'POST',
      url: '/api/session',
      remoteAddress: '10.1.2.3',
      payload: { email: CAST.lead.email, password: PASSWORD, code: shownBy(secret) },
    });
    expect(fromElsewhere.statusCode, 'the account is open from another address').toBe(200);
  });

  it('is paused for an address that tries many accounts', async () => {
    const tried = async (n: number) =>
      (
        await api.app().inject({
          method: 'POST',
          url: '/api/session',
          remoteAddress: '10.9.9.9',
          payload: { email: `who${n}@test.example`, password: 'x' },
        })
      ).statusCode;
    const codesSeen: number[] = [];
    for (let n = 0; n < 21; n++) codesSeen.push(await tried(n));
    expect([codesSeen.filter((code) => code === 401).length, codesSeen.at(-1)]).toEqual([20, 429]);
    expect((await enter(api.app(), 'office')).statusCode).toBe(200);
  });

  it('is what an owner has: nothing else can be done before, and it stays', async () => {
    later(3600);
    const first = cookieOf(await enter(strict, 'owner'));
    expect((await ask(strict, first, 'GET', '/api/me')).body).toMatchObject({ name: CAST.owner.name, factorNeeded: true });
    expect(await ask(strict, first, 'GET', '/api/people')).toMatchObject({ status: 403, body: { code: 'factor-needed' } });
    const { secret: own, codes: ownCodes, cookie } = await setUp(strict, first);
    expect((await ask(strict, cookie, 'GET', '/api/people')).status).toBe(200);
    expect((await ask(strict, cookie, 'GET', '/api/me')).body.factorNeeded).toBe(false);
    expect(await ask(strict, cookie, 'POST', '/api/me/second-factor/off', { password: PASSWORD, code: '1' })).toMatchObject({
      status: 409,
      body: { code: 'factor-must-stay' },
    });
    later(60);
    expect((await ask(strict, cookieOf(await enter(strict, 'owner', shownBy(own))), 'GET', '/api/people')).status).toBe(200);
    expect((await ask(strict, cookieOf(await enter(strict, 'office')), 'GET', '/api/me')).body.factorNeeded).toBe(false);
    const lax = cookieOf(await enter(api.app(), 'owner', ownCodes[0]));
    const off = (code: string) => ask(api.app(), lax, 'POST', '/api/me/second-factor/off', { password: PASSWORD, code });
    expect((await off(ownCodes[0]!)).body.code, 'the password alone is not enough').toBe('code-wrong');
    const elsewhere = cookieOf(await enter(api.app(), 'owner', ownCodes[1]));
    expect((await off(ownCodes[2]!)).status).toBe(200);
    expect((await ask(api.app(), elsewhere, 'GET', '/api/me')).status, 'other sessions end').toBe(401);
    expect(await lastMail(CAST.owner.email)).toBe('From now on your password alone signs you in.');
    expect((await enter(api.app(), 'owner')).statusCode).toBe(200);
  });

  it('is taken off by an owner for somebody who lost everything', async () => {
    const cookie = cookieOf(await enter(api.app(), 'owner'));
    const off = (by: string, id: string, password = PASSWORD) =>
      ask(api.app(), by, 'POST', `/api/people/${id}/second-factor/off`, { password });
    expect((await off(cookieOf(await enter(api.app(), 'office')), CAST.lead.id)).status).toBe(403);
    expect((await off(cookie, CAST.lead.id, 'not it at all')).body.code).toBe('password-wrong');
    expect((await off(cookie, CAST.lead.id)).status).toBe(200);
    expect(await lastMail(CAST.lead.email)).toMatch(/^Your second factor was taken off/);
    expect((await enter(api.app(), 'lead')).statusCode).toBe(200);
    const oneself = await off(cookie, CAST.owner.id);
    expect(oneself).toMatchObject({ status: 409, body: { code: 'factor-of-oneself' } });
  });
});

describe('a link to choose a password', () => {
  const newMail = async (to: string): Promise<{ body: string; token: string }> => {
    const [mail] = await api.database.read.rows<{ body: string }>(
      `SELECT body FROM outgoing_mail WHERE to_address = $1 ORDER BY recorded_at DESC, id DESC LIMIT 1`,
      [to],
    );
    return { body: mail!.body, token: /\/new-password\/([\w-]{43})\b/.exec(mail!.body)![1]! };
  };
  const choose = (token: string, password: string) =>
    api.send('nobody', 'POST', '/api/session/new-password', { body: { token, password }, once: true });
  const signsIn = async (email: string, password: string) =>
    (await api.app().inject({ method: 'POST', url: '/api/session', payload: { email, password } })).statusCode;
  const nora = {
    id: '00000000-0000-7000-8000-000000000977',
    officeId: OFFICE,
    startedOn: '2026-05-01',
    name: 'Nora New',
    email: 'nora@test.example',
  };
  const rest = {
    phone: '920-555-0177',
    trainee: false,
    mayLead: true,
    homeAddress: '5 Shore Road',
    homeLat: 44.1,
    homeLon: -88.7,
    roles: ['inspector'],
  };

  it('invites whoever is new; it opens once, within three days, and nobody reads it in the outbox', async () => {
    later(60);
    expect((await api.send('office', 'POST', '/api/people', { body: { ...nora, ...rest } })).status).toBe(201);
    expect((await api.send('office', 'GET', `/api/people/${nora.id}`)).body.canSignIn).toBe(false);
    expect((await api.send('anna', 'POST', `/api/people/${nora.id}/invitation`, { once: true })).status).toBe(403);
    expect((await api.send('office', 'POST', `/api/people/${CAST.anna.id}/invitation`, { once: true })).body.code).toBe(
      'invite-has-password',
    );
    expect((await api.send('office', 'POST', `/api/people/${nora.id}/invitation`, { once: true })).status).toBe(200);
    const { token } = await newMail(nora.email);
    await api.database.transaction(({ db }) => db.outgoingMail.updateMany({ where: { toAddress: nora.email }, data: { state: 'kept' } }));
    const outbox = await api.send('office', 'GET', '/api/mail');
    expect(JSON.stringify(outbox.body)).toContain('/new-password/...');
    expect(JSON.stringify(outbox.body)).not.toContain(token);
    const mailId = outbox.body.items.find(({ toAddress }: { toAddress: string }) => toAddress === nora.email).id;
    expect((await api.send('owner', 'POST', `/api/mail/${mailId}/anew`, { body: { toAddress: 'thief@test.example' } })).body.code).toBe(
      'mail-link-spent',
    );
    expect((await choose(token, 'short')).body).toMatchObject({ code: 'password-too-short', field: 'password' });
    expect((await choose(`${token.slice(1)}x`, 'four words of nora')).body.code).toBe('password-link-spent');
    expect((await choose(token, 'four words of nora')).status).toBe(200);
    expect(await signsIn(nora.email, 'four words of nora')).toBe(200);
    expect((await choose(token, 'four other words')).body.code).toBe('password-link-spent');
  });

  it('is sent to whoever forgot, with the same answer for every address, three times in an hour at most; it ends what went on', async () => {
    const cookie = cookieOf(
      await api.app().inject({ method: 'POST', url: '/api/session', payload: { email: nora.email, password: 'four words of nora' } }),
    );
    const forgot = (email: string) => api.send('nobody', 'POST', '/api/session/forgotten', { body: { email }, once: true });
    const [known, unknown] = [await forgot(nora.email.toUpperCase()), await forgot('who@test.example')];
    expect([known.status, known.body]).toEqual([unknown.status, unknown.body]);
    const first = await newMail(nora.email);
    later(60);
    await forgot(nora.email);
    const second = await newMail(nora.email);
    for (let n = 0; n < 3; n++) await forgot(nora.email);
    const [count] = await api.database.read.rows<{ n: number }>(
      `SELECT count(*)::int AS n FROM outgoing_mail WHERE subject LIKE 'A new password%'`,
    );
    expect(count!.n, 'the invitation counts too').toBe(2);
    expect((await choose(first.token, 'five new words of nora')).status).toBe(200);
    expect((await choose(second.token, 'six words of somebody')).body.code, 'the others are spent with it').toBe('password-link-spent');
    expect((await ask(api.app(), cookie, 'GET', '/api/me')).status).toBe(401);
    expect([await signsIn(nora.email, 'four words of nora'), await signsIn(nora.email, 'five new words of nora')]).toEqual([401, 200]);
    later(3700);
    await forgot(nora.email);
    const old = await newMail(nora.email);
    later(3700);
    expect((await choose(old.token, 'seven words of nora')).body.code).toBe('password-link-spent');
  });
});

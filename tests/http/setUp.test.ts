// Setting up a real firm: only while there is none, only with the code, once.
import { beforeAll, describe, expect, it } from 'vitest';
import pg from 'pg';
import { codeDigest, setUp, type SetUpInput } from '@backsight/usecases/firm/setUp';
import { townsAround } from '@backsight/usecases/jobs/steps/zipPlace';
import { STARTER } from '../../prisma/seed/starter/starter.ts';
import { SET_UP_CODE, testApi } from '../support/http.ts';
import { testService } from '../support/database.ts';

const weekday: [number, number] = [480, 1020];
const uuid = (n: number): string => `00000000-0000-7000-8000-00000000a0${String(n).padStart(2, '0')}`;
const input = (n: number, more: Partial<SetUpInput> = {}): SetUpInput => ({
  code: SET_UP_CODE,
  firm: {
    name: 'Lakeside Inspections',
    phone: '920-555-0100',
    email: 'office@lakeside.example',
    address: '2 Pier Road, Birchmere',
    zone: 'America/Chicago',
    onCallPhone: '920-555-0101',
  },
  office: {
    id: uuid(n),
    name: 'Birchmere',
    jurisdiction: 'US-WI',
    address: '2 Pier Road, Birchmere',
    lat: 44.03,
    lon: -88.54,
    hours: { 1: weekday, 2: weekday, 3: weekday, 4: weekday, 5: weekday, 6: null, 7: null },
  },
  owner: {
    id: uuid(n + 50),
    name: 'Oda Owner',
    email: `oda${n}@lakeside.example`,
    phone: '920-555-0102',
    password: 'a long test password',
  },
  beginWithExamples: false,
  ...more,
});

describe('where a firm is', () => {
  const api = testApi();
  it('says that no set-up is needed, and refuses one even with the code', async () => {
    expect((await api.send('nobody', 'GET', '/api/set-up')).body).toEqual({ needed: false });
    expect(await api.send('nobody', 'POST', '/api/set-up', { body: input(1) })).toMatchObject({
      status: 409,
      body: { code: 'already-set-up' },
    });
  });
  it('names everything that is wrong at once, in plain words', async () => {
    const { firm, office, owner } = input(1);
    const body = {
      ...input(1),
      firm: { ...firm, name: 'Two\nlines', phone: 'abc', email: 'no mail' },
      office: { ...office, hours: { ...office.hours, 3: [900, 480] } },
      owner: { ...owner, password: 'short' },
    };
    expect(await api.send('nobody', 'POST', '/api/set-up', { body })).toMatchObject({
      status: 422,
      body: {
        errors: [
          { field: 'firm.name', message: 'Write this in one line.' },
          { field: 'firm.phone', message: 'Give the whole number, like 920-555-0100.' },
          { field: 'firm.email', message: 'This is not an e-mail address.' },
          { field: 'office.hours.3', message: 'On Wednesday the office must close after it opens.' },
          { field: 'owner.password', message: 'A password needs at least 12 characters.' },
        ],
      },
    });
  });
});

describe('where no firm is', () => {
  const service = testService();
  const act = setUp({ codeSha256: codeDigest(SET_UP_CODE), starter: STARTER });
  const run = (what: SetUpInput) => service.runner.run(act, what, { actor: { kind: 'service' } });
  const firms = async () => (await service.database.read.rows<{ n: number }>('SELECT count(*)::int AS n FROM firm'))[0]!.n;

  it.each([
    ['a wrong code', { code: 'guessed-it-1234' }, 'set-up-code-wrong', 'code'],
    ['a zone that is none', { firm: { ...input(1).firm, zone: 'Lake/Time' } }, 'zone-unknown', 'firm.zone'],
    [
      'a ZIP code that is none',
      { office: { ...input(1).office, lat: undefined, zip: '00000' } as never },
      'office-zip-not-known',
      'office.zip',
    ],
    [
      'an office that is nowhere',
      { office: { ...input(1).office, jurisdiction: undefined } as never },
      'office-place-missing',
      'office.zip',
    ],
    ['a short password', { owner: { ...input(1).owner, password: 'short' } }, 'password-too-short', 'owner.password'],
    [
      'hours that end before they begin',
      { office: { ...input(1).office, hours: { ...input(1).office.hours, 3: [900, 480] as [number, number] } } },
      'hours-backwards',
      'office.hours.3',
    ],
  ])('refuses %s and saves nothing', async (_, more, code, field) => {
    expect(await run(input(1, more))).toMatchObject({ ok: false, code, field });
    expect(await firms()).toBe(0);
  });
  it('refuses when this start printed no code', async () => {
    expect(await service.runner.run(setUp({ codeSha256: null, starter: STARTER }), input(1), { actor: { kind: 'service' } })).toMatchObject(
      { ok: false, code: 'set-up-code-wrong' },
    );
  });
  it('lets exactly one of six at once begin, with the example set whole', async () => {
    const runs = await Promise.all([1, 2, 3, 4, 5, 6].map((n) => run(input(n, { beginWithExamples: true }))));
    expect(runs.filter((r) => r.ok)).toHaveLength(1);
    expect(runs.filter((r) => !r.ok).map((r) => !r.ok && r.code)).toEqual(Array(5).fill('already-set-up'));
    const [counts] = await service.database.read.rows(
      `SELECT (SELECT count(*)::int FROM firm) AS firms, (SELECT count(*)::int FROM person) AS people, (SELECT count(*)::int FROM service) AS services, (SELECT count(*)::int FROM in_force_period) AS "inForce"`,
    );
    expect(counts).toEqual({ firms: 1, people: 1, services: STARTER.services.length, inForce: STARTER.procedures.length });
  });
});

describe('the start', () => {
  const service = testService();
  let roles: string[];
  beforeAll(async () => {
    const { zone: _zone, ...firm } = input(1).firm;
    const { jurisdiction: _state, lat: _lat, lon: _lon, ...office } = input(1).office;
    const typed = { ...input(1), firm, office: { ...office, zip: '48104' } };
    await service.runner.run(setUp({ codeSha256: codeDigest(SET_UP_CODE), starter: STARTER }), typed, { actor: { kind: 'service' } });
    const client = new pg.Client(service.url);
    await client.connect();
    roles = (await client.query('SELECT role FROM person_role')).rows.map((r) => r.role);
    await client.end();
  });
  it('makes an owner and, without the examples, nothing else', async () => {
    expect(roles).toEqual(['owner']);
    expect((await service.database.read.rows('SELECT 1 FROM service')).length).toBe(0);
  });
  it('takes place, state and zone from the ZIP code of the office, and the towns around, never those of the examples', async () => {
    expect(
      await service.database.read.rows(
        `SELECT o.jurisdiction, o.zone, round(o.lat::numeric, 1) AS lat, round(o.lon::numeric, 1) AS lon FROM office o`,
      ),
    ).toEqual([{ jurisdiction: 'US-MI', zone: 'America/Detroit', lat: 42.3, lon: -83.7 }]);
    const towns = await townsAround({ lat: 42.28, lon: -83.73 });
    expect(towns[0]).toMatchObject({ name: 'Ann Arbor' });
    expect(towns.map(({ name }) => name)).toContain('Ypsilanti');
    expect(towns.length).toBeLessThanOrEqual(60);
  });
});

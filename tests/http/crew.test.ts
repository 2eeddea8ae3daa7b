// Who comes besides the pair: outside providers, observers, and people in training as the second.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { dayIn } from '@backsight/store/database';
import { CAST, type CastName } from '../support/cast.ts';
import { FACTS, holdBody } from '../support/booking.ts';
import { deskOf } from '../support/desk.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);

const { starts, job, crew, mails, held, booked } = deskOf(api);
const SEPTIC = { ...FACTS, waste: 'septic' as const };

const PROVIDER = {
  name: 'Cattail Septic Evaluations',
  phone: '920-555-0192',
  serviceKey: 'septic',
  contractsWithUs: false,
  costCents: 36_000,
  minutes: 60,
  offsetMinutes: 30,
  licenseUntil: '2026-12-31',
  insuranceUntil: '2026-05-14',
  endedOn: null,
};
const withSeptic = { facts: SEPTIC, services: ['inspection', 'septic'] };
const idOf = (name: CastName) => CAST[name].id;

describe('outside providers', () => {
  const provider = { ...PROVIDER, id: randomUUID() };
  beforeAll(async () => {
    expect(await api.send('office', 'POST', '/api/providers', { body: provider })).toMatchObject({ status: 201 });
  });
  it('are listed with their papers', async () => {
    expect((await api.send('lead', 'GET', '/api/providers')).body.providers).toMatchObject([{ ...provider, version: 1, ahead: 0 }]);
    expect((await api.send('anna', 'GET', '/api/providers')).status).toBe(403);
  });
  it('are not offered from the day after their certificate lapsed, and the reason says so', async () => {
    const { options, blockedDays } = await starts(withSeptic);
    expect([...new Set(options.map((one: { day: string }) => one.day))].sort()).toEqual(['2026-05-13', '2026-05-14']);
    expect(blockedDays.find(({ day }: { day: string }) => day === '2026-05-15').reasons).toEqual([
      'Septic evaluation by a credentialed person: the insurance certificate of Cattail Septic Evaluations lapsed on Thu, May 14.',
    ]);
  });
  it('take their part of the visit, with what was agreed, and their document is asked for', async () => {
    const one = await held(withSeptic, { ...withSeptic, days: 1 });
    const { services, visits } = await crew(one.id);
    expect(services).toMatchObject([
      { service: 'septic', provider: provider.name, agreedCents: 36_000, contractsWithUs: false, minutes: 60 },
    ]);
    expect(Date.parse(services[0].startsAt) - Date.parse(visits[0].startsAt)).toBe(30 * 60_000);
    expect((await job(one.id)).needs.map(({ kind }: { kind: string }) => kind)).toContain('provider_document');
  });
  it('are at one house at a time: the next start leaves their time free', async () => {
    const { options } = await starts({ ...withSeptic, days: 1, limit: 100 });
    const [{ startsAt }] = await api.database.read
      .rows<{ startsAt: Date }>(`SELECT starts_at + interval '30 minutes' AS "startsAt" FROM provider_visit WHERE live`)
      .then((rows) => rows as [{ startsAt: Date }]);
    const overlaps = options.filter(
      (one: { startsAt: string }) => Math.abs(Date.parse(one.startsAt) + 30 * 60_000 - startsAt.getTime()) < 3_600_000,
    );
    expect(options.length).toBeGreaterThan(0);
    expect(overlaps).toEqual([]);
    const [{ first, second }] = options;
    const clash = { startsAt: new Date(startsAt.getTime() - 45 * 60_000).toISOString(), first, second };
    const refused = await api.send('office', 'POST', '/api/jobs', { body: holdBody(clash, withSeptic) });
    expect(refused).toMatchObject({ status: 409, body: { about: { rules: expect.arrayContaining(['provider']) } } });
  });
  it('another one is chosen for a job, for another price', async () => {
    const other = { ...PROVIDER, id: randomUUID(), name: 'Sedge Septic', insuranceUntil: '2026-12-31', costCents: 40_000 };
    await api.send('office', 'POST', '/api/providers', { body: other });
    const one = await held(withSeptic, { ...withSeptic, days: 1, providers: [{ service: 'septic', providerId: other.id }] });
    const path = `/api/jobs/${one.id}/providers/septic`;
    const { version } = await crew(one.id);
    expect(await api.send('office', 'PUT', path, { version, body: { providerId: randomUUID() } })).toMatchObject({
      body: { code: 'not-found' },
    });
    const chosen = await api.send('office', 'PUT', path, {
      version,
      body: { providerId: other.id, agreedCents: 38_000, contractsWithUs: true },
    });
    expect(chosen, JSON.stringify(chosen.body)).toMatchObject({ status: 200 });
    expect((await crew(one.id)).services).toMatchObject([{ provider: 'Sedge Septic', agreedCents: 38_000, contractsWithUs: true }]);
    expect(await api.send('office', 'PUT', path, { version, body: { providerId: other.id } })).toMatchObject({
      body: { code: 'changed-meanwhile' },
    });
    const wrong = await api.send('office', 'PUT', `/api/jobs/${one.id}/providers/well_inspection`, {
      version: chosen.body.version,
      body: { providerId: other.id },
    });
    expect(wrong.body.code).toBe('service-not-outside');
  });
  it('keep what they are, change by version, and end', async () => {
    const path = `/api/providers/${provider.id}`;
    expect(await api.send('office', 'PATCH', path, { version: 1, body: { insuranceUntil: '2027-01-31' } })).toMatchObject({
      status: 200,
      body: { version: 2 },
    });
    expect(await api.send('office', 'PATCH', path, { version: 1, body: { minutes: 90 } })).toMatchObject({
      body: { code: 'changed-meanwhile' },
    });
    expect(await api.send('office', 'PATCH', path, { version: 2, body: { minutes: 0 } })).toMatchObject({ status: 422 });
    expect((await starts({ ...withSeptic, fromDay: '2026-05-15', days: 1 })).options.length).toBeGreaterThan(0);
  });
});

describe('observers', () => {
  it('come along, are busy then, are named to the client, and leave again', async () => {
    const one = await booked({}, { fromDay: '2026-05-18', days: 1 });
    const path = `/api/visits/${one.visitId}/observers`;
    const added = await api.send('office', 'POST', path, { body: { personId: idOf('tess'), reason: 'trainee' } });
    expect(added, JSON.stringify(added.body)).toMatchObject({ status: 201 });
    expect((await crew(one.id)).visits[0].observers).toEqual([{ personId: idOf('tess'), name: 'Tess Trainee', reason: 'trainee' }]);
    expect((await mails(`who-comes:${one.visitId}:%`)).at(-1)!.body).toContain(
      'Tess Trainee will come along to observe and does not inspect.',
    );
    const again = await api.send('office', 'POST', path, { body: { personId: idOf('tess'), reason: 'trainee' } });
    expect(again.body.code).toBe('observer-there');
    expect((await api.send('office', 'POST', path, { body: { personId: one.first, reason: 'other' } })).body.code).toBe('observer-in-pair');
    const gone = await api.send('office', 'DELETE', `${path}/${idOf('tess')}`);
    expect(gone.status).toBe(200);
    expect((await crew(one.id)).visits[0].observers).toEqual([]);
  });
  it('are refused where they cannot be, and the database has the last word', async () => {
    const one = await booked({}, { fromDay: '2026-05-18', days: 1 });
    const at = new Date(one.startsAt);
    const earliest = (at.getUTCHours() - 5) * 60 + at.getUTCMinutes();
    const latestEnd = earliest + (Date.parse(one.endsAt) - at.getTime()) / 60_000;
    const [beside] = (await starts({ fromDay: '2026-05-18', days: 1, earliest, latestEnd })).options;
    const two = (await api.send('office', 'POST', '/api/jobs', { body: holdBody(beside) })).body;
    const refused = await api.send('office', 'POST', `/api/visits/${two.visitId}/observers`, {
      body: { personId: one.first, reason: 'ride_along' },
    });
    expect(refused).toMatchObject({ status: 409, body: { code: 'observer-not-free' } });
    const insert = api.database.transaction(({ db }) =>
      db.observer.create({
        data: {
          visitId: two.visitId,
          personId: one.first,
          reason: 'other',
          startsAt: new Date(two.startsAt),
          endsAt: new Date(two.endsAt),
          live: true,
        },
      }),
    );
    await expect(insert).rejects.toThrow(/person_elsewhere/);
  });
  it('stay behind when the visit moves to a time at which they cannot come', async () => {
    const one = await booked({}, { fromDay: '2026-05-19', days: 1 });
    await api.send('office', 'POST', `/api/visits/${one.visitId}/observers`, { body: { personId: idOf('tess'), reason: 'trainee' } });
    await api.database.transaction(({ db }) =>
      db.absence.create({
        data: {
          id: randomUUID(),
          personId: idOf('tess'),
          startsAt: new Date('2026-05-20T05:00:00Z'),
          endsAt: new Date('2026-05-21T05:00:00Z'),
          reason: 'school',
          recordedAt: new Date('2026-05-01T12:00:00Z'),
        },
      }),
    );
    const { options } = await starts({ fromDay: '2026-05-20', days: 1 });
    const { startsAt, first, second } = options[0];
    const moved = await api.send('office', 'PUT', `/api/visits/${one.visitId}/start`, {
      version: (await crew(one.id)).visits[0].version,
      body: { startsAt, first, second },
    });
    expect(moved, JSON.stringify(moved.body)).toMatchObject({ status: 200 });
    expect(moved.body.warnings.map(({ text }: { text: string }) => text)).toContain(
      'Tess Trainee no longer comes along: Tess Trainee is away at that time: absence.',
    );
    expect((await crew(one.id)).visits[0].observers).toEqual([]);
    const told = await mails(`crew:${one.visitId}:%`);
    expect(told.length).toBeGreaterThanOrEqual(2);
  });
});

describe('somebody in training without a license', () => {
  it('is the second only where the rule pack says so', async () => {
    const withTess = { fromDay: '2026-06-08', days: 1, pair: [idOf('lead'), idOf('tess')] };
    expect((await starts(withTess)).wanted.options).toEqual([]);
    await api.database.transaction(({ db }) =>
      db.rulePack.create({
        data: {
          id: randomUUID(),
          jurisdiction: 'US-WI',
          versionDay: dayIn('2026-02-01'),
          body: { name: 'Test', traineeSecond: { withoutLicenses: ['home_inspector'], source: 'a test' } },
        },
      }),
    );
    const [option] = (await starts(withTess)).wanted.options;
    expect(option).toMatchObject({ first: idOf('lead'), second: idOf('tess') });
  });
});

// Who comes besides the pair: outside providers and observers; holds extended once; re-inspections; who may go to a house again.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { dayIn } from '@backsight/store/database';
import { CAST, type CastName } from '../support/cast.ts';
import { FACTS, holdBody, PLACE } from '../support/booking.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);

const SEPTIC = { ...FACTS, waste: 'septic' as const };
const starts = async (more: object = {}) => {
  const ask = { place: PLACE, facts: FACTS, services: ['inspection'], fromDay: '2026-05-13', days: 5, limit: 60, ...more };
  const answer = await api.send('office', 'POST', '/api/starts', { body: ask, once: true });
  expect(answer.status, JSON.stringify(answer.body)).toBe(200);
  return answer.body;
};
const job = async (id: string) => (await api.send('office', 'GET', `/api/jobs/${id}`)).body;
const crew = async (id: string) => {
  const a = await api.send('office', 'GET', `/api/jobs/${id}/crew`);
  if (a.status !== 200) throw new Error(JSON.stringify(a.body));
  return a.body;
};
const mails = (like: string) =>
  api.database.read.rows<{ to: string; body: string }>(
    'SELECT to_address AS "to", body FROM outgoing_mail WHERE message_key LIKE $1 ORDER BY to_address',
    [like],
  );

async function held(more: Parameters<typeof holdBody>[1] = {}, ask: object = {}) {
  const { options } = await starts(ask);
  const answer = await api.send('office', 'POST', '/api/jobs', { body: holdBody(options[0], more) });
  expect(answer.status, JSON.stringify(answer.body)).toBe(201);
  return answer.body;
}

async function booked(more: Parameters<typeof holdBody>[1] = {}, ask: object = {}) {
  const one = await held(more, ask);
  const answer = await api.send('office', 'POST', `/api/jobs/${one.id}/confirmation`);
  expect(answer.status, JSON.stringify(answer.body)).toBe(201);
  return one;
}

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

describe('holds', () => {
  it('are extended once by the time of a hold, and not again', async () => {
    const one = await held({}, { fromDay: '2026-05-21', days: 1 });
    const path = `/api/jobs/${one.id}/hold`;
    const more = await api.send('office', 'PUT', path, { version: 1 });
    expect(more, JSON.stringify(more.body)).toMatchObject({ status: 200, body: { version: 2 } });
    expect(Date.parse(more.body.holdEndsAt) - Date.parse(one.holdEndsAt)).toBe(20 * 60_000);
    expect(await api.send('office', 'PUT', path, { version: 2 })).toMatchObject({ status: 409, body: { code: 'hold-extended' } });
    expect(await api.send('anna', 'PUT', path, { version: 2 })).toMatchObject({ status: 403 });
  });
  it('that are over are not extended', async () => {
    const one = await held({}, { fromDay: '2026-05-21', days: 1 });
    const before = api.clock.now;
    api.clock.now = new Date(Date.parse(one.holdEndsAt) + 1000);
    expect(await api.send('office', 'PUT', `/api/jobs/${one.id}/hold`, { version: 1 })).toMatchObject({ body: { code: 'hold-over' } });
    api.clock.now = before;
  });
});

describe('the walk-through', () => {
  it('says when the client comes', async () => {
    const one = await held({}, { fromDay: '2026-05-22', days: 1 });
    const [visit] = (await crew(one.id)).visits;
    expect(Date.parse(visit.endsAt) - Date.parse(visit.clientComesAt)).toBe(20 * 60_000);
    const away = await held({ clientAttends: false }, { fromDay: '2026-05-22', days: 1 });
    expect((await crew(away.id)).visits[0].clientComesAt).toBeNull();
  });
});

/** The job as if its visit had taken place. */
async function tookPlace(id: string) {
  await api.database.transaction(async ({ db }) => {
    await db.visit.updateMany({ where: { jobId: id }, data: { state: 'done' } });
    await db.job.update({ where: { id }, data: { state: 'visited' } });
  });
}

describe('a house that was inspected for somebody else', () => {
  it('asks a lead whether the same people may go; a no keeps them away', async () => {
    const property = { id: randomUUID(), address: '7 Lantern Lane', town: 'Birchmere' };
    const before = await booked({ property }, { fromDay: '2026-05-25', days: 1 });
    await tookPlace(before.id);
    const { options } = await starts({ fromDay: '2026-05-26', days: 1, limit: 100 });
    const same = options.find(({ first, second }: any) => [first, second].includes(before.first));
    const next = (await api.send('office', 'POST', '/api/jobs', { body: holdBody(same, { property }) })).body;
    const seen = await api.send('office', 'GET', '/api/properties?address=7%20Lantern%20Lane&town=Birchmere');
    expect(JSON.stringify(seen.body)).not.toContain('Client');
    const page = await job(next.id);
    expect(page.needs.find(({ kind }: any) => kind === 'same_pair')).toMatchObject({ state: 'open' });
    const path = `/api/jobs/${next.id}/needs/same_pair`;
    expect(await api.send('office', 'PATCH', path, { version: 1, body: { state: 'settled' } })).toMatchObject({
      status: 403,
      body: { code: 'lead-decides' },
    });
    expect(await api.send('lead', 'PATCH', path, { version: 1, body: { state: 'refused' } })).toMatchObject({ status: 200 });
    const { startsAt, first, second } = same;
    const moved = await api.send('office', 'PUT', `/api/visits/${next.visitId}/start`, { version: 1, body: { startsAt, first, second } });
    expect(moved).toMatchObject({
      status: 409,
      body: { code: 'start-not-possible', about: { rules: expect.arrayContaining(['barred']) } },
    });
  });
});

describe('a house with a mark', () => {
  it('is booked by the owner only, until the mark is taken away', async () => {
    const property = { id: randomUUID(), address: '9 Lantern Lane', town: 'Birchmere' };
    const first = await held({ property }, { fromDay: '2026-06-10', days: 1 });
    const path = `/api/properties/${first.propertyId}/mark`;
    expect((await api.send('office', 'PATCH', path, { body: { askOwner: 'family' } })).status).toBe(403);
    expect((await api.send('owner', 'PATCH', path, { body: { askOwner: 'family' } })).status).toBe(200);
    const seen = await api.send('office', 'GET', '/api/properties?address=9%20Lantern%20Lane&town=Birchmere');
    expect(seen.body).toMatchObject({ askOwner: true });
    const { options } = await starts({ fromDay: '2026-06-11', days: 1 });
    const refused = await api.send('office', 'POST', '/api/jobs', { body: holdBody(options[0], { property }) });
    expect(refused).toMatchObject({ status: 403, body: { code: 'ask-owner' } });
    expect((await api.send('owner', 'PATCH', path, { body: { askOwner: null } })).status).toBe(200);
    expect((await api.send('office', 'POST', '/api/jobs', { body: holdBody(options[0], { property }) })).status).toBe(201);
  });
});

describe('a re-inspection', () => {
  it('is held for listed items with its own fee, and confirmed like any job', async () => {
    const first = await booked({}, { fromDay: '2026-05-27', days: 1 });
    const { options } = await starts({ fromDay: '2026-05-28', days: 1, visitKind: 'reinspection' });
    const { startsAt, first: one, second } = options[0];
    const body = {
      id: randomUUID(),
      items: ['Handrail of the basement stairs', 'Receptacle at the sump'],
      cents: 15_000,
      start: { startsAt, first: one, second },
    };
    const early = await api.send('office', 'POST', `/api/jobs/${first.id}/reinspections`, { body });
    expect(early).toMatchObject({ status: 409, body: { code: 'reinspection-of' } });
    await tookPlace(first.id);
    const again = await api.send('office', 'POST', `/api/jobs/${first.id}/reinspections`, { body });
    expect(again, JSON.stringify(again.body)).toMatchObject({ status: 201, body: { warnings: [] } });
    expect(await job(body.id)).toMatchObject({
      kind: 'reinspection',
      state: 'held',
      feeLines: [{ label: 'Re-inspection', cents: 15_000 }],
    });
    expect((await crew(body.id)).items).toEqual(body.items);
    const confirmed = await api.send('office', 'POST', `/api/jobs/${body.id}/confirmation`);
    expect(confirmed, JSON.stringify(confirmed.body)).toMatchObject({ status: 201 });
    const alone = {
      ...body,
      id: randomUUID(),
      items: ['Handrail'],
      start: (({ startsAt: at, first: a, second: b }) => ({ startsAt: at, first: a, second: b }))(
        options.find((o: any) => o.startsAt !== startsAt && o.first !== one && o.second !== second) ?? options.at(-1),
      ),
    };
    expect((await api.send('office', 'POST', `/api/jobs/${first.id}/reinspections`, { body: alone })).body.warnings).toMatchObject([
      { code: 'one-component' },
    ]);
  });
});

describe('a wanted pair', () => {
  it('is told when it could go, or why not', async () => {
    const pair = [idOf('anna'), idOf('ben')];
    const { wanted } = await starts({ fromDay: '2026-06-01', days: 2, pair });
    expect(wanted.options.length).toBeGreaterThan(0);
    expect(wanted.costsMore).toBeGreaterThanOrEqual(0);
    for (const { first, second } of wanted.options) expect([first, second].sort()).toEqual(pair.sort());
    const withTess = await starts({ fromDay: '2026-06-01', days: 1, pair: [idOf('anna'), idOf('tess')] });
    expect(withTess.wanted.options).toEqual([]);
    expect(withTess.wanted.blockedDays[0].reasons.join(' ')).toContain('Tess Trainee has no license valid');
  });
});

describe('wishes', () => {
  it('prefer the days of the agent, keep the hours asked, and show at most some starts of each day', async () => {
    const agent = randomUUID();
    const parties = [
      { id: randomUUID(), role: 'client' as const, name: 'Client With Agent', email: 'with-agent@test.example' },
      { id: agent, role: 'buyers_agent' as const, name: 'Ada Agent' },
    ];
    const there = await held({ parties }, { fromDay: '2026-06-04', days: 1 });
    const { options } = await starts({ fromDay: '2026-06-03', days: 3, sameDayAs: agent, perDay: 2 });
    const byDay: Record<string, any[]> = {};
    for (const one of options) (byDay[one.day] ??= []).push(one);
    expect(Object.values(byDay).every((list) => list.length <= 2)).toBe(true);
    expect(byDay[there.startsAt.slice(0, 10)]!.every(({ parts }) => parts.wish === 0)).toBe(true);
    expect(byDay['2026-06-03']!.every(({ parts }) => parts.wish === 15)).toBe(true);
    const late = await starts({ fromDay: '2026-06-03', days: 2, earliest: 720 });
    expect(late.options.every(({ startsAt }: any) => new Date(startsAt).getUTCHours() >= 17)).toBe(true);
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

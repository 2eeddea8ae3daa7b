// What is on file about people, and kit, over HTTP.
import { describe, expect, it } from 'vitest';
import { CAST, OFFICE } from '../support/cast.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';
import { bookedVisit } from '../support/visits.ts';

const api = testApi();
withStarter(api);
const uuid = (n: number): string => `00000000-0000-7000-8000-00000000c0${String(n).padStart(2, '0')}`;
const anna = `/api/people/${CAST.anna.id}`;

describe('licenses and qualifications', () => {
  it('refuses a second license of a kind on the same days, by the constraint', async () => {
    const license = { id: uuid(1), kind: 'home_inspector', number: 'WI-2', fromDay: '2040-12-01', untilDay: '2042-12-14' };
    expect(await api.send('office', 'POST', `${anna}/licenses`, { body: license })).toMatchObject({
      status: 409,
      body: { code: 'license-once-at-a-time' },
    });
    expect((await api.send('office', 'POST', `${anna}/licenses`, { body: { ...license, fromDay: '2040-12-15' } })).status).toBe(201);
    expect(await api.send('office', 'PATCH', `/api/licenses/${uuid(1)}`, { body: { untilDay: '2026-01-01' } })).toMatchObject({
      status: 422,
      body: { field: 'untilDay' },
    });
  });
  it('is not for inspectors to write', async () => {
    expect(
      (
        await api.send('anna', 'POST', `${anna}/licenses`, {
          body: { id: uuid(2), kind: 'home_inspector', number: 'X', fromDay: '2029-01-01', untilDay: '2030-01-01' },
        })
      ).status,
    ).toBe(403);
  });
  it('adds a qualification once and ends it', async () => {
    const body = { id: uuid(3), kind: 'radon', fromDay: '2026-01-01', untilDay: null };
    expect((await api.send('lead', 'POST', `/api/people/${CAST.ben.id}/qualifications`, { body })).status).toBe(201);
    expect(
      (await api.send('lead', 'POST', `/api/people/${CAST.ben.id}/qualifications`, { body: { ...body, id: uuid(4) } })).body.code,
    ).toBe('qualification-known');
    expect((await api.send('lead', 'PATCH', `/api/qualifications/${uuid(3)}`, { body: { untilDay: '2026-06-01' } })).status).toBe(200);
    expect((await api.send('lead', 'GET', `/api/people/${CAST.ben.id}/file`)).body.qualifications).toMatchObject([
      { kind: 'radon', untilDay: '2026-06-01' },
    ]);
  });
  it('lists what lapses, without what is already renewed', async () => {
    for (const number of [20, 21])
      expect(
        (
          await api.send('office', 'PATCH', `/api/licenses/00000000-0000-7000-8000-0000002000${number}`, {
            body: { untilDay: '2026-12-14' },
          })
        ).status,
      ).toBe(200);
    const renewal = { id: uuid(4), kind: 'home_inspector', number: 'WI-4', fromDay: '2026-12-15', untilDay: '2028-12-14' };
    expect((await api.send('office', 'POST', `${anna}/licenses`, { body: renewal })).status).toBe(201);
    const rows = (await api.send('office', 'GET', '/api/lapsing?days=300')).body as { personId: string | null; kind: string }[];
    expect(rows.filter((r) => r.kind === 'license').some((r) => r.personId === CAST.ben.id)).toBe(true);
    expect(rows.filter((r) => r.kind === 'license').some((r) => r.personId === CAST.anna.id)).toBe(false);
  });
});

describe('papers of outside providers', () => {
  it('lapse like those of people, unless the provider works for the firm no more', async () => {
    const provider = { name: 'Sedge Septic', phone: '', serviceKey: 'septic', contractsWithUs: true, costCents: 40_000, minutes: 60 };
    const papers = { licenseUntil: new Date('2026-06-01'), insuranceUntil: null };
    await api.database.transaction(async ({ db }) => {
      await db.provider.create({ data: { ...provider, ...papers, id: uuid(70) } });
      await db.provider.create({ data: { ...provider, ...papers, id: uuid(71), endedOn: new Date('2026-05-01') } });
    });
    const rows = (await api.send('office', 'GET', '/api/lapsing?days=100')).body as { kind: string; id: string }[];
    expect(rows.filter(({ kind }) => kind === 'provider')).toMatchObject([
      { id: uuid(70), who: 'Sedge Septic', what: 'license of the outside provider', on: '2026-06-01' },
    ]);
  });
});

describe('hours and absences', () => {
  it('warns of the visits that an absence hits, and leaves them booked', async () => {
    await bookedVisit(api, { startsAt: '2026-05-14T14:00:00Z', endsAt: '2026-05-14T17:00:00Z', first: CAST.anna.id, second: CAST.ben.id });
    const quiet = await api.send('anna', 'POST', `${anna}/absences`, {
      body: { id: uuid(10), startsAt: '2026-05-14T17:00:00Z', endsAt: '2026-05-14T20:00:00Z', reason: 'dentist' },
    });
    expect(quiet).toMatchObject({ status: 201, body: { warnings: [] } });
    const hit = await api.send('anna', 'POST', `${anna}/absences`, {
      body: { id: uuid(11), startsAt: '2026-05-14T12:00:00Z', endsAt: '2026-05-15T12:00:00Z', reason: 'sick' },
    });
    expect(hit.body.warnings).toMatchObject([{ code: 'visit-hit', text: expect.stringMatching(/Thu, May 14, 9:00 AM stays booked/) }]);
  });
  it('tells the private reason only to those who decide and the person', async () => {
    const seen = async (who: 'office' | 'anna' | 'ben') =>
      (await api.send(who, 'GET', `${anna}/file`)).body.absences.map((a: { reason: string | null }) => a.reason);
    expect(await seen('office')).toEqual(['sick', 'dentist']);
    expect(await seen('anna')).toEqual(['sick', 'dentist']);
    expect(await seen('ben'), 'what is only asked is not for colleagues').toEqual([]);
  });
  it('lets an inspector enter his own absence only, and withdraw it once', async () => {
    const body = { id: uuid(12), startsAt: '2026-06-01T12:00:00Z', endsAt: '2026-06-02T12:00:00Z', reason: 'leave' };
    expect((await api.send('ben', 'POST', `${anna}/absences`, { body })).status).toBe(403);
    expect((await api.send('anna', 'DELETE', `/api/absences/${uuid(10)}`)).status).toBe(200);
    expect((await api.send('anna', 'DELETE', `/api/absences/${uuid(10)}`)).body.code).toBe('absence-withdrawn');
  });
  it.each([
    ['backwards', '2026-06-02T12:00:00Z', '2026-06-01T12:00:00Z', 'absence-backwards'],
    ['of two years', '2026-06-02T12:00:00Z', '2028-06-01T12:00:00Z', 'absence-too-long'],
  ])('refuses an absence %s', async (_, startsAt, endsAt, code) => {
    expect((await api.send('anna', 'POST', `${anna}/absences`, { body: { id: uuid(13), startsAt, endsAt, reason: 'x' } })).body.code).toBe(
      code,
    );
  });
  it('sets hours from a day on, ends the old ones, and warns of visits outside', async () => {
    const spans = [1, 2, 3].map((weekday) => ({ weekday, startMinute: 480, endMinute: 720 }));
    const done = await api.send('office', 'PUT', `${anna}/hours`, { body: { fromDay: '2026-05-13', spans } });
    expect(done.body.warnings).toHaveLength(1);
    const { hours } = (await api.send('office', 'GET', `${anna}/file`)).body;
    expect(hours.filter((h: { untilDay: string | null }) => h.untilDay === null)).toHaveLength(3);
    expect(hours.filter((h: { untilDay: string | null }) => h.untilDay === '2026-05-13')).toHaveLength(5);
    expect(
      (
        await api.send('office', 'PUT', `${anna}/hours`, {
          body: { fromDay: '2026-05-13', spans: [...spans, { weekday: 1, startMinute: 700, endMinute: 800 }] },
        })
      ).body.code,
    ).toBe('work-pattern-once-at-a-time');
  });
});

describe('pairing rules and where a person must not go', () => {
  it('puts a rule in force, refuses it twice and its opposite, ends it and brings it back', async () => {
    const rule = (n: number, kind: string, aId: string, bId: string) => ({ body: { id: uuid(n), kind, aId, bId, reason: 'family' } });
    const made = await api.send('lead', 'POST', '/api/pairing-rules', rule(20, 'never_together', CAST.ben.id, CAST.anna.id));
    expect(made.status).toBe(201);
    expect((await api.send('lead', 'POST', '/api/pairing-rules', rule(21, 'never_together', CAST.anna.id, CAST.ben.id))).body.code).toBe(
      'pairing-known',
    );
    expect((await api.send('lead', 'POST', '/api/pairing-rules', rule(22, 'must_together', CAST.anna.id, CAST.ben.id))).body.code).toBe(
      'pairing-contradicts',
    );
    expect((await api.send('lead', 'POST', '/api/pairing-rules', rule(23, 'must_together', CAST.anna.id, CAST.anna.id))).body.code).toBe(
      'same-person',
    );
    expect((await api.send('lead', 'DELETE', `/api/pairing-rules/${made.body.id}`)).status).toBe(200);
    expect((await api.send('lead', 'POST', '/api/pairing-rules', rule(24, 'never_together', CAST.anna.id, CAST.ben.id))).body.id).toBe(
      made.body.id,
    );
  });
  it('keeps a person away from a property without telling why to everybody', async () => {
    const [property] = (await api.send('office', 'GET', '/api/bar-choices?kind=property&text=shore')).body;
    const body = { id: uuid(30), kind: 'property', aboutId: property.id, reason: 'buys it himself' };
    expect((await api.send('office', 'POST', `/api/people/${CAST.dan.id}/bars`, { body })).status).toBe(201);
    expect((await api.send('office', 'POST', `/api/people/${CAST.dan.id}/bars`, { body: { ...body, id: uuid(31) } })).body.code).toBe(
      'bar-known',
    );
    expect((await api.send('dan', 'GET', `/api/people/${CAST.dan.id}/file`)).body.bars).toMatchObject([{ reason: null }]);
    expect((await api.send('office', 'DELETE', `/api/bars/${uuid(30)}`)).status).toBe(200);
  });
  it('keeps a person away from somebody on jobs, and lets him go there again', async () => {
    await api.database.transaction(({ db }) => db.party.create({ data: { id: uuid(98), name: 'Runa Example', recordedAt: new Date() } }));
    const [party] = (await api.send('office', 'GET', '/api/bar-choices?kind=party&text=runa')).body;
    const body = { id: uuid(32), kind: 'party', aboutId: party.id, reason: null };
    const path = `/api/people/${CAST.dan.id}/bars`;
    expect((await api.send('lead', 'POST', path, { body })).status).toBe(403);
    expect((await api.send('office', 'POST', path, { body: { ...body, aboutId: uuid(99) } })).status).toBe(404);
    expect((await api.send('office', 'POST', path, { body })).status).toBe(201);
    expect((await api.send('office', 'POST', path, { body: { ...body, id: uuid(33) } })).body.code).toBe('bar-known');
    const seen = await api.send('office', 'GET', `/api/people/${CAST.dan.id}/file`);
    expect(seen.body.bars).toMatchObject([{ kind: 'party', aboutId: party.id }]);
    expect((await api.send('office', 'DELETE', `/api/bars/${uuid(32)}`)).status).toBe(200);
    expect((await api.send('office', 'DELETE', `/api/bars/${uuid(32)}`)).status).toBe(404);
  });
});

describe('kit', () => {
  const piece = (n: number, more = {}) => ({
    id: uuid(n),
    officeId: OFFICE,
    kind: 'gas_detector',
    serial: `GD-${n}`,
    calibratedUntil: '2026-12-01',
    note: '',
    ...more,
  });
  it('adds a piece once and asks for the calibration where the kind has one', async () => {
    expect((await api.send('lead', 'POST', '/api/kit', { body: piece(40) })).status).toBe(201);
    expect((await api.send('lead', 'POST', '/api/kit', { body: piece(41, { serial: 'GD-40' }) })).body.code).toBe('kit-serial-known');
    expect((await api.send('lead', 'POST', '/api/kit', { body: piece(42, { calibratedUntil: null }) })).body.code).toBe(
      'kit-calibration-missing',
    );
    expect((await api.send('lead', 'POST', '/api/kit', { body: piece(43, { kind: 'crystal_ball' }) })).status).toBe(404);
  });
  it('takes it out of service and back', async () => {
    expect(
      (await api.send('lead', 'PATCH', `/api/kit/${uuid(40)}`, { body: { endedOn: '2026-05-12', note: 'sensor failed' } })).status,
    ).toBe(200);
    const item = async () => (await api.send('anna', 'GET', '/api/kit')).body.items.find((i: { id: string }) => i.id === uuid(40));
    expect(await item()).toMatchObject({ endedOn: '2026-05-12', note: 'sensor failed' });
    await api.send('lead', 'PATCH', `/api/kit/${uuid(40)}`, { body: { endedOn: null } });
    expect(await item()).toMatchObject({ endedOn: null, calibratedUntil: '2026-12-01' });
  });
});

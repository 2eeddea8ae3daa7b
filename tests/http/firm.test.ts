// The firm's settings over HTTP.
import { describe, expect, it } from 'vitest';
import { CAST, OFFICE } from '../support/cast.ts';
import { testApi } from '../support/http.ts';

const api = testApi();
const uuid = (n: number): string => `00000000-0000-7000-8000-00000000b0${String(n).padStart(2, '0')}`;
const policy = (n: number) => ({
  id: uuid(n),
  kind: 'professional',
  basis: 'claims_made',
  insurer: 'Test Mutual',
  number: `P-${n}`,
  startsOn: '2026-01-01',
  endsOn: '2027-01-01',
  retroactiveOn: '2020-01-01',
  limitCents: 50_000_000,
  deductibleCents: 250_000,
  reportable: 'any demand',
  noticeAddress: 'claims@test.example',
});
const loan = (n: number, more = {}) => ({
  id: uuid(n),
  borrowerId: CAST.anna.id,
  role: 'lead_inspector',
  fromDay: '2026-05-12',
  untilDay: '2026-05-20',
  reason: 'vacation',
  ...more,
});

describe('settings', () => {
  it('changes what is given and keeps the rest; a stale version is refused', async () => {
    const before = (await api.send('anna', 'GET', '/api/firm')).body;
    expect(await api.send('owner', 'PATCH', '/api/firm', { version: before.version, body: { holdMinutes: 30 } })).toMatchObject({
      status: 200,
      body: { version: before.version + 1 },
    });
    expect((await api.send('anna', 'GET', '/api/firm')).body).toMatchObject({
      holdMinutes: 30,
      name: before.name,
      graceDays: before.graceDays,
    });
    expect(await api.send('owner', 'PATCH', '/api/firm', { version: before.version, body: { holdMinutes: 40 } })).toMatchObject({
      status: 412,
      body: { code: 'changed-meanwhile' },
    });
  });
  it('refuses a zone that is none', async () => {
    expect(await api.send('owner', 'PATCH', '/api/firm', { version: 2, body: { zone: 'Lake/Time' } })).toMatchObject({
      status: 422,
      body: { code: 'zone-unknown', field: 'zone' },
    });
  });
  it('keeps the hours of an office in order', async () => {
    const day: [number, number] = [420, 960];
    const hours = { 1: day, 2: day, 3: day, 4: day, 5: day, 6: [540, 720], 7: null };
    const body = { name: 'Birchmere', address: '1 Quay Street', lat: 44.03, lon: -88.54, hours };
    expect((await api.send('owner', 'PUT', `/api/offices/${OFFICE}`, { body })).status).toBe(200);
    expect((await api.send('owner', 'GET', '/api/firm')).body.offices[0].hours).toEqual(hours);
    expect(
      await api.send('owner', 'PUT', `/api/offices/${OFFICE}`, { body: { ...body, hours: { ...hours, 6: [720, 540] } } }),
    ).toMatchObject({ status: 422, body: { field: 'hours.6' } });
  });
  it('closes and opens a day', async () => {
    expect((await api.send('office', 'PUT', '/api/closed-days/2026-07-03', { body: { name: 'Day before the Fourth' } })).status).toBe(200);
    expect((await api.send('anna', 'GET', '/api/firm')).body.closedDays).toEqual([{ day: '2026-07-03', name: 'Day before the Fourth' }]);
    expect((await api.send('office', 'DELETE', '/api/closed-days/2026-07-03')).status).toBe(200);
    expect((await api.send('office', 'DELETE', '/api/closed-days/2026-07-03')).status).toBe(404);
  });
});

describe('insurance and authority', () => {
  it('keeps policies; a number only once, days in order', async () => {
    expect((await api.send('owner', 'POST', '/api/policies', { body: policy(1) })).status).toBe(201);
    expect(await api.send('owner', 'POST', '/api/policies', { body: { ...policy(2), number: 'P-1' } })).toMatchObject({
      status: 409,
      body: { code: 'policy-number-known' },
    });
    expect(await api.send('owner', 'POST', '/api/policies', { body: { ...policy(3), endsOn: '2026-01-01' } })).toMatchObject({
      status: 422,
      body: { field: 'endsOn' },
    });
    const more = { aggregateCents: 40_000_000, claimMeans: 'A demand in writing.' };
    expect(await api.send('owner', 'POST', '/api/policies', { body: { ...policy(4), ...more } })).toMatchObject({
      status: 422,
      body: { code: 'policy-aggregate-low', field: 'aggregateCents' },
    });
    const { id, ...terms } = { ...policy(1), ...more, aggregateCents: 100_000_000 };
    expect((await api.send('owner', 'PUT', `/api/policies/${id}`, { body: terms })).status).toBe(200);
    const end = (endsOn: string, who: 'owner' | 'lead' = 'owner') =>
      api.send(who, 'POST', `/api/policies/${id}/end`, { body: { endsOn, reason: 'The insurer leaves the state.' } });
    expect((await end('2027-01-01')).body.code).toBe('policy-end-outside');
    expect((await end('2026-09-30', 'lead')).status).toBe(403);
    expect((await end('2026-09-30')).status).toBe(201);
    expect((await api.send('lead', 'GET', '/api/authority')).body.policies).toMatchObject([
      { endsOn: '2026-09-30', aggregateCents: 100_000_000, claimMeans: 'A demand in writing.' },
    ]);
  });
  it('sets limits, but leaves the owner open', async () => {
    expect((await api.send('owner', 'PUT', '/api/approval-limits/lead_inspector', { body: { limitCents: 75_000 } })).status).toBe(200);
    expect(await api.send('owner', 'PUT', '/api/approval-limits/owner', { body: { limitCents: 1 } })).toMatchObject({
      status: 422,
      body: { code: 'owner-limit-open' },
    });
  });
  it.each([
    ['to oneself', { borrowerId: CAST.lead.id }, 'loan-to-self'],
    ['what one does not hold', { role: 'owner' }, 'loan-not-held'],
    ['for days that are over', { fromDay: '2026-05-01', untilDay: '2026-05-11' }, 'loan-past'],
    ['backwards', { fromDay: '2026-05-20', untilDay: '2026-05-19' }, 'days-backwards'],
  ])('does not lend authority %s', async (_, more, code) => {
    expect((await api.send('lead', 'POST', '/api/approval-loans', { body: loan(20, more) })).body.code).toBe(code);
  });
  it('lends and takes back what had not begun before today', async () => {
    expect((await api.send('lead', 'POST', '/api/approval-loans', { body: loan(21) })).status).toBe(201);
    expect((await api.send('owner', 'GET', '/api/authority')).body.loans).toMatchObject([
      { lenderName: 'Lena Lead', borrowerName: 'Anna Inspector' },
    ]);
    expect((await api.send('lead2', 'DELETE', `/api/approval-loans/${uuid(21)}`)).status).toBe(403);
    expect((await api.send('lead', 'DELETE', `/api/approval-loans/${uuid(21)}`)).status).toBe(200);
    expect((await api.send('owner', 'GET', '/api/authority')).body.loans).toEqual([]);
  });
  it('lets no loan outlast the role of whoever lent it', async () => {
    const lead = `/api/people/${CAST.lead.id}`;
    const give = async (...roles: string[]) => {
      const { version } = (await api.send('owner', 'GET', lead)).body;
      expect((await api.send('owner', 'PATCH', lead, { version, body: { roles } })).status).toBe(200);
      api.signsInAnew('lead'); // whoever has other roles does
    };
    const loans = async () => (await api.send('owner', 'GET', '/api/authority')).body.loans;
    expect((await api.send('lead', 'POST', '/api/approval-loans', { body: loan(22) })).status).toBe(201);
    const { roles } = (await api.send('owner', 'GET', lead)).body;
    expect(await loans()).toHaveLength(1);
    await give('inspector');
    expect(await loans()).toEqual([]);
    await give(...roles);
    expect((await api.send('lead', 'DELETE', `/api/approval-loans/${uuid(22)}`)).status).toBe(200);
  });
});

describe('the audit trail', () => {
  it('shows the owner what was done, page by page, and nobody else', async () => {
    const all = (await api.send('owner', 'GET', '/api/audit')).body;
    expect(all.items[0]).toMatchObject({ actorKind: 'person', thingKind: expect.any(String) });
    expect((await api.send('owner', 'GET', '/api/audit?thingKind=person')).body.items[0].thingName).toEqual(expect.any(String));
    const loans = (await api.send('owner', 'GET', '/api/audit?thingKind=approval-loan')).body.items;
    expect([...new Set(loans.map((i: { operation: string }) => i.operation))].sort()).toEqual(['firm.end-loan', 'firm.lend-authority']);
    expect((await api.send('lead', 'GET', '/api/audit')).status).toBe(403);
  });
  it('walks the chain', async () => {
    expect((await api.send('owner', 'GET', '/api/audit/check')).body).toMatchObject({ brokenAt: null });
  });
});

// Held times and houses: a hold extended once, when the client comes, the same people again, marks, re-inspections, wanted pairs and wishes.
import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { CAST, type CastName } from '../support/cast.ts';
import { holdBody } from '../support/booking.ts';
import { deskOf } from '../support/desk.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);
const { starts, job, crew, held, booked } = deskOf(api);
const idOf = (name: CastName) => CAST[name].id;

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

describe('the first mail to the client', () => {
  it('says who comes and when the walk-through begins; to somebody who stays away only who comes', async () => {
    const mailOf = async (id: string) =>
      (
        await api.database.read.rows<{ body: string }>(
          `SELECT body FROM outgoing_mail WHERE about_id = $1::uuid AND subject LIKE 'Agreement%'`,
          [id],
        )
      )[0]!.body;
    const comes = await mailOf((await booked({}, { fromDay: '2026-06-18', days: 1 })).id);
    expect(comes).toMatch(/\w+ and \w+ .*will come\. The walk-through with you begins at \d+:\d\d [AP]M/);
    const away = await mailOf((await booked({ clientAttends: false }, { fromDay: '2026-06-18', days: 1 })).id);
    expect(away).toContain('will come.');
    expect(away).not.toContain('walk-through');
  });
});

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

describe('a person kept away from a client', () => {
  it('is not booked for any job of that client, until he may go again', async () => {
    const { options } = await starts({ fromDay: '2026-06-15', days: 1 });
    const [start] = options;
    const body = holdBody(start, { property: { id: randomUUID(), address: '11 Lantern Lane', town: 'Birchmere' } });
    const client = { id: randomUUID(), name: 'Runa Example' };
    await api.database.transaction(({ db }) => db.party.create({ data: { ...client, recordedAt: new Date() } }));
    const bar = { id: randomUUID(), kind: 'party', aboutId: client.id, reason: 'former employer' };
    expect((await api.send('office', 'POST', `/api/people/${start.second}/bars`, { body: bar })).status).toBe(201);
    const parties = [{ id: client.id, role: 'client' as const }];
    expect(await api.send('office', 'POST', '/api/jobs', { body: { ...body, parties } })).toMatchObject({
      status: 409,
      body: { code: 'start-not-possible', about: { rules: expect.arrayContaining(['barred']) } },
    });
    expect((await api.send('office', 'DELETE', `/api/bars/${bar.id}`)).status).toBe(200);
    expect((await api.send('office', 'POST', '/api/jobs', { body: { ...body, parties } })).status).toBe(201);
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

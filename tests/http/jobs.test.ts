// Booking over HTTP: from the quote to the confirmed job, with everything that is refused on the way.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { rebuild } from '@backsight/domain/jobs/history';
import { findEvents, findJob } from '@backsight/store/jobs/jobs';
import { CAST } from '../support/cast.ts';
import { FACTS, holdBody, PLACE } from '../support/booking.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);

const read = (path: string, body: unknown) => api.send('office', 'POST', path, { body, once: true });
const starts = async (more: object = {}) =>
  (await read('/api/starts', { place: PLACE, facts: FACTS, services: ['inspection'], fromDay: '2026-05-13', days: 5, limit: 60, ...more }))
    .body;
const job = async (id: string) => (await api.send('office', 'GET', `/api/jobs/${id}`)).body;

async function held(more: Parameters<typeof holdBody>[1] = {}) {
  const { options } = await starts(more.services ? { services: more.services } : {});
  const answer = await api.send('office', 'POST', '/api/jobs', { body: holdBody(options[0], more) });
  expect(answer.status, JSON.stringify(answer.body)).toBe(201);
  return answer.body;
}

describe('holding', () => {
  it('freezes the fee, keeps the pair, and lists what is still to get with times', async () => {
    const done = await held({ tenant: true, facts: { ...FACTS, occupied: 'occupied' }, toldCents: 46_500 });
    const page = await job(done.id);
    expect(page).toMatchObject({
      state: 'held',
      number: done.number,
      version: 1,
      feeLines: [{ rule: 'base', cents: 46_500 }],
      agreement: null,
      invoice: null,
    });
    expect(page.needs.map((n: { kind: string }) => n.kind).sort()).toEqual(['access', 'payer', 'signature', 'tenant_notice', 'utilities']);
    expect(page.visits[0]).toMatchObject({ state: 'held', holdEndsAt: '2026-05-12T15:20:00.000Z' });
    expect(page.visits[0].pair.map((p: { place: string }) => p.place)).toEqual(['first', 'second']);
    expect(page.visits[0].because.sentence).toMatch(/first with/);
    expect(page.events.map((e: { kind: string }) => e.kind)).toEqual(['held']);
  });
  it('answers a taken time with the next best choices', async () => {
    const { options } = await starts();
    await api.send('office', 'POST', '/api/jobs', { body: holdBody(options[0]) });
    const late = await api.send('owner', 'POST', '/api/jobs', { body: holdBody(options[0]) });
    expect(late).toMatchObject({ status: 409, body: { code: 'person-taken' } });
    expect(late.body.title).toMatch(/The nearest that is possible: /);
    expect(late.body.about.nextStartsAt).toHaveLength(3);
  });
  it('refuses another price than the caller was told', async () => {
    const { options } = await starts();
    expect(await api.send('office', 'POST', '/api/jobs', { body: holdBody(options[0], { toldCents: 40_000 }) })).toMatchObject({
      status: 409,
      body: { code: 'price-changed', title: 'The price is now $465.00, not $400.00. Tell the caller before holding the time.' },
    });
  });
  it.each([
    ['a pool that is not there', { services: ['inspection', 'pool_spa'], facts: { ...FACTS, features: [] as [] } }, 'service-not-offered'],
    ['a service nobody knows', { services: ['inspection', 'tarot'] }, 'service-not-known'],
    ['no base service', { services: ['radon'] }, 'base-service-missing'],
    ['a town nobody knows', { property: { id: randomUUID(), address: '1 Far Road', town: 'Elsewhere' } }, 'town-not-known'],
    [
      'a report for the agent without consent',
      { parties: [{ id: randomUUID(), role: 'buyers_agent' as const, name: 'Ada Agent', mayReceiveReport: true }] },
      'consent-missing',
    ],
  ])('refuses %s', async (_, more, code) => {
    const { options } = await starts();
    expect(await api.send('office', 'POST', '/api/jobs', { body: holdBody(options[0], more) })).toMatchObject({
      status: 422,
      body: { code },
    });
  });
  it('refuses one person alone, a trainee as second, and the past', async () => {
    const { options } = await starts();
    const [o] = options;
    const alone = await api.send('office', 'POST', '/api/jobs', { body: holdBody({ ...o, second: null }) });
    expect(alone).toMatchObject({ status: 409, body: { code: 'start-not-possible', about: { rules: ['crew'] } } });
    const trainee = await api.send('office', 'POST', '/api/jobs', { body: holdBody({ ...o, second: CAST.tess.id }) });
    expect(trainee.body.about.rules).toContain('not-licensed');
    expect(await api.send('office', 'POST', '/api/jobs', { body: holdBody({ ...o, startsAt: '2026-05-11T15:00:00Z' }) })).toMatchObject({
      status: 422,
      body: { code: 'start-is-past' },
    });
  });
  it('refuses seconds: the search counts whole minutes, and a visit that ends within one would meet the next', async () => {
    const { options } = await starts();
    const startsAt = new Date(Date.parse(options[0].startsAt) + 20_000).toISOString();
    const answer = await api.send('office', 'POST', '/api/jobs', { body: holdBody({ ...options[0], startsAt }) });
    expect(answer.status).toBe(422);
    expect(JSON.stringify(answer.body)).toContain('without seconds');
  });
  it('is not for an inspector', async () => {
    const { options } = await starts();
    expect((await api.send('anna', 'POST', '/api/jobs', { body: holdBody(options[0]) })).status).toBe(403);
  });
  it('asks the owner first about somebody who is marked so', async () => {
    const done = await held();
    const client = (await job(done.id)).parties[0];
    expect(
      (await api.send('office', 'PATCH', `/api/parties/${client.partyId}/mark`, { body: { askOwner: 'Owes for two jobs' } })).status,
    ).toBe(403);
    await api.send('owner', 'PATCH', `/api/parties/${client.partyId}/mark`, { body: { askOwner: 'Owes for two jobs' } });
    const { options } = await starts();
    const body = holdBody(options[0], { parties: [{ id: client.partyId, role: 'client' }] });
    expect(await api.send('office', 'POST', '/api/jobs', { body })).toMatchObject({ status: 403, body: { code: 'ask-owner' } });
    expect((await api.send('owner', 'POST', '/api/jobs', { body })).status).toBe(201);
  });
});

describe('a property on file', () => {
  it('is found however the address is written, and shows nothing but that', async () => {
    const done = await held({ property: { id: randomUUID(), address: '12 North Quay Street', town: 'Birchmere', state: 'US-IL' } });
    const found = await api.send('office', 'GET', '/api/properties?address=12%20n.%20quay%20st&town=birchmere');
    expect(found.body).toEqual({
      onFile: true,
      askOwner: false,
      propertyId: done.propertyId,
      address: '12 North Quay Street',
      inspectedBefore: false,
      lat: 44.03,
      lon: -88.54,
      state: 'US-IL',
    });
    const again = await held({ property: { id: randomUUID(), address: '12 N Quay St', town: 'Birchmere', state: 'US-MN' } });
    expect(again.propertyId).toBe(done.propertyId);
    // The state on file stays, and the booker is told so.
    expect(again.warnings).toEqual([expect.objectContaining({ code: 'state-on-file', text: expect.stringContaining('lies in IL') })]);
    expect((await job(again.id)).property.state).toBe('US-IL');
    expect((await api.send('office', 'GET', '/api/properties?address=13%20Quay&town=Birchmere')).body.onFile).toBe(false);
  });
});

describe('confirming', () => {
  it('books the visit and issues agreement and invoice', async () => {
    const done = await held();
    const answer = await api.send('office', 'POST', `/api/jobs/${done.id}/confirmation`);
    expect(answer, JSON.stringify(answer.body)).toMatchObject({ status: 201, body: { id: done.id } });
    const page = await job(done.id);
    expect(page).toMatchObject({
      state: 'booked',
      agreement: { signers: 1, signed: 0 },
      invoice: { totalCents: 46_500, paidCents: 0 },
      visits: [{ state: 'booked', holdEndsAt: null }],
    });
    expect(page.needs.find((n: { kind: string }) => n.kind === 'payer')).toMatchObject({ state: 'settled' });
    expect(await api.send('office', 'POST', `/api/jobs/${done.id}/confirmation`)).toMatchObject({ status: 409, body: { code: 'job-is' } });
  });
  it('needs a client', async () => {
    const done = await held({ parties: [{ id: randomUUID(), role: 'buyers_agent', name: 'Ada Agent', phone: '920-555-0150' }] });
    expect(await api.send('office', 'POST', `/api/jobs/${done.id}/confirmation`)).toMatchObject({
      status: 409,
      body: { code: 'client-missing' },
    });
  });
  describe('a hold whose time is over', () => {
    beforeAll(() => () => {
      api.clock.now = new Date('2026-05-12T15:00:00Z');
    });
    it('is confirmed while the time is still free, and refused when somebody else has it', async () => {
      const [free, taken] = [await held(), await held()];
      api.clock.now = new Date('2026-05-12T15:30:00Z');
      expect((await api.send('office', 'POST', `/api/jobs/${free.id}/confirmation`)).status).toBe(201);
      const other = await api.send('office', 'POST', '/api/jobs', { body: holdBody(taken) });
      expect(other.status, JSON.stringify(other.body)).toBe(201);
      expect((await job(taken.id)).state).toBe('lapsed');
      expect(await api.send('office', 'POST', `/api/jobs/${taken.id}/confirmation`)).toMatchObject({
        status: 409,
        body: { code: 'person-taken', title: expect.stringContaining('The nearest that is possible') },
      });
    });
  });
});

describe('after the booking', () => {
  it('moves a visit under the same rules, and refuses the stale version', async () => {
    const done = await held();
    const { options } = await starts({ withoutVisit: done.visitId });
    const to = options.find((o: { startsAt: string }) => o.startsAt > done.startsAt)!;
    const body = { startsAt: to.startsAt, first: to.first, second: to.second };
    expect(await api.send('office', 'PUT', `/api/visits/${done.visitId}/start`, { version: 1, body })).toMatchObject({
      status: 200,
      body: { version: 2, startsAt: to.startsAt },
    });
    expect((await api.send('office', 'PUT', `/api/visits/${done.visitId}/start`, { version: 1, body })).status).toBe(412);
    expect((await job(done.id)).events.map((e: { kind: string }) => e.kind)).toEqual(['held', 'moved']);
  });
  it('notes who agreed to the access, and when', async () => {
    const done = await held();
    const change = (body: object, version = 1) => api.send('office', 'PATCH', `/api/jobs/${done.id}/needs/access`, { version, body });
    expect(await change({ state: 'settled', who: 'Sven Seller', how: 'key box by the side door' })).toMatchObject({
      status: 200,
      body: { version: 2 },
    });
    expect((await job(done.id)).needs.find((n: { kind: string }) => n.kind === 'access')).toMatchObject({
      state: 'settled',
      settledBy: 'Otto Office',
      details: { who: 'Sven Seller', how: 'key box by the side door' },
    });
    expect((await change({ state: 'open' })).status).toBe(412);
  });
  it('shows what other facts would change, then takes them in', async () => {
    const done = await held();
    const facts = { ...FACTS, livingArea: 3200, foundation: ['crawl_space'] };
    const seen = await read(`/api/jobs/${done.id}/facts/preview`, { facts });
    expect(seen.body).toMatchObject({ beforeCents: 46_500, afterCents: 71_000 });
    expect(seen.body.fee.map((l: { rule: string }) => l.rule)).toEqual(['base', 'crawl']);
    expect((await job(done.id)).feeLines).toHaveLength(1);
    const learned = await api.send('office', 'PUT', `/api/jobs/${done.id}/facts`, { version: 1, body: { facts } });
    expect(learned).toMatchObject({ status: 200, body: { totalCents: 71_000, warnings: [{ code: 'visit-too-short' }] } });
    expect((await job(done.id)).feeLines.map((l: { cents: number }) => l.cents)).toEqual([63_500, 7_500]);
    expect(await api.send('office', 'PUT', `/api/jobs/${done.id}/facts`, { version: 2, body: { facts } })).toMatchObject({
      status: 422,
      body: { code: 'nothing-changed' },
    });
  });
  it('puts a payer on the job, and keeps the last client of a booked one', async () => {
    const done = await held();
    await api.send('office', 'POST', `/api/jobs/${done.id}/parties`, { body: { id: randomUUID(), role: 'payer', name: 'Petra Payer' } });
    await api.send('office', 'POST', `/api/jobs/${done.id}/confirmation`);
    const page = await job(done.id);
    expect(page.needs.find((n: { kind: string }) => n.kind === 'payer').state).toBe('settled');
    const client = page.parties.find((p: { role: string }) => p.role === 'client');
    expect(await api.send('office', 'DELETE', `/api/jobs/${done.id}/parties/${client.id}`)).toMatchObject({
      status: 409,
      body: { code: 'last-client' },
    });
  });
  it('adds a pick-up by one person, and frees everybody on cancelling with a reason', async () => {
    const done = await held({ services: ['inspection', 'radon'] });
    const pick = (await starts({ services: ['inspection', 'radon'], visitKind: 'radon_pickup', fromDay: '2026-05-18' })).options[0];
    expect(pick.second).toBeNull();
    expect(
      (
        await api.send('office', 'POST', `/api/jobs/${done.id}/visits`, {
          body: { kind: 'radon_pickup', start: { startsAt: pick.startsAt, first: pick.first, second: null } },
        })
      ).status,
    ).toBe(201);
    const { version } = await job(done.id);
    expect(
      await api.send('office', 'PUT', `/api/jobs/${done.id}/cancellation`, { version, body: { reason: 'The sale fell through.' } }),
    ).toMatchObject({ status: 200 });
    const page = await job(done.id);
    expect(page.state).toBe('cancelled');
    expect(page.visits.map((v: { state: string }) => v.state)).toEqual(['cancelled', 'cancelled']);
    expect(page.events.at(-1)).toMatchObject({ kind: 'cancelled', text: 'The sale fell through.' });
    const taken = 'SELECT FROM assignment a JOIN visit v ON v.id = a.visit_id WHERE v.job_id = $1::uuid AND a.live';
    expect(await api.database.read.rows(taken, [done.id])).toEqual([]);
  });
});

describe('lists', () => {
  it('finds jobs by street, page by page', async () => {
    const first = await api.send('office', 'GET', '/api/jobs?text=alder&limit=2');
    expect(first.body.items).toHaveLength(2);
    const { body: second } = await api.send('office', 'GET', `/api/jobs?text=alder&limit=2&cursor=${first.body.next}`);
    expect(second.items[0].number).toBeLessThan(first.body.items[1].number);
    for (const who of ['office', 'anna'] as const)
      expect((await api.send(who, 'GET', '/api/jobs?text=nowhere')).body).toEqual({ items: [], next: null });
  });
  it('shows the week of everybody', async () => {
    const week = await api.send('anna', 'GET', '/api/week?from=2026-05-11');
    expect(week.status).toBe(200);
    const visits = week.body.people.flatMap((p: { days: { visits: unknown[] }[] }) => p.days.flatMap((d) => d.visits));
    expect(visits.length).toBeGreaterThan(2);
    expect(week.body.people.find((p: { name: string }) => p.name === 'Anna Inspector').days[1].hours).toEqual([{ start: 480, end: 1020 }]);
    expect((await api.send('nobody', 'GET', '/api/week?from=2026-05-11')).status).toBe(401);
  });
});

describe('history', () => {
  it('tells every job as it stands, after holds, moves, confirmations, facts, needs and cancellations', async () => {
    const jobs = await api.database.read.rows<{ id: string }>('SELECT id::text AS id FROM job');
    expect(jobs.length).toBeGreaterThan(10);
    const kinds = new Set<string>();
    for (const { id } of jobs) {
      const events = await findEvents(api.database.read, id);
      for (const { kind } of events) kinds.add(kind);
      const { id: _id, ...row } = (await findJob(api.database.read, id))!;
      expect(rebuild(events)).toEqual(row);
    }
    expect([...kinds].sort()).toEqual([
      'cancelled',
      'confirmed',
      'facts_learned',
      'held',
      'lapsed',
      'moved',
      'need',
      'party_added',
      'visit_added',
    ]);
  });
});

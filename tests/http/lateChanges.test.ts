// Moving and cancelling late over HTTP: what the rule charges, waiving it with a reason, and what the clients are told.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Prisma } from '@backsight/store/generated/client';
import { FACTS, holdBody, PLACE } from '../support/booking.ts';
import { testApi } from '../support/http.ts';
import { withStarter } from '../support/starter.ts';
import { DESK_RULES } from '../../prisma/seed/starter/deskRules.ts';

const api = testApi();
withStarter(api);
beforeAll(() =>
  api.database.transaction(async ({ db }) => {
    const [rules] = await db.bookingRules.findMany();
    const desk = { ...DESK_RULES, late: { hours: 24, movePercent: 10, cancelPercent: 50 } };
    const body = { ...(rules!.body as object), desk } as unknown as Prisma.InputJsonValue;
    const at = new Date(api.clock.now.getTime() - 60_000);
    await db.bookingRules.create({ data: { id: randomUUID(), number: 2, body, inForceFrom: at, recordedAt: at } });
  }),
);
const starts = async (withoutVisit: string | null = null) =>
  (
    await api.send('office', 'POST', '/api/starts', {
      once: true,
      body: { place: PLACE, facts: FACTS, services: ['inspection'], fromDay: '2026-05-13', days: 5, limit: 100, withoutVisit },
    })
  ).body.options as { startsAt: string; first: string; second: string }[];
const job = async (id: string) => (await api.send('office', 'GET', `/api/jobs/${id}`)).body;
const SOON = '2026-05-13T15:00:00.000Z';
async function booked(soon: boolean) {
  const start = (await starts()).find(({ startsAt }) => startsAt < SOON === soon)!;
  const held = await api.send('office', 'POST', '/api/jobs', { body: holdBody(start) });
  expect(held.status, JSON.stringify(held.body)).toBe(201);
  const confirmed = await api.send('office', 'POST', `/api/jobs/${held.body.id}/confirmation`);
  return { id: held.body.id as string, visitId: held.body.visitId as string, invoiceId: confirmed.body.invoiceId as string };
}
const cancel = async (id: string, more: object = {}) =>
  api.send('office', 'PUT', `/api/jobs/${id}/cancellation`, {
    version: (await job(id)).version,
    body: { reason: 'The sale fell through.', ...more },
  });
const mail = async (id: string, key: string) =>
  (
    await api.database.read.rows<{ body: string }>('SELECT body FROM outgoing_mail WHERE about_id = $1::uuid AND message_key LIKE $2', [
      id,
      `${key}:%`,
    ])
  )[0]?.body;

describe('cancelling late', () => {
  it('keeps the part that the rule says, and tells it', async () => {
    const { id, invoiceId } = await booked(true);
    await api.send('office', 'POST', `/api/invoices/${invoiceId}/payments`, {
      body: { id: randomUUID(), method: 'cash', reference: '', cents: 40_000, receivedOn: '2026-05-12' },
    });
    expect((await api.send('office', 'GET', `/api/jobs/${id}/desk`)).body.lateCancel).toEqual({
      percent: 50,
      feeCents: 46_500,
      cents: 23_250,
      hours: 24,
      because: 'less than 24 hours before; 50% of $465.00',
      paidCents: 40_000,
    });
    expect((await cancel(id)).status).toBe(200);
    expect(await job(id)).toMatchObject({ state: 'cancelled', invoice: { state: 'paid', totalCents: 23_250, paidCents: 23_250 } });
    expect((await api.send('office', 'GET', `/api/invoices/${invoiceId}`)).body).toMatchObject({
      state: 'withdrawn',
      toGiveBackCents: 16_750,
    });
    expect(await mail(id, 'cancelled')).toMatch(
      /less than 24 hours before, so \$232\.50 of the fee is charged\. You have paid more: we give \$167\.50 back/,
    );
  });
  it('is waived with a reason only, and then costs nothing', async () => {
    const { id } = await booked(true);
    expect(await cancel(id, { waive: true })).toMatchObject({ status: 422, body: { code: 'waiver-reason' } });
    expect((await cancel(id, { waive: true, waiver: 'A death in the family.' })).status).toBe(200);
    const page = await job(id);
    expect(page).toMatchObject({ state: 'cancelled', invoice: { state: 'withdrawn' } });
    expect(page.events.at(-1).text).toContain('waived: A death in the family.');
    expect(await mail(id, 'cancelled')).toContain('Nothing is left to pay.');
  });
  it('costs nothing in time', async () => {
    const { id } = await booked(false);
    expect((await api.send('office', 'GET', `/api/jobs/${id}/desk`)).body).toMatchObject({ lateCancel: null, lateMove: null });
    await cancel(id);
    expect(await job(id)).toMatchObject({ invoice: { state: 'withdrawn' } });
  });
});

describe('moving late', () => {
  const move = async (visitId: string, jobId: string, more: object = {}) => {
    const to = (await starts(visitId)).find(({ startsAt }) => startsAt > SOON)!;
    const [visit] = (await job(jobId)).visits;
    return api.send('office', 'PUT', `/api/visits/${visitId}/start`, {
      version: visit.version,
      body: { startsAt: to.startsAt, first: to.first, second: to.second, ...more },
    });
  };
  it('adds what the rule says to the fee and the invoice, once, and tells it', async () => {
    const { id, visitId } = await booked(true);
    expect((await move(visitId, id)).status).toBe(200);
    expect(await job(id)).toMatchObject({
      feeLines: [{ cents: 46_500 }, { label: 'Moved late', cents: 4_650 }],
      invoice: { totalCents: 51_150 },
    });
    expect(await mail(id, 'moved')).toContain('so $46.50 is charged besides the fee');
    expect((await move(visitId, id)).status).toBe(200);
    expect(await job(id)).toMatchObject({ invoice: { totalCents: 51_150 } });
  });
  it('is waived with a reason', async () => {
    const { id, visitId } = await booked(true);
    expect(await move(visitId, id, { waive: true })).toMatchObject({ status: 422, body: { code: 'waiver-reason' } });
    expect((await move(visitId, id, { waive: true, waiver: 'Our own mistake.' })).status).toBe(200);
    const page = await job(id);
    expect(page).toMatchObject({ invoice: { totalCents: 46_500 } });
    expect(page.events.find(({ kind }: { kind: string }) => kind === 'fee_decided')).toMatchObject({ text: 'Our own mistake.' });
  });
});

describe('rehearsing a move', () => {
  const mails = () => api.database.read.rows<{ subject: string }>('SELECT subject FROM outgoing_mail ORDER BY recorded_at, subject');
  it('answers what the move itself would, with all that it changes, and changes nothing', async () => {
    const { id, visitId } = await booked(true);
    const was = await job(id);
    const [visit] = was.visits;
    const sentBefore = await mails();
    const { version } = visit;
    const rehearse = (body: object, v = version) =>
      api.send('office', 'POST', `/api/visits/${visitId}/start/rehearsal`, { version: v, body, once: true });
    const move = (body: object) => api.send('office', 'PUT', `/api/visits/${visitId}/start`, { version, body });
    const [first, second] = visit.pair.map(({ personId }: { personId: string }) => personId);
    const crew = { first, second };
    for (const body of [
      { ...crew, startsAt: '2026-05-16T15:00:00.000Z' },
      { ...crew, startsAt: '2026-05-11T15:00:00.000Z' },
      { first: crew.first, second: crew.first, startsAt: '2026-05-14T15:00:00.000Z' },
    ]) {
      const said = await rehearse(body);
      expect(said.status, JSON.stringify(said.body)).toBe(200);
      expect(said.body.problem).toEqual((await move(body)).body);
      expect(said.body).toMatchObject({ told: [], askedAgain: [] });
    }
    expect((await rehearse({ ...crew, startsAt: visit.startsAt }, version + 1)).body.problem.code).toBe('changed-meanwhile');
    expect((await api.send('anna', 'POST', `/api/visits/${visitId}/start/rehearsal`, { version, body: crew })).status).toBe(403);
    const to = (await starts(visitId)).find(({ startsAt }) => startsAt > SOON)!;
    const body = { startsAt: to.startsAt, first: to.first, second: to.second };
    const seen = (await rehearse(body)).body;
    expect(seen).toMatchObject({
      problem: null,
      fee: { beforeCents: 46_500, afterCents: 46_500, lateCents: 4_650 },
      lateBecause: 'less than 24 hours before; 10% of $465.00',
      promise: { told: true, from: visit.startsAt, until: null, kept: false },
      objection: null,
      calls: [],
    });
    const days = seen.people as { id: string; before: { visits: number; driving: number }; after: { visits: number; driving: number } }[];
    expect(days.map((one) => one.id)).toEqual(expect.arrayContaining([first, second, to.first, to.second]));
    const visits = (when: 'before' | 'after') => days.reduce((sum, one) => sum + one[when].visits, 0);
    expect(visits('after')).toBe(visits('before'));
    expect(await job(id)).toEqual(was);
    expect(await mails()).toEqual(sentBefore);
    expect((await move({ ...body, why: 'The seller is away that morning.' })).status).toBe(200);
    const now = await job(id);
    const sent = (await mails()).map(({ subject }) => subject);
    for (const { subject } of sentBefore) sent.splice(sent.indexOf(subject), 1);
    expect(seen.told.map(({ subject }: { subject: string }) => subject).sort()).toEqual(sent.sort());
    expect(seen.told.length).toBeGreaterThanOrEqual(3);
    expect(now.events.find(({ kind }: { kind: string }) => kind === 'moved')).toMatchObject({ text: 'The seller is away that morning.' });
    expect(now.feeLines.reduce((sum: number, { cents }: { cents: number }) => sum + cents, 0)).toBe(
      seen.fee.afterCents + seen.fee.lateCents,
    );
  });
});

describe('the rules', () => {
  it('are changed by the owner for what is booked from then on', async () => {
    const found = await api.send('office', 'GET', '/api/desk-rules');
    expect(found.status, JSON.stringify(found.body)).toBe(200);
    const { version, rules } = found.body;
    const before = await booked(true);
    const change = (body: object, who: 'owner' | 'office' = 'owner', v = version) =>
      api.send(who, 'PUT', '/api/desk-rules', { version: v, body });
    expect((await change(rules, 'office')).status).toBe(403);
    expect((await change({ ...rules, late: { ...rules.late, cancelPercent: 101 } })).status).toBe(422);
    expect(
      (await change({ ...rules, laterLooks: [{ ...rules.laterLooks[0], applies: { fact: 'colour', compare: 'is', value: 1 } }] })).status,
    ).toBe(422);
    expect(
      await change({ ...rules, late: { hours: 24, movePercent: 0, cancelPercent: 0 }, radon: { shortestHours: 96, closedHouseHours: 12 } }),
    ).toMatchObject({
      status: 200,
      body: { version: version + 1 },
    });
    expect((await change(rules)).status).toBe(412);
    api.clock.now = new Date(api.clock.now.getTime() + 1000);
    const after = await booked(true);
    const late = async (id: string) => (await api.send('office', 'GET', `/api/jobs/${id}/desk`)).body.lateCancel;
    expect([await late(before.id), await late(after.id)]).toEqual([expect.objectContaining({ percent: 50 }), null]);
    expect(await api.database.read.rows(`SELECT after_hours AS hours FROM visit_kind WHERE key = 'radon_pickup'`)).toEqual([{ hours: 96 }]);
  });
});

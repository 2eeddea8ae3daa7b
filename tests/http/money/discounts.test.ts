// Discounts by hand, fees that follow the time, what is paid first, and payments that came back, over HTTP: done, refused, and seen on the job.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { keepText } from '@backsight/store/text';
import { FEE_SCHEDULE } from '../../../prisma/seed/starter/fees.ts';
import { FACTS, holdBody, PLACE } from '../../support/booking.ts';
import type { CastName } from '../../support/cast.ts';
import { testApi, type Answer } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';

const api = testApi();
withStarter(api);

const OUTSIDE = {
  key: 'early',
  label: 'Early start',
  applies: { always: true },
  kind: 'outsideHours',
  before: 600,
  after: 1440,
  days: [],
  cents: 7_500,
};
beforeAll(() =>
  api.database.transaction(async ({ db }) => {
    const body = { rules: [...FEE_SCHEDULE.rules, OUTSIDE] } as object;
    const at = new Date(api.clock.now.getTime() - 60_000);
    await db.feeSchedule.create({
      data: { id: randomUUID(), number: 90, name: 'With early starts', body, state: 'in_force', inForceFrom: at, recordedAt: at },
    });
  }),
);

type Start = { startsAt: string; first: string; second: string };
const starts = async (early: boolean, withoutVisit: string | null = null): Promise<Start> => {
  const { body } = await api.send('office', 'POST', '/api/starts', {
    once: true,
    body: { place: PLACE, facts: FACTS, services: ['inspection'], fromDay: '2026-05-14', days: 20, limit: 100, withoutVisit },
  });
  // 15:00 UTC is 10:00 in Chicago in May.
  return body.options.find(({ startsAt }: Start) => startsAt.slice(11, 16) < '15:00' === early);
};
const job = async (id: string) => (await api.send('office', 'GET', `/api/jobs/${id}`)).body;
const lines = async (id: string): Promise<[string, number][]> =>
  (await job(id)).feeLines.map(({ rule, cents }: { rule: string; cents: number }) => [rule, cents]);
async function booked(early = false, more: object = {}): Promise<{ id: string; visitId: string; invoiceId: string }> {
  const held = await api.send('office', 'POST', '/api/jobs', { body: { ...holdBody(await starts(early)), ...more } });
  expect(held.status, JSON.stringify(held.body)).toBe(201);
  const confirmed = await api.send('office', 'POST', `/api/jobs/${held.body.id}/confirmation`);
  return { id: held.body.id, visitId: held.body.visitId, invoiceId: confirmed.body.invoiceId };
}
async function sign(id: string): Promise<void> {
  const [signer] = await api.database.read.rows<{ id: string }>(
    'SELECT s.id::text AS id FROM signer s JOIN agreement a ON a.id = s.agreement_id WHERE a.job_id = $1::uuid ORDER BY a.issued_at DESC LIMIT 1',
    [id],
  );
  const at = api.clock.now;
  await api.database.transaction(async (tx) => {
    const nameTextId = await keepText(tx, randomUUID(), 'Client', at);
    const digests = { sha256: 'a'.repeat(64), consentSha256: 'b'.repeat(64) };
    const how = { method: 'paper', device: '', ipHash: '', happenedAt: at, recordedAt: at };
    await tx.db.signature.create({ data: { id: randomUUID(), signerId: signer!.id, nameTextId, ...digests, ...how } });
  });
}
const discount = async (who: CastName, id: string, said: object): Promise<Answer> =>
  api.send(who, 'PUT', `/api/jobs/${id}/discount`, {
    version: (await job(id)).version,
    body: { reason: 'Second house this year', ...said },
  });
const pay = (invoiceId: string, cents: number, more: object = {}): Promise<Answer> =>
  api.send('office', 'POST', `/api/invoices/${invoiceId}/payments`, {
    body: { id: randomUUID(), method: 'cash', reference: '', cents, receivedOn: '2026-05-12', ...more },
  });
const limit = (discountCents: number | null, role = 'office_manager', who: CastName = 'owner'): Promise<Answer> =>
  api.send(who, 'PUT', `/api/discount-limits/${role}`, { body: { discountCents } });

describe('a discount at booking', () => {
  const quote = async (more: object) =>
    (await api.send('office', 'POST', '/api/quotes', {
      once: true,
      body: { facts: FACTS, services: ['inspection'], day: '2026-05-14', place: PLACE, ...more },
    })) as Answer;
  it('is a line of the quote and of the job that names its reason; the price told holds it', async () => {
    const said = { percent: 10, reason: 'Second house this year' };
    const { body } = await quote({ discount: said });
    expect(body.fee.lines.at(-1)).toEqual({
      rule: 'discount-by-hand',
      label: 'Discount',
      reason: 'Second house this year, 10% of $465.00',
      cents: -4_650,
    });
    expect(body).toMatchObject({ discountRefused: null, fee: { totalCents: 41_850 } });
    const start = await starts(false);
    const hold = (more: object) => api.send('office', 'POST', '/api/jobs', { body: { ...holdBody(start), discount: said, ...more } });
    expect(await hold({ toldCents: 46_500 })).toMatchObject({ status: 409, body: { code: 'price-changed' } });
    const held = await hold({ toldCents: 41_850 });
    expect(held, JSON.stringify(held.body)).toMatchObject({ status: 201, body: { totalCents: 41_850 } });
    expect(await lines(held.body.id)).toEqual([
      ['base', 46_500],
      ['discount-by-hand', -4_650],
    ]);
  });
  it('has the limit of the role, where the firm sets one; nothing typed is lost', async () => {
    expect((await limit(5_000)).status).toBe(200);
    expect(await limit(5_000, 'owner')).toMatchObject({ status: 422, body: { code: 'owner-limit-open' } });
    expect((await limit(9_000, 'office_manager', 'office')).status).toBe(403);
    expect((await quote({ discount: { cents: 5_001, reason: '' } })).body).toMatchObject({
      discountRefused: 'You may take up to $50 off a fee. An owner may take off more.',
      fee: { totalCents: 46_500 },
    });
    const body = { ...holdBody(await starts(false)), discount: { cents: 5_001, reason: 'r' } };
    expect(await api.send('office', 'POST', '/api/jobs', { body })).toMatchObject({
      status: 409,
      body: { code: 'discount-limit', field: 'cents' },
    });
    await limit(null);
    for (const bad of [{ cents: 0 }, { cents: 100, percent: 5 }, { percent: 100.5 }, { percent: 1.005 }, {}])
      expect((await quote({ discount: { reason: 'r', ...bad } })).status, JSON.stringify(bad)).toBe(422);
    expect((await api.send('office', 'POST', '/api/jobs', { body: { ...body, discount: { cents: 100, reason: ' ' } } })).status).toBe(422);
  });
});

describe('a discount on a job', () => {
  it('lowers fee and invoice, supersedes a signed agreement, and is taken off again', async () => {
    const { id, invoiceId } = await booked();
    await sign(id);
    const before = (await job(id)).agreement;
    expect(before).toMatchObject({ signed: 1 });
    const preview = await api.send('office', 'POST', `/api/jobs/${id}/discount/preview`, { once: true, body: { cents: 6_500 } });
    expect(preview.body).toMatchObject({
      beforeCents: 46_500,
      afterCents: 40_000,
      signed: true,
      fee: [{ label: 'Discount', afterCents: -6_500 }],
    });
    expect(await discount('office', id, { cents: 6_500 })).toMatchObject({ status: 200, body: { totalCents: 40_000 } });
    const after = await job(id);
    expect(after).toMatchObject({ papersDiffer: [], invoice: { totalCents: 40_000, state: 'issued' }, agreement: { signed: 0 } });
    expect(after.agreement.id).not.toBe(before.id);
    expect(after.needs.find(({ kind }: { kind: string }) => kind === 'signature')).toMatchObject({ state: 'open' });
    expect(after.events.at(-1)).toMatchObject({ kind: 'discounted', text: 'Second house this year' });
    expect((await api.send('office', 'GET', `/api/invoices/${invoiceId}`)).body).toMatchObject({ state: 'withdrawn' });
    expect(await discount('office', id, { cents: 6_500 })).toMatchObject({ status: 422, body: { code: 'nothing-changed' } });
    const learned = await api.send('office', 'PUT', `/api/jobs/${id}/facts`, {
      version: after.version,
      body: { facts: { ...FACTS, yearBuilt: 1950 } },
    });
    expect(learned.body).toMatchObject({ totalCents: 45_000 });
    expect(await discount('office', id, {})).toMatchObject({ status: 200, body: { totalCents: 51_500 } });
    expect(await lines(id)).toEqual([
      ['base', 46_500],
      ['older', 5_000],
    ]);
  });
  it('is refused above the fee, above the limit, once more was paid, and after the visit began; inspectors give none', async () => {
    const { id, visitId, invoiceId } = await booked();
    expect(await discount('office', id, { cents: 46_501 })).toMatchObject({ status: 422, body: { code: 'discount-above-fee' } });
    expect((await discount('anna', id, { cents: 100 })).status).toBe(403);
    expect((await api.send('office', 'PUT', `/api/jobs/${id}/discount`, { version: 99, body: { cents: 100, reason: 'r' } })).status).toBe(
      412,
    );
    await limit(2_000);
    expect(await discount('office', id, { percent: 5 })).toMatchObject({ status: 409, body: { code: 'discount-limit' } });
    expect(await discount('owner', id, { percent: 5 })).toMatchObject({ status: 200 });
    await limit(null);
    const standing = (await job(id)).invoice.id;
    expect(standing).not.toBe(invoiceId);
    expect((await pay(standing, 40_000)).status).toBe(201);
    expect(await discount('office', id, { cents: 10_000 })).toMatchObject({ status: 409, body: { code: 'discount-paid' } });
    expect(await lines(id)).toEqual([
      ['base', 46_500],
      ['discount-by-hand', -2_325],
    ]);
    expect(await discount('office', id, { cents: 5_000 })).toMatchObject({ status: 200, body: { totalCents: 41_500 } });
    expect(await job(id)).toMatchObject({ invoice: { totalCents: 41_500, paidCents: 40_000 } });
    await api.database.transaction(async ({ db }) => {
      await db.visit.update({ where: { id: visitId }, data: { state: 'on_site' } });
      await db.job.update({ where: { id }, data: { state: 'on_site' } });
    });
    expect(await discount('office', id, { cents: 100 })).toMatchObject({ status: 409, body: { code: 'discount-late' } });
  });
});

describe('a move', () => {
  const move = async (visitId: string, id: string, to: Start, more: object = {}): Promise<Answer> =>
    api.send('office', 'PUT', `/api/visits/${visitId}/start`, {
      version: (await job(id)).visits[0].version,
      body: { startsAt: to.startsAt, first: to.first, second: to.second, ...more },
    });
  it('shows the fee at the new time, follows it, supersedes what was signed and tells the client', async () => {
    const { id, visitId } = await booked();
    await sign(id);
    const to = await starts(true, visitId);
    const preview = await api.send('office', 'POST', `/api/visits/${visitId}/start/preview`, {
      once: true,
      body: { startsAt: to.startsAt },
    });
    expect(preview.body).toMatchObject({
      beforeCents: 46_500,
      afterCents: 54_000,
      lateCents: 0,
      signed: true,
      fee: [{ label: 'Early start', beforeCents: null, afterCents: 7_500 }],
    });
    expect(await lines(id)).toEqual([['base', 46_500]]);
    expect(await move(visitId, id, to, { toldCents: 46_500 })).toMatchObject({ status: 409, body: { code: 'fee-at-new-time' } });
    expect((await move(visitId, id, to, { toldCents: 54_000 })).status).toBe(200);
    const after = await job(id);
    expect(after).toMatchObject({ invoice: { totalCents: 54_000 }, agreement: { signed: 0 }, papersDiffer: [] });
    const [mail] = await api.database.read.rows<{ body: string }>(
      `SELECT body FROM outgoing_mail WHERE about_id = $1::uuid AND message_key LIKE 'moved:%'`,
      [id],
    );
    expect(mail!.body).toContain('At the new time the fee is $540.00 instead of $465.00.');
    expect(mail!.body).toContain('It takes the place of the one before.');
    const back = await starts(false, visitId);
    expect((await move(visitId, id, back)).status).toBe(200);
    expect(await job(id)).toMatchObject({ invoice: { totalCents: 46_500 } });
  });
  it('keeps the fee as agreed with a reason, which the owner sees among what was waived; what was signed stands', async () => {
    const { id, visitId } = await booked();
    await sign(id);
    const to = await starts(true, visitId);
    expect(await move(visitId, id, to, { keepFee: true })).toMatchObject({
      status: 422,
      body: { code: 'fee-kept-reason', field: 'keptBecause' },
    });
    expect((await move(visitId, id, to, { keepFee: true, keptBecause: 'We asked them to move.' })).status).toBe(200);
    expect(await job(id)).toMatchObject({ invoice: { totalCents: 46_500 }, agreement: { signed: 1 }, papersDiffer: [] });
    const waived = (await api.send('owner', 'GET', '/api/waivers')).body.items;
    expect(waived[0]).toMatchObject({ jobId: id, what: 'fee_kept', cents: 7_500, reason: 'We asked them to move.' });
  });
  it('of a held job changes its price without papers', async () => {
    const held = await api.send('office', 'POST', '/api/jobs', {
      body: { ...holdBody(await starts(true)), discount: { percent: 10, reason: 'r' } },
    });
    const { id, visitId, totalCents } = held.body;
    expect(totalCents).toBe(48_600);
    expect((await move(visitId, id, await starts(false, visitId))).status).toBe(200);
    expect(await lines(id)).toEqual([
      ['base', 46_500],
      ['discount-by-hand', -4_650],
    ]);
  });
});

describe("the firm's rules about what is paid first", () => {
  const rules = async (change: object): Promise<Answer> => {
    const { services: _, version, ...body } = (await api.send('owner', 'GET', '/api/money-rules')).body;
    return api.send('owner', 'PUT', '/api/money-rules', { body: { ...body, ...change }, version });
  };
  it('let a deposit that is not in warn, or close the gate of the visit', async () => {
    const { id, visitId } = await booked(false, { terms: 'deposit' });
    await sign(id);
    const gate = async () => (await api.send('office', 'GET', `/api/visits/${visitId}/gate`)).body;
    expect(await gate()).toMatchObject({
      open: true,
      missing: [],
      warnings: ['The deposit has not come in; the visit may begin all the same.'],
    });
    expect((await rules({ depositClosesGate: true })).status).toBe(200);
    expect(await gate()).toMatchObject({ open: false, missing: ['fee-unpaid'], warnings: [] });
    await pay((await job(id)).invoice.id, 23_250);
    expect(await gate()).toMatchObject({ open: true, missing: [], warnings: [] });
    await rules({ depositClosesGate: false });
  });
  it('let a report leave before it is paid, or not', async () => {
    const { id } = await booked();
    const missing = async () =>
      (await api.send('office', 'GET', `/api/jobs/${id}/reports`)).body.handOver.missing.map(({ code }: { code: string }) => code);
    expect(await missing()).toContain('fee-unpaid');
    expect((await rules({ paidBeforeHandOver: false })).status).toBe(200);
    expect(await missing()).not.toContain('fee-unpaid');
    await rules({ paidBeforeHandOver: true });
  });
});

describe('a payment that came back', () => {
  it('is flagged on the job and on the home of the office until the invoice is paid', async () => {
    const { id, invoiceId } = await booked();
    const paid = await pay(invoiceId, 46_500, { method: 'check', reference: '71' });
    expect(await job(id)).toMatchObject({ cameBack: [] });
    await api.send('office', 'POST', `/api/payments/${paid.body.id}/reversal`, { body: { reason: 'returned_check' } });
    expect((await job(id)).cameBack).toMatchObject([
      { paymentId: paid.body.id, invoiceId, cents: 46_500, what: 'the check came back', openCents: 46_500, handedOverOn: null },
    ]);
    const list = async () =>
      (await api.send('office', 'GET', '/api/home')).body.lists.find(({ key }: { key: string }) => key === 'paymentsBack');
    expect(await list()).toMatchObject({
      count: 1,
      items: [{ thing: { kind: 'job', id }, detail: expect.stringContaining('$465.00 open') }],
    });
    await pay(invoiceId, 46_500);
    expect([(await job(id)).cameBack, (await list()).count]).toEqual([[], 0]);
  });
});

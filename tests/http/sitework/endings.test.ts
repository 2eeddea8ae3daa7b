// Tag: time, any day. How visits end early, over HTTP: what is recorded, what is charged, whether a report is owed, and booking again.
import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { testApi } from '../../support/http.ts';
import { needOf, paidJob } from '../../support/paidJob.ts';
import { withStarter } from '../../support/starter.ts';
import { start } from './support.ts';

const api = testApi();
withStarter(api);

const PNG = 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg==';
const job = async (id: string) => (await api.send('office', 'GET', `/api/jobs/${id}`)).body;
const desk = async (id: string) => (await api.send('office', 'GET', `/api/jobs/${id}/desk`)).body;
const version = async (id: string): Promise<number> => (await job(id)).version;
const rows = <T>(sql: string, params: unknown[] = []) => api.database.read.rows<T>(sql, params);
const balance = async (account: string, jobId: string): Promise<number> =>
  (
    await rows<{ n: number }>('SELECT coalesce(sum(cents), 0)::int AS n FROM ledger_line WHERE account = $1 AND job_id = $2::uuid', [
      account,
      jobId,
    ])
  )[0]!.n;

let week = 0;
let endedAt = '';
/** A booked job whose visit began some weeks ago, each in a week of its own; its fee of $575.00 is invoiced. */
async function due(wish: Parameters<typeof paidJob>[1] = {}) {
  week += 1;
  const startsAt = new Date(api.clock.now.getTime() - week * 7 * 86_400_000);
  endedAt = new Date(startsAt.getTime() + 40 * 60_000).toISOString();
  const made = await paidJob(api, { signed: true, startsAt, ...wish });
  const invoice = await api.send('office', 'POST', `/api/jobs/${made.jobId}/invoices`, { body: {} });
  expect(invoice.status, JSON.stringify(invoice.body)).toBe(201);
  return { ...made, startsAt, invoiceId: invoice.body.invoiceId as string };
}
const nobody = (more: object = {}) => ({
  kind: 'nobody_came',
  endedAt,
  waitedMinutes: 30,
  callsMade: 3,
  note: 'Rang twice, no car in the drive.',
  reportOwed: 'no',
  ...more,
});
const end = (visitId: string, body: object, who: 'anna' | 'office' | 'cora' = 'anna') =>
  api.send(who, 'POST', `/api/visits/${visitId}/ending`, { body });
const charge = async (id: string, body: object) =>
  api.send('office', 'PUT', `/api/jobs/${id}/ending-fee`, { version: await version(id), body });
const pay = (invoiceId: string, cents: number) =>
  api.send('office', 'POST', `/api/invoices/${invoiceId}/payments`, {
    body: { id: randomUUID(), method: 'check', reference: '118', cents, receivedOn: api.clock.now.toISOString().slice(0, 10) },
  });

describe('the page that ends a visit', () => {
  it('says what each way of ending charges by the rules under which the job was booked, to its pair and the office alone', async () => {
    const made = await due();
    const about = (who: 'anna' | 'office' | 'cora') => api.send(who, 'GET', `/api/visits/${made.visitId}/ending`);
    const before = (await api.send('owner', 'GET', '/api/desk-rules')).body;
    const say = async (rules: object) => {
      const { version: now } = (await api.send('owner', 'GET', '/api/desk-rules')).body;
      expect((await api.send('owner', 'PUT', '/api/desk-rules', { version: now, body: { ...before.rules, ...rules } })).status).toBe(200);
    };
    await say({ endings: { ...before.rules.endings, nobody_came: 80 } });
    const page = await about('anna');
    expect(page.body).toMatchObject({
      feeCents: 57_500,
      charges: [
        { kind: 'refused_at_the_door', percent: 50, cents: 28_750 },
        { kind: 'nobody_came', percent: 50, cents: 28_750 },
        { kind: 'stopped_for_safety', percent: 0, cents: 0 },
        { kind: 'stopped_by_client', percent: 100, cents: 57_500 },
      ],
    });
    expect((await about('office')).body.charges).toEqual(page.body.charges);
    expect((await about('cora')).status).toBe(403);
    await say({});
  });
});

describe('a visit to which nobody came', () => {
  it('is recorded by the pair with minutes, calls and photo; the rest of the time is free', async () => {
    const made = await due();
    const done = await end(made.visitId, nobody({ photo: { name: 'door.png', base64: PNG } }));
    expect(done, JSON.stringify(done.body)).toMatchObject({ status: 201, body: { jobId: made.jobId, notReached: 0 } });
    const page = await job(made.jobId);
    expect(page).toMatchObject({ state: 'ended', visits: [{ state: 'ended' }] });
    expect(Date.parse(page.visits[0].endsAt) - made.startsAt.getTime()).toBe(41 * 60_000);
    expect(page.events.at(-1)).toMatchObject({ kind: 'visit_ended', text: 'Rang twice, no car in the drive.' });
    expect((await desk(made.jobId)).endings).toMatchObject([
      { kind: 'nobody_came', waitedMinutes: 30, callsMade: 3, hasPhoto: true, by: 'Anna Inspector' },
    ]);
    const photo = await api.send('office', 'GET', `/api/visits/${made.visitId}/ending/photo`);
    expect(photo).toMatchObject({ status: 200, headers: { 'content-type': 'image/png' } });
    expect((await api.send('cora', 'GET', `/api/visits/${made.visitId}/ending/photo`)).status).toBe(403);
  });
  it('charges the part that the rule says; an unpaid invoice is issued anew', async () => {
    const made = await due();
    await end(made.visitId, nobody());
    expect((await desk(made.jobId)).endingFee).toEqual({ percent: 50, feeCents: 57_500, cents: 28_750, paidCents: 0 });
    const tick = await api.send('office', 'PATCH', `/api/jobs/${made.jobId}/needs/ending_fee`, {
      version: await version(made.jobId),
      body: { state: 'settled' },
    });
    expect(tick).toMatchObject({ status: 409, body: { code: 'need-follows' } });
    expect(await charge(made.jobId, { waive: false })).toMatchObject({ status: 200, body: { cents: 28_750, toGiveBackCents: 0 } });
    expect(await job(made.jobId)).toMatchObject({ invoice: { state: 'issued', totalCents: 28_750, paidCents: 0 }, papersDiffer: [] });
    expect(await balance('receivable', made.jobId)).toBe(28_750);
    expect(await needOf(api, made.jobId, 'ending_fee')).toBe('settled');
    expect(await charge(made.jobId, { waive: false })).toMatchObject({ status: 409, body: { code: 'nothing-to-decide' } });
  });
  it.each(['due_at_visit', 'deposit'])(
    'carries what was paid (%s) over to the smaller invoice, and keeps the rest to give back',
    async (terms) => {
      const made = await due({ terms });
      expect((await pay(made.invoiceId, 50_000)).status).toBe(201);
      await end(made.visitId, nobody());
      expect((await charge(made.jobId, { waive: false })).body).toMatchObject({ cents: 28_750, toGiveBackCents: 21_250 });
      expect((await job(made.jobId)).invoice).toMatchObject({ state: 'paid', totalCents: 28_750, paidCents: 28_750 });
      expect((await api.send('office', 'GET', `/api/invoices/${made.invoiceId}`)).body).toMatchObject({
        state: 'withdrawn',
        toGiveBackCents: 21_250,
      });
      expect(await balance('bank', made.jobId)).toBe(50_000);
      expect(await balance('deposits-held', made.jobId)).toBe(0);
      expect(await balance('fee-income', made.jobId)).toBe(-28_750);
    },
  );
  it('is waived with a reason only; then everything is to be given back', async () => {
    const made = await due();
    await pay(made.invoiceId, 57_500);
    await end(made.visitId, nobody());
    expect(await charge(made.jobId, { waive: true, reason: ' ' })).toMatchObject({ status: 422, body: { code: 'waiver-reason' } });
    expect((await charge(made.jobId, { waive: true, reason: 'We had the wrong day in our mail.' })).body).toMatchObject({
      cents: 0,
      toGiveBackCents: 57_500,
    });
    const page = await job(made.jobId);
    expect(page.events.at(-1)).toMatchObject({ kind: 'fee_decided', text: 'We had the wrong day in our mail.' });
    expect(page.invoice).toMatchObject({ state: 'withdrawn' });
    expect(
      (await rows('SELECT details FROM audit_row WHERE thing_id = $1 AND operation = $2', [made.jobId, 'jobs.charge-ending']))[0],
    ).toMatchObject({
      details: { waived: true, cents: 0 },
    });
  });
  it('is refused with a clear message when something is wrong', async () => {
    const made = await due();
    for (const [body, status, code] of [
      [nobody({ waitedMinutes: null }), 422, 'waiting-missing'],
      [nobody({ endedAt: new Date(api.clock.now.getTime() + 3_600_000).toISOString() }), 422, 'ended-ahead'],
      [nobody({ endedAt: new Date(made.startsAt.getTime() - 7_200_000).toISOString() }), 422, 'ended-before-start'],
      [nobody({ reportOwed: 'yes' }), 422, 'report-without-record'],
      [nobody({ photo: { name: 'x.png', base64: 'aGVsbG8=' } }), 422, 'photo-not-an-image'],
      [nobody({ kind: 'tired' }), 422, 'not-valid'],
      [nobody({ waitedMinutes: -1 }), 422, 'not-valid'],
    ] as const) {
      const answer = await end(made.visitId, body);
      expect([answer.status, answer.body.code], JSON.stringify(body)).toEqual([status, code]);
    }
    expect((await end(made.visitId, nobody(), 'cora')).body.code).toBe('not-on-this-visit');
    expect((await api.send('anna', 'PUT', `/api/jobs/${made.jobId}/ending-fee`, { version: 1, body: { waive: true } })).status).toBe(403);
    expect((await end(made.visitId, nobody())).status).toBe(201);
    expect((await end(made.visitId, nobody())).body.code).toBe('visit-is');
  });
});

describe('booking again', () => {
  const again = async (id: string, feeAgain: boolean) => {
    const page = await job(id);
    const { address: _, ...property } = page.property;
    const found = await api.send('office', 'POST', '/api/starts', {
      once: true,
      body: {
        place: { lat: property.lat, lon: property.lon },
        facts: page.facts,
        services: ['inspection'],
        fromDay: api.clock.now.toISOString().slice(0, 10),
        days: 10,
        limit: 5,
      },
    });
    const { startsAt, first, second } = found.body.options[0];
    return api.send('office', 'PUT', `/api/jobs/${id}/new-visit`, {
      version: page.version,
      body: { start: { startsAt, first, second }, feeAgain },
    });
  };
  it('waits for the decision on the fee, then books the same job with the fee and what was charged', async () => {
    const made = await due();
    expect((await api.send('office', 'POST', `/api/jobs/${made.jobId}/agreement`, { body: {} })).status).toBe(201);
    await end(made.visitId, nobody());
    expect(await again(made.jobId, true)).toMatchObject({ status: 409, body: { code: 'ending-fee-open' } });
    await charge(made.jobId, { waive: false });
    const booked = await again(made.jobId, true);
    expect(booked, JSON.stringify(booked.body)).toMatchObject({ status: 200, body: { totalCents: 57_500 + 28_750 } });
    const page = await job(made.jobId);
    expect(page).toMatchObject({ state: 'booked', invoice: { totalCents: 86_250 } });
    expect(page.visits.map(({ state }: { state: string }) => state)).toEqual(['ended', 'booked']);
    expect(page.needs.find(({ kind }: { kind: string }) => kind === 'access')).toMatchObject({ state: 'open' });
    expect(page.papersDiffer).toEqual([]);
    const told = await rows<{ body: string }>('SELECT body FROM outgoing_mail WHERE about_id = $1::uuid AND message_key LIKE $2', [
      made.jobId,
      'moved:%',
    ]);
    expect(told).toHaveLength(1);
    expect(told[0]!.body).toContain('$287.50 is charged for the visit that ended early, and $575.00 for the new one: $862.50 together.');
    expect(await again(made.jobId, true)).toMatchObject({ status: 409, body: { code: 'job-is' } });
  });
  it('lets one fee cover both visits', async () => {
    const made = await due({ signed: false, terms: 'due_at_booking' });
    await pay(made.invoiceId, 57_500);
    await end(made.visitId, nobody());
    expect(await needOf(api, made.jobId, 'signature')).toBe('not_needed');
    await charge(made.jobId, { waive: false });
    expect(await needOf(api, made.jobId, 'payment')).toBe('settled');
    expect((await again(made.jobId, false)).body).toMatchObject({ totalCents: 57_500 });
    expect(await needOf(api, made.jobId, 'payment')).toBe('open');
    expect(await needOf(api, made.jobId, 'signature')).toBe('open');
    expect((await job(made.jobId)).invoice).toMatchObject({ totalCents: 28_750, paidCents: 0 });
  });
});

describe('a visit that was stopped part-way', () => {
  it('fills in what was not reached, and asks whether a report is owed', async () => {
    const made = await due();
    const recordId = await start(api, made.visitId);
    expect((await end(made.visitId, nobody())).body.code).toBe('ended-inside');
    const done = await end(
      made.visitId,
      nobody({ kind: 'stopped_by_client', waitedMinutes: null, callsMade: null, reportOwed: 'later' }),
      'office',
    );
    expect(done.status, JSON.stringify(done.body)).toBe(201);
    expect(done.body.notReached).toBeGreaterThan(50);
    const entries = await rows<{ outcome: string; reason: string | null }>(
      'SELECT DISTINCT outcome, reason FROM step_entry WHERE record_id = $1::uuid',
      [recordId],
    );
    expect(entries).toEqual([{ outcome: 'ended_before', reason: null }]);
    expect(await desk(made.jobId)).toMatchObject({
      reportOwedOpen: true,
      endingFee: { percent: 100 },
      bookAgain: { againCents: 115_000, onceCents: 57_500 },
    });
    const owed = await api.send('office', 'PUT', `/api/jobs/${made.jobId}/report-owed`, {
      version: await version(made.jobId),
      body: { owed: true },
    });
    expect(owed.status).toBe(200);
    expect(await job(made.jobId)).toMatchObject({ state: 'visited' });
    expect((await charge(made.jobId, { waive: false })).body).toMatchObject({ cents: 57_500, toGiveBackCents: 0 });
    expect((await api.send('anna', 'POST', `/api/records/${recordId}/seal`, { body: {} })).status).toBe(201);
  });
  it('has no report where nothing was recorded', async () => {
    const made = await due();
    await end(made.visitId, nobody({ kind: 'stopped_for_safety', reportOwed: 'later' }));
    const owed = (answer: boolean) =>
      version(made.jobId).then((v) =>
        api.send('office', 'PUT', `/api/jobs/${made.jobId}/report-owed`, { version: v, body: { owed: answer } }),
      );
    expect((await owed(true)).body.code).toBe('report-without-record');
    expect((await owed(false)).status).toBe(200);
    expect((await owed(false)).body.code).toBe('nothing-to-decide');
  });
});

describe('the database', () => {
  it('keeps the order of states, and no ending without saying how', async () => {
    const made = await due();
    const set = (sql: string, id: string) => api.database.transaction(({ db }) => db.$executeRawUnsafe(sql, id));
    await expect(set(`UPDATE visit SET state = 'ended' WHERE id = $1::uuid`, made.visitId)).rejects.toThrow(/visit_ending_recorded/);
    await end(made.visitId, nobody());
    await expect(set(`UPDATE visit SET state = 'booked' WHERE id = $1::uuid`, made.visitId)).rejects.toThrow(/visit_state_order/);
    await expect(set(`UPDATE job SET state = 'on_site' WHERE id = $1::uuid`, made.jobId)).rejects.toThrow(/job_state_order/);
    await expect(set(`DELETE FROM visit_ending WHERE visit_id = $1::uuid`, made.visitId)).rejects.toThrow(
      /history_is_kept|permission denied/,
    );
  });
});

describe('the client', () => {
  it('is noted with when to arrive, and gets a missed walk-through by phone', async () => {
    const made = await due();
    const note = async (body: object) =>
      api.send('office', 'PUT', `/api/jobs/${made.jobId}/attendance`, { version: await version(made.jobId), body });
    expect((await note({ attendees: 'Paula and her father', arrives: 'start' })).status).toBe(200);
    expect((await desk(made.jobId)).attendance).toEqual({
      attendees: 'Paula and her father',
      arrives: 'start',
      arriveAt: made.startsAt.toISOString(),
    });
    expect((await note({ arrives: 'whenever' })).status).toBe(422);
    const recordId = await start(api, made.visitId);
    await api.send('anna', 'POST', `/api/records/${recordId}/end`, { body: { endedAs: 'complete', missedWalkThrough: true } });
    expect(await needOf(api, made.jobId, 'walk_through')).toBe('open');
    const home = (await api.send('office', 'GET', '/api/home')).body.lists.find(({ key }: { key: string }) => key === 'toDecide');
    expect(home.items.some(({ detail }: { detail: string }) => detail.endsWith('offer the walk-through by phone'))).toBe(true);
  });
});

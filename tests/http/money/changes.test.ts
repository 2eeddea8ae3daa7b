// Credit notes, write-offs, refunds and returned payments over HTTP: done, refused, and at their edges.
import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { testApi, type Answer } from '../../support/http.ts';
import { paidJob } from '../../support/paidJob.ts';
import { flat, readPdf } from '../../support/pdf.ts';
import type { SiteJob } from '../../support/siteJob.ts';
import { withStarter } from '../../support/starter.ts';
import { on, received } from '../callbacks/support.ts';

const api = testApi();
withStarter(api);

const invoiceOf = async (wish: Parameters<typeof paidJob>[1] = {}): Promise<{ jobId: string; id: string }> => {
  const { jobId } = await paidJob(api, wish);
  return { jobId, id: (await api.send('office', 'POST', `/api/jobs/${jobId}/invoices`, { body: {} })).body.invoiceId };
};
const pay = (id: string, cents: number, more: object = {}): Promise<Answer> =>
  api.send('office', 'POST', `/api/invoices/${id}/payments`, {
    body: { id: randomUUID(), method: 'cash', reference: '', cents, receivedOn: '2026-05-12', ...more },
  });
const look = async (id: string) => (await api.send('office', 'GET', `/api/invoices/${id}`)).body;
const act = (who: 'owner' | 'office', id: string, what: string, cents: number, more: object = {}): Promise<Answer> =>
  api.send(who, 'POST', `/api/invoices/${id}/${what}`, { body: { id: randomUUID(), cents, reason: 'because', ...more } });
const check = { method: 'check', reference: '12' };

describe('a credit note', () => {
  it('has a number of its own, names the invoice, and leaves the rest to be given back', async () => {
    const { id } = await invoiceOf();
    await pay(id, 57_500);
    const first = await act('office', id, 'credit-notes', 5_000);
    expect(first).toMatchObject({ status: 201, body: { number: 1001, openCents: 0 } });
    expect(await look(id)).toMatchObject({
      state: 'paid',
      creditedCents: 5_000,
      toGiveBackCents: 5_000,
      acts: [{ kind: 'credit_note', number: 1001 }],
    });
    const toGiveBack = async () => (await api.send('owner', 'GET', '/api/receivables')).body.back;
    expect(await toGiveBack()).toMatchObject([{ id }]);
    const refused = await act('office', id, 'refunds', 5_001, check);
    expect(refused).toMatchObject({ status: 409, body: { code: 'refund-above-paid', field: 'cents' } });
    expect(await act('office', id, 'refunds', 5_000, check)).toMatchObject({ status: 201 });
    expect(await toGiveBack()).toEqual([]);
    expect(await look(id)).toMatchObject({ paidCents: 52_500, toGiveBackCents: 0 });
  });
  it('is given back under the clearance of a callback that is open about the job', async () => {
    const { jobId, id } = await invoiceOf();
    await pay(id, 57_500);
    await act('office', id, 'credit-notes', 5_000);
    const parties = await api.database.read.rows<{ id: string }>(
      `SELECT party_id::text AS id FROM job_party WHERE job_id = $1::uuid AND role = 'client'`,
      [jobId],
    );
    const callback = await received(api, { jobId, clientId: parties[0]!.id } as SiteJob, { kind: 'fee' });
    expect(await act('office', id, 'refunds', 5_000, check)).toMatchObject({ status: 409, body: { code: 'refund-while-callback' } });
    const cleared = { kind: 'owner_reason', words: 'Below the deductible.' };
    expect((await on(api, 'owner', callback, 'clearance', cleared)).status).toBe(201);
    expect(await act('office', id, 'refunds', 5_000, check)).toMatchObject({ status: 201 });
  });
  it('never takes off more than the invoice asks for; the number is not used up', async () => {
    const { id } = await invoiceOf();
    expect(await act('office', id, 'credit-notes', 57_501)).toMatchObject({ status: 409, body: { code: 'credit-above-invoice' } });
    expect(await act('office', id, 'credit-notes', 57_500)).toMatchObject({ status: 201, body: { number: 1003 } });
    expect(await look(id)).toMatchObject({ state: 'paid', openCents: 0 });
  });
});

describe('a write-off', () => {
  it('goes as far as the approval limit; an owner may write off more; it can be taken back once', async () => {
    const { id } = await invoiceOf();
    expect(await act('office', id, 'write-offs', 57_500)).toMatchObject({ status: 409, body: { code: 'write-off-limit' } });
    const done = await act('owner', id, 'write-offs', 57_500);
    expect(done).toMatchObject({ status: 201, body: { openCents: 0 } });
    const back = () => api.send('office', 'POST', `/api/invoice-acts/${done.body.id}/reversal`, { body: {}, once: true });
    expect(await back()).toMatchObject({ status: 201, body: { openCents: 57_500 } });
    expect(await back()).toMatchObject({ status: 409, body: { code: 'write-off-none' } });
  });
});

it.each([
  ['credit-notes', {}],
  ['write-offs', {}],
  ['refunds', check],
])('%s of nothing, less than nothing, a part of a cent or too much to be true are refused at the amount', async (what, more) => {
  const { id } = await invoiceOf();
  for (const cents of [0, -1, 0.5, 2_000_000_001, null]) expect((await act('owner', id, what, cents as number, more)).status).toBe(422);
  expect((await act('owner', id, what, 100, { ...more, reason: ' ' })).status).toBe(422);
  expect(await look(id)).toMatchObject({ openCents: 57_500, acts: [] });
});

describe('a job that was cancelled', () => {
  it('takes no payment; what was paid is given back as far as it goes', async () => {
    const { jobId, id } = await invoiceOf();
    await pay(id, 20_000);
    const page = await api.send('office', 'GET', `/api/jobs/${jobId}`);
    const cancelled = await api.send('office', 'PUT', `/api/jobs/${jobId}/cancellation`, {
      body: { reason: 'sold', waive: true, waiver: 'a courtesy' },
      version: page.body.version,
    });
    expect(cancelled.status).toBeLessThan(300);
    expect(await pay(id, 100)).toMatchObject({ status: 409, body: { code: 'invoice-not-open' } });
    expect(await act('owner', id, 'refunds', 20_001, check)).toMatchObject({ status: 409, body: { code: 'refund-above-paid' } });
    expect(await act('owner', id, 'refunds', 20_000, check)).toMatchObject({ status: 201 });
    expect(await look(id)).toMatchObject({ state: 'withdrawn', paidCents: 0, toGiveBackCents: 0, openCents: 0 });
  });
});

describe('a returned payment', () => {
  it('is charged for by the rule, flags a hand-over made before, and its evidence is one file', async () => {
    const rules = await api.send('owner', 'GET', '/api/money-rules');
    const { services: _, version, ...body } = rules.body;
    await api.send('owner', 'PUT', '/api/money-rules', { body: { ...body, returnedFeeCents: 3_000 }, version });
    const { id, jobId } = await invoiceOf({ signed: true });
    const paid = await pay(id, 57_500, check);
    await api.database.transaction(async ({ db }) => {
      const reportId = api.newId();
      const [party] = await db.jobParty.findMany({ where: { jobId } });
      const day = new Date('2026-05-11');
      const at = new Date(api.clock.now.getTime() - 3_600_000);
      const days = { inspectedOn: day, completedOn: day, reportOn: day, inspectedBy: [] };
      await db.report.create({
        data: {
          id: reportId,
          jobId,
          version: 1,
          registerNo: 1,
          source: 'drafted',
          body: {},
          ...days,
          preparedBy: api.newId(),
          recordedAt: at,
        },
      });
      await db.reportDelivery.create({
        data: { id: api.newId(), reportId, partyId: party!.partyId, deliveredAt: at, method: 'paper', recordedAt: at },
      });
    });
    const back = { body: { reason: 'returned_check', charge: true } };
    expect(await api.send('office', 'POST', `/api/payments/${paid.body.id}/reversal`, back)).toMatchObject({
      status: 201,
      body: { openCents: 60_500, chargedCents: 3_000 },
    });
    expect(await look(id)).toMatchObject({ state: 'issued', openCents: 60_500, addedCents: 3_000, handedOverOn: '2026-05-12' });
    const home = (await api.send('owner', 'GET', '/api/home')).body.lists.find(({ key }: { key: string }) => key === 'handedOverUnpaid');
    expect(home).toMatchObject({ count: 1, items: [{ thing: { kind: 'invoice', id } }] });
    const file = await api.send('office', 'GET', `/api/payments/${paid.body.id}/evidence`);
    expect(file.status).toBe(200);
    const text = flat((await readPdf(file.bytes)).pages.join(' '));
    for (const words of ['Agreement and signatures', 'Report handed over', 'Mail about appointments', 'the check came back', '$575.00'])
      expect(text).toContain(words);
    // The words of the agreement are set as they are read, not as they are typed.
    expect(text).not.toMatch(/##|\*\*/);
  });
});

// Invoices and payments over HTTP: whole and part payments, reversals, deposits, who may, races.
import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { earnDeposits } from '@backsight/usecases/fees/earnDeposits';
import { testApi, type Answer } from '../support/http.ts';
import { needOf, paidJob } from '../support/paidJob.ts';
import { withStarter } from '../support/starter.ts';

const api = testApi();
withStarter(api);

const issue = async (jobId: string): Promise<string> =>
  (await api.send('office', 'POST', `/api/jobs/${jobId}/invoices`, { body: {} })).body.invoiceId;
const pay = (invoiceId: string, cents: number, more: object = {}): Promise<Answer> =>
  api.send('office', 'POST', `/api/invoices/${invoiceId}/payments`, {
    body: { id: randomUUID(), method: 'cash', reference: '', cents, receivedOn: '2026-05-12', ...more },
  });
const look = async (invoiceId: string) => (await api.send('office', 'GET', `/api/invoices/${invoiceId}`)).body;
const balance = async () => (await api.send('owner', 'GET', '/api/ledger/balance')).body;

describe('an invoice', () => {
  it('is issued once for one fee, with lines, and balances in the ledger', async () => {
    const { jobId } = await paidJob(api);
    const invoiceId = await issue(jobId);
    expect(await issue(jobId)).toBe(invoiceId);
    expect(await look(invoiceId)).toMatchObject({
      state: 'issued',
      totalCents: 57_500,
      openCents: 57_500,
      payerName: 'Paula Prior',
      lines: [{ cents: 45_000 }, { cents: 12_500 }],
      payments: [],
    });
    const { debit, credit } = await balance();
    expect([debit > 0, debit - credit]).toEqual([true, 0]);
  });
  it('gets numbers without gaps, also when many are issued at once', async () => {
    const jobs = [];
    for (let n = 0; n < 6; n++) jobs.push(await paidJob(api));
    await Promise.all(
      jobs.flatMap(({ jobId }) => [1, 2].map(() => api.send('office', 'POST', `/api/jobs/${jobId}/invoices`, { body: {} }))),
    );
    const rows = await api.database.read.rows<{ number: number }>('SELECT number FROM invoice ORDER BY number');
    expect(rows.map(({ number }) => number)).toEqual(rows.map((_, at) => 1001 + at));
  });
  it('is refused for two payers and for no fee', async () => {
    const two = await paidJob(api, {
      payers: [
        { name: 'Pia', email: null },
        { name: 'Quin', email: null },
      ],
    });
    expect(await api.send('office', 'POST', `/api/jobs/${two.jobId}/invoices`, { body: {} })).toMatchObject({
      status: 409,
      body: { code: 'several-payers' },
    });
    const free = await paidJob(api, { cents: [] });
    expect(await api.send('office', 'POST', `/api/jobs/${free.jobId}/invoices`, { body: {} })).toMatchObject({
      status: 409,
      body: { code: 'nothing-to-invoice' },
    });
  });
  it.each(['anna', 'lead'] as const)('is not for %s', async (who) => {
    const { jobId } = await paidJob(api);
    expect((await api.send(who, 'GET', `/api/jobs/${jobId}/invoices`)).status).toBe(403);
    expect((await api.send(who, 'POST', `/api/jobs/${jobId}/invoices`, { body: {} })).status).toBe(403);
  });
});

describe('a payment', () => {
  it('in parts settles the job when the last one comes', async () => {
    const { jobId } = await paidJob(api);
    const invoiceId = await issue(jobId);
    expect(await pay(invoiceId, 7_500)).toMatchObject({ status: 201, body: { openCents: 50_000 } });
    expect(await needOf(api, jobId, 'payment')).toBe('open');
    api.clock.now = new Date(api.clock.now.getTime() + 1000);
    expect(await pay(invoiceId, 50_000, { method: 'check', reference: '2214' })).toMatchObject({ status: 201, body: { openCents: 0 } });
    expect(await look(invoiceId)).toMatchObject({
      state: 'paid',
      openCents: 0,
      payments: [{ cents: 7_500 }, { cents: 50_000, reference: '2214', recordedBy: 'Otto Office' }],
    });
    expect(await needOf(api, jobId, 'payment')).toBe('settled');
  });
  it('above what is open is refused, names what is open, and leaves nothing', async () => {
    const invoiceId = await issue((await paidJob(api)).jobId);
    const before = await balance();
    expect(await pay(invoiceId, 57_501)).toMatchObject({
      status: 409,
      body: { code: 'more-than-open', field: 'cents', about: { open: '$575.00' } },
    });
    expect(await balance()).toEqual(before);
  });
  it('is taken once when two come at the same time for the whole amount', async () => {
    const invoiceId = await issue((await paidJob(api)).jobId);
    const answers = await Promise.all([pay(invoiceId, 57_500), pay(invoiceId, 57_500), pay(invoiceId, 57_500)]);
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409]);
  });
  it.each([
    [{ cents: 0 }, 422],
    [{ cents: -5 }, 422],
    [{ cents: 1.5 }, 422],
    [{ method: 'barter' }, 422],
    [{ method: 'card' }, 422],
    [{ receivedOn: '2026-05-13' }, 422],
    [{ receivedOn: '2026-02-30' }, 422],
  ])('with %o is answered with %i', async (wrong, status) => {
    const invoiceId = await issue((await paidJob(api)).jobId);
    expect((await pay(invoiceId, 100, wrong)).status).toBe(status);
  });
  it('that came back opens the invoice and the need again, once', async () => {
    const { jobId } = await paidJob(api);
    const invoiceId = await issue(jobId);
    const paid = await pay(invoiceId, 57_500, { method: 'check', reference: '9' });
    const back = await api.send('office', 'POST', `/api/payments/${paid.body.id}/reversal`, { body: { reason: 'returned_check' } });
    expect(back).toMatchObject({ status: 201, body: { openCents: 57_500 } });
    expect(await look(invoiceId)).toMatchObject({
      state: 'issued',
      openCents: 57_500,
      payments: [{ reversedOn: '2026-05-12', reversalMemo: expect.stringContaining('the check came back') }],
    });
    expect(await needOf(api, jobId, 'payment')).toBe('open');
    expect(await api.send('owner', 'POST', `/api/payments/${paid.body.id}/reversal`, { body: { reason: 'card_dispute' } })).toMatchObject({
      status: 409,
      body: { code: 'payment-reversed' },
    });
  });
  it('after which the fee changes is kept, and the difference is invoiced', async () => {
    const { jobId } = await paidJob(api);
    const first = await issue(jobId);
    await pay(first, 57_500);
    await api.database.transaction(({ db }) =>
      db.jobFeeLine.create({
        data: { id: api.newId(), jobId, position: 9, ruleKey: 'x', label: 'Radon', reason: 'x', cents: 15_000, recordedAt: api.clock.now },
      }),
    );
    const second = await issue(jobId);
    expect(await look(second)).toMatchObject({ totalCents: 15_000, openCents: 15_000 });
    expect(await look(first)).toMatchObject({ state: 'paid' });
  });
});

describe('a deposit', () => {
  it('is held until the visit has begun, and then pays what is owed', async () => {
    const job = await paidJob(api, { terms: 'deposit' });
    const invoiceId = await issue(job.jobId);
    const held = async () => (await balance()).rows.find((row: { account: string }) => row.account === 'deposits-held').credit;
    await pay(invoiceId, 20_000);
    expect(await held()).toBe(20_000);
    expect(await earnDeposits(api)).toBe(0);
    await api.database.transaction(({ db }) => db.visit.update({ where: { id: job.visitId }, data: { state: 'on_site' } }));
    expect(await earnDeposits(api)).toBe(1);
    expect(await held()).toBe(0);
    expect(await earnDeposits(api)).toBe(0);
    expect(await look(invoiceId)).toMatchObject({ openCents: 37_500 });
  });
});

describe('the reads', () => {
  it('list who owes what, with ages that sum up', async () => {
    const { body } = await api.send('owner', 'GET', '/api/receivables');
    const sum = body.bands.reduce((total: number, band: { cents: number }) => total + band.cents, 0);
    expect(body.items.length).toBeGreaterThan(0);
    expect([sum, body.items.reduce((total: number, item: { openCents: number }) => total + item.openCents, 0)]).toEqual([
      body.totalCents,
      body.totalCents,
    ]);
    const receivable = (await balance()).rows.find((row: { account: string }) => row.account === 'receivable');
    expect(receivable.debit).toBe(body.totalCents);
  });
  it('page through the ledger without losing an entry', async () => {
    const seen: string[] = [];
    for (let before = ''; ;) {
      const { body } = await api.send('owner', 'GET', `/api/ledger/entries?limit=7${before && `&before=${before}`}`);
      seen.push(...body.items.map((entry: { id: string }) => entry.id));
      if (body.next === null) break;
      before = body.next;
    }
    const [all] = await api.database.read.rows<{ n: number }>('SELECT count(*)::int AS n FROM ledger_entry');
    expect([seen.length, new Set(seen).size]).toEqual([all!.n, all!.n]);
  });
  it('show the balance of a day without what came later', async () => {
    const sums = (rows: { debit: number; credit: number }[]) => rows.reduce((sum, { debit, credit }) => sum + debit + credit, 0);
    expect(sums((await balance()).rows)).toBeGreaterThan(0);
    expect(sums((await api.send('owner', 'GET', '/api/ledger/balance?until=2025-12-31')).body.rows)).toBe(0);
  });
  it('keep the ledger for owners', async () => {
    expect((await api.send('office', 'GET', '/api/ledger/balance')).status).toBe(403);
    expect((await api.send('lead', 'GET', '/api/ledger/entries')).status).toBe(403);
    expect((await api.send('anna', 'GET', '/api/receivables')).status).toBe(403);
  });
});

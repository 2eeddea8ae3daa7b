// Tag: time.
// The books over HTTP: closed months, own accounts, entries by hand, filters, statements, terms, shares, files.
import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { testApi, type Answer } from '../../support/http.ts';
import { paidJob } from '../../support/paidJob.ts';
import { withStarter } from '../../support/starter.ts';

const api = testApi();
withStarter(api);

const issue = async (jobId: string): Promise<string> =>
  (await api.send('office', 'POST', `/api/jobs/${jobId}/invoices`, { body: {} })).body.invoiceId;
const enter = (lines: { account: string; cents: number }[], more: object = {}): Promise<Answer> =>
  api.send('owner', 'POST', '/api/ledger/entries', {
    body: { id: randomUUID(), happenedOn: '2026-05-12', memo: 'bank fee', lines, ...more },
  });
const pair = (cents: number, debit = 'other-expense') => [
  { account: debit, cents },
  { account: 'bank', cents: -cents },
];

describe('an entry by hand', () => {
  it('stands in the journal, found by its account and its words', async () => {
    expect((await enter(pair(1_500))).status).toBe(201);
    const { body } = await api.send('owner', 'GET', '/api/ledger/entries?account=other-expense&kind=journal&words=BANK');
    expect(body.items).toMatchObject([
      { memo: 'bank fee', by: expect.any(String), lines: [{ name: 'Other expenses', cents: 1_500 }, { cents: -1_500 }] },
    ]);
  });
  it.each([
    [pair(1_500).slice(0, 1), 'entry-lines'],
    [[pair(1)[0]!, pair(2)[1]!], 'entry-off'],
    [pair(1, 'nowhere'), 'account-unknown'],
    [pair(1, 'receivable'), 'account-kept'],
  ])('%o is refused: %s', async (lines, code) => expect(await enter(lines)).toMatchObject({ status: 422, body: { code } }));
  it('of a day to come is refused', async () =>
    expect(await enter(pair(1), { happenedOn: '2026-05-13' })).toMatchObject({ body: { code: 'entry-ahead' } }));
});

describe('a closed month', () => {
  const close = (through: string) =>
    api.send('owner', 'POST', '/api/ledger/closings', { body: { id: randomUUID(), through, reason: 'month end' } });
  it('takes no entry any more; what comes late stands on the first open day with its real day', async () => {
    expect(await close('2026-05-31')).toMatchObject({ body: { code: 'month-not-over' } });
    expect(await close('2026-04-29')).toMatchObject({ body: { code: 'closing-not-a-month' } });
    expect(await close('2026-04-30')).toMatchObject({ status: 201, body: { through: '2026-04-30' } });
    expect(await close('2026-03-31')).toMatchObject({ body: { code: 'month-closed' } });
    await enter(pair(77), { happenedOn: '2026-04-10', memo: 'late' });
    const { body } = await api.send('owner', 'GET', '/api/ledger/entries?words=late');
    expect(body.items).toMatchObject([{ happenedOn: '2026-05-01', realOn: '2026-04-10' }]);
  });
  it('is kept closed by the database itself', async () => {
    const wrong = api.database.transaction(({ db }) =>
      db.ledgerEntry.create({
        data: { id: api.newId(), kind: 'journal', happenedOn: new Date('2026-04-30'), memo: 'x', recordedAt: api.clock.now },
      }),
    );
    await expect(wrong).rejects.toThrow(/ledger_day_closed/);
  });
  it('is opened again by an owner, with a reason', async () => {
    const open = (reason: string) =>
      api.send('owner', 'POST', '/api/ledger/reopenings', { body: { id: randomUUID(), from: '2026-04-01', reason } });
    expect((await open(' ')).status).toBe(422);
    api.clock.now = new Date(api.clock.now.getTime() + 1_000);
    expect(await open('a bill was forgotten')).toMatchObject({ status: 201, body: { through: '2026-03-31' } });
    await enter(pair(78), { happenedOn: '2026-04-10', memo: 'in time' });
    const { body } = await api.send('owner', 'GET', '/api/ledger/entries?words=in%20time');
    expect(body.items).toMatchObject([{ happenedOn: '2026-04-10', realOn: null }]);
  });
});

describe('terms and payers', () => {
  const setTerms = (jobId: string, body: object) =>
    api.send('office', 'PUT', `/api/jobs/${jobId}/terms`, {
      body: { terms: 'deposit', depositCents: null, depositPercent: null, dueOn: null, ...body },
    });
  it('say what is asked for ahead, and when a fee billed to the closing is due', async () => {
    const { jobId } = await paidJob(api);
    const id = await issue(jobId);
    const seen = async () => (await api.send('office', 'GET', `/api/invoices/${id}`)).body;
    await setTerms(jobId, { depositCents: 10_000 });
    expect(await seen()).toMatchObject({ depositCents: 10_000 });
    expect(await setTerms(jobId, { depositCents: 1, depositPercent: 1 })).toMatchObject({ body: { code: 'deposit-terms' } });
    await setTerms(jobId, { terms: 'billed_to_closing', dueOn: '2026-12-31' });
    expect(await seen()).toMatchObject({ depositCents: 0, dueOn: '2026-12-31' });
    expect(await setTerms(jobId, { dueOn: '2026-12-31' })).toMatchObject({ body: { code: 'closing-day-terms' } });
  });
  it('let several payers pay only where the firm allows it, each his share', async () => {
    const names = ['Pia Poe', 'Quin Quade'].map((name) => ({ name, email: null }));
    const { jobId } = await paidJob(api, { payers: names, cents: [10_001] });
    expect(await api.send('office', 'POST', `/api/jobs/${jobId}/invoices`, { body: {} })).toMatchObject({
      body: { code: 'several-payers' },
    });
    const { services: _, version, ...rules } = (await api.send('owner', 'GET', '/api/money-rules')).body;
    await api.send('owner', 'PUT', '/api/money-rules', { body: { ...rules, severalPayers: true }, version });
    const { payers } = (await api.send('office', 'GET', `/api/jobs/${jobId}/terms`)).body;
    const shares = payers.map(({ partyId }: { partyId: string }, at: number) => ({ partyId, weight: at + 1 }));
    expect((await api.send('office', 'PUT', `/api/jobs/${jobId}/payer-shares`, { body: { shares } })).status).toBe(200);
    await issue(jobId);
    const { body } = await api.send('office', 'GET', `/api/jobs/${jobId}/invoices`);
    expect(body.map((one: { totalCents: number }) => one.totalCents)).toEqual([3_334, 6_667]);
    const statement = await api.send('office', 'GET', `/api/parties/${payers[1].partyId}/statement?from=2026-01-01&to=2026-12-31`);
    expect(statement.body).toMatchObject({ openingCents: 0, closingCents: 6_667, rows: [{ cents: 6_667, owedCents: 6_667 }] });
  });
});

it('leaves as a table without formulas and as a journal', async () => {
  await enter(pair(5), { memo: '=SUM(A1), "quoted"' });
  const csv = await api.send('owner', 'GET', '/api/ledger/export.csv');
  expect(JSON.stringify(csv.body)).toContain(`'=SUM(A1)`);
  expect((await api.send('owner', 'GET', '/api/ledger/export.journal')).status).toBe(200);
  expect((await api.send('office', 'GET', '/api/ledger/export.csv')).status).toBe(403);
});

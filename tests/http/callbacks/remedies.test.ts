// Putting a callback right over HTTP: limits that no splitting passes, estimates, what speaks against it, the fee that goes back, mistakes.
import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { testApi } from '../../support/http.ts';
import { withStarter } from '../../support/starter.ts';
import { on, proposed, remedy, visited, type Visited } from './support.ts';
import { puttingRight } from './puttingRight.ts';

const api = testApi();
withStarter(api);
const TODAY = '2026-05-12';
let job: Visited;
beforeAll(async () => {
  job = await visited(api);
  await api.database.transaction(({ db }) =>
    db.jobFeeLine.create({
      data: {
        id: randomUUID(),
        jobId: job.jobId,
        position: 0,
        ruleKey: 'base',
        label: 'Fee',
        reason: 'x',
        cents: 45_000,
        recordedAt: api.clock.now,
      },
    }),
  );
});

const { propose, right, cleared, money, warned } = puttingRight(api, () => job);

describe('limits', () => {
  it('count everything one callback costs, and a new amount is approved anew', async () => {
    const id = await cleared();
    expect((await propose('lead', id, { cents: 30_000 })).body.state).toBe('remedy_agreed');
    const second = await propose('lead', id, { cents: 20_001 });
    expect(warned(second)).toContain('waits-for-approval');
    expect(await remedy(api, 'lead2', second.remedyId, 'decision', { decision: 'approved' })).toMatchObject({
      status: 403,
      body: { code: 'above-approval-limit' },
    });
    expect((await remedy(api, 'owner', second.remedyId, 'decision', { decision: 'approved' })).status).toBe(201);
    const amended = await remedy(api, 'lead', second.remedyId, 'amount', { cents: 25_000, payee: 'Paula Prior', words: 'The list grew.' });
    expect([amended.status, warned(amended)]).toEqual([201, ['waits-for-approval']]);
    expect((await remedy(api, 'lead', second.remedyId, 'payment', { paidOn: TODAY })).body.code).toBe('remedy-not-approved');
    expect((await remedy(api, 'owner', second.remedyId, 'decision', { decision: 'approved' })).status).toBe(201);
    const { remedies } = (await api.send('owner', 'GET', `/api/callbacks/${id}`)).body;
    const { approvals } = remedies.find((one: { id: string }) => one.id === second.remedyId);
    expect(approvals.map(({ round, by }: { round: number; by: string }) => [round, by])).toEqual([
      [1, 'Olive Owner'],
      [2, 'Olive Owner'],
    ]);
    expect((await remedy(api, 'lead', second.remedyId, 'amount', { cents: 25_000, payee: 'Paula Prior', words: 'x' })).body.code).toBe(
      'remedy-unchanged',
    );
  });
  it('an outside reviewer is for a firm with one lead inspector', async () => {
    const waits = (await propose('lead', await cleared(), { cents: 60_000 })).remedyId;
    const by = { decision: 'approved', reviewer: 'Vera Outside', words: 'She read the file and agrees.' };
    expect((await remedy(api, 'lead', waits, 'decision', by)).body.code).toBe('outside-reviewer-not-needed');
    await api.database.transaction(({ db }) =>
      db.personRole.deleteMany({ where: { role: 'lead_inspector', person: { name: 'Luis Lead' } } }),
    );
    expect((await remedy(api, 'lead', waits, 'decision', { ...by, reviewer: 'Olive Owner' })).body.code).toBe('reviewer-not-outside');
    expect((await remedy(api, 'lead', waits, 'decision', by)).body.state).toBe('remedy_agreed');
  });
  it('money lines refuse what bad input asks for', async () => {
    const id = await cleared();
    for (const [body, code] of [
      [{ payee: 'TEST inspections' }, 'payee-is-the-firm'],
      [{ cents: 0 }, 'remedy-needs-amount'],
      [{ payee: ' ' }, 'remedy-needs-amount'],
    ] as const)
      expect((await propose('owner', id, body)).body.code).toBe(code);
    const paid = await proposed(api, 'lead', id, 10_000);
    for (const [day, code] of [
      ['2026-05-13', 'in-the-future'],
      ['2026-05-11', 'before-it-came-in'],
    ])
      expect((await remedy(api, 'lead', paid, 'payment', { paidOn: day })).body.code).toBe(code);
    const both = await Promise.all(['lead', 'owner'].map((who) => remedy(api, who as 'lead', paid, 'payment', { paidOn: TODAY })));
    expect(both.map(({ status }) => status).toSorted()).toEqual([201, 409]);
    expect(both.find(({ status }) => status === 409)!.body.title).toMatch(/already/);
    expect(await money(id)).toMatchObject({ paidCents: 10_000 });
  });
});

describe('estimates', () => {
  it('are compared side by side with their file; the chosen one is paid for a reason', async () => {
    const id = await cleared();
    const pdf = Buffer.from('%PDF-1.7 estimate').toString('base64');
    const add = (contractor: string, cents: number, more: object = {}) =>
      on(api, 'office', id, 'estimates', {
        ...{ estimateId: randomUUID(), contractor, license: 'E-1', cents, scope: 'Feed the garage', estimatedOn: TODAY, file: null },
        ...more,
      });
    expect((await add('Test Inspections', 5_000)).body.code).toBe('own-repair-payee');
    expect(
      (await add('Plover Electric', 72_000, { file: { name: 'p.pdf', base64: Buffer.from('hello').toString('base64') } })).body.code,
    ).toBe('certificate-kind');
    const chosen = randomUUID();
    expect((await add('Plover Electric', 72_000, { estimateId: chosen, file: { name: 'p.pdf', base64: pdf } })).status).toBe(201);
    const few = { kind: 'independent_contractor', cents: 72_000, payee: 'Plover Electric', estimateId: chosen, words: 'Soonest.' };
    expect(warned(await propose('owner', id, few))).toContain('few-estimates');
    await add('Sandhill Electric', 61_000);
    const two = await right(id, 'office');
    expect(two.estimates.map((e: { contractor: string; file: string | null }) => [e.contractor, e.file])).toEqual([
      ['Sandhill Electric', null],
      ['Plover Electric', 'p.pdf'],
    ]);
    expect(Object.keys(two)).toEqual(['estimates']);
    expect((await api.send('office', 'GET', `/api/estimates/${chosen}/file`)).status).toBe(200);
    expect((await api.send('anna', 'GET', `/api/estimates/${chosen}/file`)).status).toBe(403);
    expect(warned(await propose('owner', id, few))).toEqual(['not-the-lowest', 'state-rule']);
    expect((await propose('owner', id, { ...few, words: undefined })).body.code).toBe('choice-needs-why');
    expect((await propose('owner', id, { ...few, cents: 1 })).body.code).toBe('not-as-estimated');
  });
});

describe('the fee', () => {
  it('goes back against the invoice that was paid, never more, and a mistaken payment is taken back', async () => {
    const id = await cleared();
    const back = (await propose('owner', id, { kind: 'fee_refund', cents: 20_000 })).remedyId;
    expect((await remedy(api, 'owner', back, 'payment', { paidOn: TODAY })).body.code).toBe('no-fee-paid');
    await api.send('office', 'POST', `/api/jobs/${job.jobId}/invoices`, { body: {} });
    const [invoice] = (await api.send('office', 'GET', `/api/jobs/${job.jobId}/invoices`)).body;
    const payment = { id: randomUUID(), method: 'check', reference: '1', cents: 45_000, receivedOn: TODAY };
    expect((await api.send('office', 'POST', `/api/invoices/${invoice.id}/payments`, { body: payment })).status).toBe(201);
    const too = (await propose('owner', id, { kind: 'fee_refund', cents: 25_001 })).remedyId;
    expect((await remedy(api, 'owner', back, 'payment', { paidOn: TODAY, method: 'check', reference: '77' })).status).toBe(201);
    expect(await remedy(api, 'owner', too, 'payment', { paidOn: TODAY })).toMatchObject({
      status: 422,
      body: { code: 'refund-above-fee', about: { leftCents: 25_000 } },
    });
    const page = (await api.send('owner', 'GET', `/api/callbacks/${id}`)).body;
    const entry = page.moneyEntries.find(({ kind }: { kind: string }) => kind === 'fee_refund');
    expect(entry).toMatchObject({
      memo: expect.stringContaining(`invoice ${invoice.number}`),
      lines: [
        { account: 'fee-refunds', cents: 20_000 },
        { account: 'bank', cents: -20_000 },
      ],
    });
    await on(api, 'owner', id, 'recoveries', { cents: 20_000, receivedOn: TODAY, words: 'x', source: 'insurer' });
    const reverse = (entryId: string) =>
      api.send('owner', 'POST', `/api/callback-entries/${entryId}/reversal`, { body: { words: 'Wrong account' } });
    expect((await reverse(entry.id)).body.code).toBe('recovery-first');
    const [{ entryId: recovery }] = (await right(id)).recoveries;
    expect((await reverse(recovery)).status).toBe(201);
    expect((await reverse(entry.id)).status).toBe(201);
    expect((await reverse(entry.id)).body.code).toBe('entry-reversed-already');
    expect(await money(id)).toEqual({ paidCents: 0, reservedCents: 0, recoveredCents: 0, incurredCents: 0 });
    expect(
      (await api.send('owner', 'GET', `/api/callbacks/${id}`)).body.remedies.find((one: { id: string }) => one.id === back).state,
    ).toBe('approved');
    expect((await remedy(api, 'owner', back, 'payment', { paidOn: TODAY })).status).toBe(201);
  });
});

// Last: from here on the agreement of the job has a limit.
describe('what speaks against it', () => {
  it('is shown beside the amount, and above the limit of the agreement somebody says why', async () => {
    const text = (
      await api.database.read.rows<{ id: string }>(`SELECT a.text_id::text AS id FROM agreement a WHERE a.job_id = $1::uuid`, [job.jobId])
    )[0]!;
    const capped = randomUUID();
    await api.database.transaction(async (tx) => {
      const row = await tx.db.agreementText.findUniqueOrThrow({ where: { id: text.id } });
      const limits = { cap: { kind: 'factor', tenths: 10 }, claimMonths: null };
      await tx.db.agreementText.create({ data: { ...row, id: capped, number: 900, limits, clauses: row.clauses as object[] } });
      await tx.db.agreement.create({
        data: {
          id: randomUUID(),
          jobId: job.jobId,
          textId: capped,
          body: 'x',
          sha256: 'y',
          issuedAt: api.clock.now,
          recordedAt: api.clock.now,
        },
      });
    });
    const id = await cleared();
    const ask = (cents: number) => api.send('office', 'GET', `/api/callbacks/${id}/conflicts?kind=goodwill_payment&cents=${cents}`);
    expect((await ask(45_000)).body).toEqual({ committedCents: 0, conflicts: [] });
    expect((await ask(45_001)).body.conflicts[0]).toMatchObject({
      code: 'over-cap',
      needsReason: true,
      text: expect.stringMatching(/\$450\.01.*\$450\.00/),
    });
    const over = { cents: 46_000, payee: 'Paula Prior' };
    expect(await propose('lead', id, over)).toMatchObject({ status: 409, body: { code: 'conflict-needs-reason', field: 'goOn' } });
    const waits = await propose('office', id, { cents: 9_000 });
    expect(waits.body.state).toBe('remedy_agreed');
    const gone = await propose('lead', id, { ...over, cents: 40_000, goOn: 'The owner wants it settled today.' });
    expect([gone.status, warned(gone)]).toEqual([201, ['over-cap']]);
    expect((await right(id)).goneOnWith).toMatchObject([
      { code: 'over-cap', reason: 'The owner wants it settled today.', by: 'Lena Lead' },
    ]);
  });
});

describe('what is carried out', () => {
  it('a written supplement: a further version of the report that was handed over since', async () => {
    const id = await cleared();
    const { remedyId } = await propose('owner', id, { kind: 'supplement', cents: 0, payee: '' });
    const done = () => remedy(api, 'owner', remedyId, 'done', { words: 'The garage stands in it now' });
    expect(await done()).toMatchObject({ status: 409, body: { code: 'supplement-not-handed-over' } });
    const day = new Date(TODAY);
    const [of, at] = [{ inspectedOn: day, completedOn: day, reportOn: day, inspectedBy: [], preparedBy: api.newId() }, api.clock.now];
    await api.database.transaction(async ({ db }) => {
      for (const version of [1, 2]) {
        const more = { ...of, registerNo: version === 1 ? 1 : null, revisedOn: version === 1 ? null : day };
        const reportId = api.newId();
        await db.report.create({
          data: { id: reportId, jobId: job.jobId, version, source: 'drafted', body: {}, ...more, recordedAt: at },
        });
        await db.reportDelivery.create({
          data: { id: api.newId(), reportId, partyId: job.clientId, deliveredAt: at, method: 'paper', recordedAt: at },
        });
      }
    });
    expect((await done()).status).toBe(201);
  });
  it('a payment of a month whose books are closed: booked on the first open day, with its real day', async () => {
    const id = await cleared();
    const { remedyId } = await propose('owner', id, { cents: 10_000 });
    api.clock.now = new Date('2026-06-02T15:00:00Z');
    const closing = { id: randomUUID(), through: '2026-05-31', reason: 'May is done' };
    expect((await api.send('owner', 'POST', '/api/ledger/closings', { body: closing })).status).toBe(201);
    expect((await remedy(api, 'owner', remedyId, 'payment', { paidOn: '2026-05-20' })).status).toBe(201);
    expect(
      await api.database.read.rows(
        `SELECT e.happened_on::text AS "happenedOn", e.real_on::text AS "realOn" FROM remedy_payment p JOIN ledger_entry e ON e.id = p.entry_id WHERE p.remedy_id = $1::uuid`,
        [remedyId],
      ),
    ).toEqual([{ happenedOn: '2026-06-01', realOn: '2026-05-20' }]);
  });
});

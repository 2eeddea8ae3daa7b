// Fees that change while they are paid, at random, for one payer and for two: invoices ask for the fee, no payment is lost, the ledger balances.
import { randomUUID } from 'node:crypto';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { paymentLines } from '@backsight/domain/fees/ledger';
import { invoicesOfJob, invoicesToGiveBack, paymentsOf, saveEntry, savePayment } from '@backsight/store/fees';
import { recordPayment } from '@backsight/usecases/fees/recordPayment';
import { reversePayment } from '@backsight/usecases/fees/reversePayment';
import { changeMoneyRules } from '@backsight/usecases/fees/terms';
import { changeFee } from '@backsight/usecases/jobs/steps/changeFee';
import { issueInvoiceOfJob } from '@backsight/usecases/fees/issue';
import type { Act } from '@backsight/usecases/run';
import { as, withCast } from '../support/cast.ts';
import { testService } from '../support/database.ts';
import { paidJob } from '../support/paidJob.ts';
import { withStarter } from '../support/starter.ts';
import { size } from '../support/size.ts';

const JOBS = size(2, 6);
const ACTS = 25;

const api = testService();
withCast(api);
withStarter(api);
beforeAll(async () => {
  const rules = { severalPayers: true, depositPercent: 50, closingDays: 30, returnedFeeCents: 0, depositClosesGate: false };
  const tax = { taxName: 'Sales tax', taxThousandths: 5_500, taxServices: [''], paidBeforeHandOver: true };
  expect(await api.runner.run(changeMoneyRules, { ...rules, ...tax, version: 1 }, { actor: as('owner') })).toMatchObject({ ok: true });
});

const setFee: Act<{ jobId: string; cents: number }, { toGiveBackCents: number }> = {
  operation: 'test.fee',
  run: async (work, { jobId, cents }) => {
    const changed = await changeFee(work, jobId, [{ rule: 'fee', label: 'Fee', reason: 'tried out', cents }]);
    await work.did('job', jobId);
    return changed;
  },
};

const step = fc.oneof(
  { weight: 3, arbitrary: fc.record({ act: fc.constant('pay' as const), part: fc.integer({ min: 1, max: 100 }), which: fc.nat(5) }) },
  { weight: 2, arbitrary: fc.record({ act: fc.constant('fee' as const), cents: fc.integer({ min: 1, max: 90_000 }) }) },
  { weight: 1, arbitrary: fc.record({ act: fc.constant('reverse' as const), which: fc.nat(5) }) },
);
type Step = { act: 'pay' | 'fee' | 'reverse'; part?: number; which?: number; cents?: number };

const sum = <T>(list: readonly T[], of: (one: T) => number): number => list.reduce((total, one) => total + of(one), 0);
const standing = async (jobId: string) => (await invoicesOfJob(api.database.read, jobId)).filter(({ state }) => state !== 'withdrawn');

/** Answers the cents that came in by this act, and the fee after it. */
async function play(jobId: string, fee: number, s: Step): Promise<{ came: number; fee: number }> {
  if (s.act === 'fee') {
    const done = await api.runner.run(setFee, { jobId, cents: s.cents! }, { actor: as('office') });
    expect(done, JSON.stringify(done)).toMatchObject({ ok: true });
    return { came: 0, fee: s.cents! };
  }
  if (s.act === 'pay') {
    const open = (await standing(jobId)).filter(({ balanceCents }) => balanceCents > 0);
    const invoice = open[s.which! % Math.max(1, open.length)];
    if (!invoice) return { came: 0, fee };
    const cents = Math.max(1, Math.floor((invoice.balanceCents * s.part!) / 100));
    const how = { method: 'cash' as const, reference: '', receivedOn: '2026-05-12' };
    const paid = await api.runner.run(recordPayment, { id: randomUUID(), invoiceId: invoice.id, cents, ...how }, { actor: as('office') });
    expect(paid).toMatchObject({ ok: true });
    return { came: cents, fee };
  }
  const payments = (await Promise.all((await standing(jobId)).map(({ id }) => paymentsOf(api.database.read, id)))).flat();
  const live = payments.filter(({ reversedOn }) => reversedOn === null);
  const payment = live[s.which! % Math.max(1, live.length)];
  if (!payment) return { came: 0, fee };
  const back = await api.runner.run(reversePayment, { paymentId: payment.id, reason: 'returned_check' }, { actor: as('office') });
  expect(back).toMatchObject({ ok: true });
  return { came: -payment.cents, fee };
}

/** What is to be given back, as the list of it says and as the lines of all invoices come to; the database marks what stands in the list. */
async function givenBack(): Promise<{ listed: [number, number][]; summed: [number, number][] }> {
  const listed = (await invoicesToGiveBack(api.database.read)).map((one): [number, number] => [one.number!, one.balanceCents]);
  const summed = await api.database.read.rows<{ number: number; cents: number }>(
    `SELECT i.number, sum(m.cents)::int AS cents FROM invoice i JOIN invoice_money m ON m.invoice_id = i.id GROUP BY i.number HAVING sum(m.cents) < 0 ORDER BY i.number`,
  );
  return { listed, summed: summed.map(({ number, cents }) => [number, cents]) };
}

async function begin(payers: number): Promise<string> {
  const names = payers === 1 ? [] : ['One', 'Two'].map((name) => ({ name, email: null }));
  const { jobId } = await paidJob(api, { terms: 'deposit', payers: names });
  expect(await api.runner.run(issueInvoiceOfJob, { jobId }, { actor: as('office') })).toMatchObject({ ok: true });
  return jobId;
}

describe('a fee that changes while it is paid', () => {
  it(`is what the invoices ask for after each of ${JOBS * ACTS} random acts, and what came in is all there`, async () => {
    let lists = 0;
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 2 }), fc.array(step, { minLength: ACTS, maxLength: ACTS }), async (payers, steps) => {
        const jobId = await begin(payers);
        let [came, fee] = [0, 57_500];
        for (const s of steps as Step[]) {
          const after = await play(jobId, fee, s);
          came += after.came;
          fee = after.fee;
          const now = await standing(jobId);
          expect(sum(now, ({ totalCents, taxCents }) => totalCents - taxCents)).toBe(fee);
          expect(now.every(({ balanceCents }) => balanceCents >= 0)).toBe(true);
          const [ledger] = await api.database.read.rows<{ bank: number; owed: number; off: number }>(
            `SELECT coalesce(sum(cents) FILTER (WHERE account = 'bank'), 0)::int AS bank,
               coalesce(sum(cents) FILTER (WHERE account IN ('receivable', 'deposits-held')), 0)::int AS owed, coalesce(sum(cents), 0)::int AS off
             FROM ledger_line WHERE job_id = $1::uuid`,
            [jobId],
          );
          expect(ledger).toEqual({ bank: came, owed: sum(now, ({ totalCents }) => totalCents) - came, off: 0 });
          const { listed, summed } = await givenBack();
          expect(listed).toEqual(summed);
          lists += listed.length;
        }
      }),
      { numRuns: JOBS, endOnFailure: true },
    );
    expect(lists).toBeGreaterThan(0);
  }, 120_000);
});

describe('more than an invoice asks for', () => {
  it('is to be given back, whichever way it came in: the database marks it', async () => {
    const jobId = await begin(1);
    const [invoice] = await standing(jobId);
    const [entryId, cents, at] = [randomUUID(), invoice!.balanceCents + 100, api.clock.now];
    await api.database.transaction(async (tx) => {
      const lines = paymentLines(cents, { partyId: invoice!.payerId, jobId });
      await saveEntry(tx, { id: entryId, kind: 'payment', happenedOn: '2026-05-12', memo: 'Brought over', lines, actorId: null, at });
      const how = { method: 'cash' as const, reference: '', receivedOn: '2026-05-12', recordedBy: null };
      await savePayment(tx, { id: randomUUID(), invoiceId: invoice!.id, cents, entryId, at, ...how });
    });
    const { listed, summed } = await givenBack();
    expect(listed).toEqual(summed);
    expect(listed).toContainEqual([invoice!.number, -100]);
  });
});

// 1,000 random acts (5,000 with the long tests) on invoices of one payer and of several, on a real database: the ledger balances, every invoice is what the ledger says and what a plain count says,
// a refusal changes nothing, and no act is half applied.
import { randomUUID } from 'node:crypto';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { refuse } from '@backsight/domain/shared/outcome';
import { findInvoice, invoicesOfJob } from '@backsight/store/fees';
import { balances } from '@backsight/store/fees/ledger';
import { refundPayment, takeBackAct, writeCreditNote, writeOff } from '@backsight/usecases/fees/changeInvoice';
import { closeBooks } from '@backsight/usecases/fees/closeBooks';
import { earnDeposit } from '@backsight/usecases/fees/earnDeposits';
import { issueInvoiceOfJob } from '@backsight/usecases/fees/issue';
import { recordPayment, type PaymentInput } from '@backsight/usecases/fees/recordPayment';
import { reversePayment } from '@backsight/usecases/fees/reversePayment';
import { changeMoneyRules, setShares } from '@backsight/usecases/fees/terms';
import { withdrawInvoices } from '@backsight/usecases/fees/steps/withdrawInvoices';
import type { Act } from '@backsight/usecases/run';
import { as, withCast } from '../support/cast.ts';
import { testService } from '../support/database.ts';
import { paidJob } from '../support/paidJob.ts';
import { withStarter } from '../support/starter.ts';
import { size } from '../support/size.ts';

const RUNS = size(4, 20);
const LANES = 5;
const ACTS = 50;
const RETURNED_FEE = 2_500;
const OFFICE_LIMIT = 10_000;

const api = testService();
withCast(api);
withStarter(api);

beforeAll(async () => {
  const rules = { severalPayers: true, depositPercent: 50, closingDays: 30, returnedFeeCents: RETURNED_FEE };
  const tax = { taxName: 'Sales tax', taxThousandths: 5_500, taxServices: [''], depositClosesGate: false, paidBeforeHandOver: true };
  expect(await api.runner.run(changeMoneyRules, { ...rules, ...tax, version: 1 }, { actor: as('owner') })).toMatchObject({ ok: true });
});

type Item = { id: string; cents: number; live: boolean };
/** The plain count beside the ledger. */
type Model = {
  jobId: string;
  visitId: string;
  payerId: string;
  invoiceId: string;
  total: number;
  withdrawn: boolean;
  payments: Item[];
  offs: Item[];
  fees: number;
  credited: number;
  refunded: number;
};
const sum = (items: readonly Item[]): number => items.reduce((total, { cents, live }) => total + (live ? cents : 0), 0);
const balanceOf = (m: Model): number => (m.withdrawn ? 0 : m.total + m.fees - m.credited - sum(m.offs)) - sum(m.payments) + m.refunded;

/** Amounts are mostly near what matters, now and then huge. */
const part = fc.oneof(
  { weight: 6, arbitrary: fc.integer({ min: 1, max: 30_000 }) },
  { weight: 2, arbitrary: fc.constantFrom(-1, -2, -3) },
  { weight: 1, arbitrary: fc.constant(2_000_000_000) },
);
const step = fc.oneof(
  fc.record({ act: fc.constantFrom('pay', 'pay', 'pay', 'payTwice', 'payBroken'), part, days: fc.nat(60) }),
  fc.record({
    act: fc.constant('reverse'),
    which: fc.nat(20),
    reason: fc.constantFrom('returned_check', 'card_dispute', 'recorded_by_mistake', 'given_back'),
    charge: fc.boolean(),
  }),
  fc.record({ act: fc.constant('credit'), part }),
  fc.record({ act: fc.constant('writeOff'), part, owner: fc.boolean() }),
  fc.record({ act: fc.constant('refund'), part }),
  fc.record({ act: fc.constant('takeBack'), which: fc.nat(20) }),
  fc.record({ act: fc.constantFrom('earn', 'begin', 'close') }),
  fc.record({ act: fc.constantFrom('withdraw', 'earn', 'earn', 'earn', 'earn') }),
);
type Step = { act: string; part?: number; days?: number; which?: number; reason?: string; charge?: boolean; owner?: boolean };

/** -1: all that is open; -2: one cent more; -3: all that is to be given back. */
function amount(m: Model, chosen: number): number {
  const balance = balanceOf(m);
  const meant = chosen === -1 ? balance : chosen === -2 ? balance + 1 : chosen === -3 ? -balance : chosen;
  return Math.max(1, meant);
}

const dayBefore = (days: number): string => new Date(Date.UTC(2026, 4, 12 - days)).toISOString().slice(0, 10);

const payBroken: Act<PaymentInput, never> = {
  operation: 'test.broken',
  run: async (work, input) => {
    await recordPayment.run(work, input);
    return refuse('key-reused');
  },
};
const withdraw: Act<{ jobId: string }, null> = {
  operation: 'test.withdraw',
  run: async (work, { jobId }) => {
    await withdrawInvoices(work, jobId, 'America/Chicago');
    await work.did('job', jobId);
    return { ok: true, value: null, warnings: [] };
  },
};

/** A job of as many payers as there are weights; the one who pays is taken from them. */
async function begin(weights: readonly number[]): Promise<Model> {
  const payers = weights.length < 2 ? [] : weights.map((_, at) => ({ name: `Payer ${at + 1}`, email: null }));
  const job = await paidJob(api, { terms: 'deposit', payers });
  const rows = await api.database.read.rows<{ id: string }>(
    `SELECT party_id::text AS id FROM job_party WHERE job_id = $1::uuid AND role = 'payer' ORDER BY job_party.id`,
    [job.jobId],
  );
  const shares = rows.map(({ id }, at) => ({ partyId: id, weight: weights[at]! }));
  if (shares.length > 0) await api.runner.run(setShares, { jobId: job.jobId, shares }, { actor: as('office') });
  const issued = await api.runner.run(issueInvoiceOfJob, { jobId: job.jobId }, { actor: as('office') });
  if (!issued.ok) throw new Error(issued.code);
  const invoices = await invoicesOfJob(api.database.read, job.jobId);
  const all = weights.reduce((total, weight) => total + weight, 0);
  for (const [at, one] of invoices.entries()) {
    const net = one.totalCents - one.taxCents;
    expect(Math.abs(net - (57_500 * weights[at]!) / all)).toBeLessThan(1);
    expect(one.taxCents).toBe(Math.floor((net * 55 + 500) / 1000)); // 5.5 %, half a cent up
  }
  expect(invoices.reduce((total, { totalCents, taxCents }) => total + totalCents - taxCents, 0)).toBe(57_500);
  const { id: invoiceId } = invoices[invoices.length - 1]!;
  const row = (await findInvoice(api.database.read, invoiceId))!;
  return {
    ...job,
    payerId: row.payerId,
    invoiceId,
    total: row.totalCents,
    withdrawn: false,
    payments: [],
    offs: [],
    fees: 0,
    credited: 0,
    refunded: 0,
  };
}

async function pay(m: Model, s: Step): Promise<void> {
  const cents = amount(m, s.part!);
  const input: PaymentInput = {
    id: randomUUID(),
    invoiceId: m.invoiceId,
    method: 'cash',
    reference: '',
    cents,
    receivedOn: dayBefore(s.days!),
  };
  const open = Math.max(0, balanceOf(m));
  const act = s.act === 'payBroken' ? payBroken : recordPayment;
  const key = randomUUID();
  const answers = [await api.runner.run(act, input, { actor: as('office'), key })];
  if (s.act === 'payTwice') answers.push(await api.runner.run(act, input, { actor: as('office'), key }));
  const allowed = cents <= open && s.act !== 'payBroken' && !(m.withdrawn && open === 0);
  expect(answers.map(({ ok }) => ok)).toEqual(answers.map(() => allowed));
  if (allowed) m.payments.push({ id: input.id, cents, live: true });
}

async function reverse(m: Model, s: Step): Promise<void> {
  const payment = m.payments[s.which! % Math.max(1, m.payments.length)];
  if (!payment) return;
  const reason = s.reason as 'given_back' | 'returned_check';
  const allowed = payment.live && (reason !== 'given_back' || (m.withdrawn && payment.cents <= -balanceOf(m)));
  const answer = await api.runner.run(reversePayment, { paymentId: payment.id, reason, charge: s.charge! }, { actor: as('office') });
  expect(answer.ok).toBe(allowed);
  if (!answer.ok) return;
  payment.live = false;
  const bounced = s.reason === 'returned_check' || s.reason === 'card_dispute';
  expect(answer.value.chargedCents).toBe(s.charge && bounced && !m.withdrawn ? RETURNED_FEE : 0);
  m.fees += answer.value.chargedCents;
}

async function change(m: Model, s: Step): Promise<void> {
  const cents = amount(m, s.part!);
  const input = { id: randomUUID(), invoiceId: m.invoiceId, cents, reason: 'tried out' };
  const balance = balanceOf(m);
  if (s.act === 'credit') {
    const answer = await api.runner.run(writeCreditNote, input, { actor: as('office') });
    expect(answer.ok).toBe(!m.withdrawn && cents <= m.total - m.credited);
    if (answer.ok) m.credited += cents;
  } else if (s.act === 'writeOff') {
    const answer = await api.runner.run(writeOff, input, { actor: as(s.owner ? 'owner' : 'office') });
    expect(answer.ok).toBe(!m.withdrawn && cents <= Math.max(0, balance) && (s.owner! || cents <= OFFICE_LIMIT));
    if (answer.ok) m.offs.push({ id: input.id, cents, live: true });
  } else {
    const answer = await api.runner.run(refundPayment, { ...input, method: 'check', reference: '77' }, { actor: as('office') });
    expect(answer.ok).toBe(cents <= Math.max(0, -balance));
    if (answer.ok) m.refunded += cents;
  }
}

async function other(m: Model, s: Step): Promise<void> {
  if (s.act === 'takeBack') {
    const off = m.offs[s.which! % Math.max(1, m.offs.length)];
    if (!off) return;
    const answer = await api.runner.run(takeBackAct, { actId: off.id }, { actor: as('office') });
    expect(answer.ok).toBe(off.live && !m.withdrawn);
    if (answer.ok) off.live = false;
  } else if (s.act === 'withdraw') {
    if ((await api.runner.run(withdraw, { jobId: m.jobId }, { actor: as('office') })).ok) m.withdrawn = true;
  } else if (s.act === 'close')
    await api.runner.run(closeBooks, { id: randomUUID(), through: '2026-03-31', reason: 'month end' }, { actor: as('owner') });
  else if (s.act === 'begin')
    await api.database.transaction(({ db }) => db.visit.update({ where: { id: m.visitId }, data: { state: 'on_site' } }));
  else await api.runner.run(earnDeposit, { jobId: m.jobId, partyId: m.payerId }, { actor: { kind: 'service' } });
}

const played: Record<string, (m: Model, s: Step) => Promise<void>> = {
  pay,
  payTwice: pay,
  payBroken: pay,
  reverse,
  credit: change,
  writeOff: change,
  refund: change,
};

/** After each act the invoice is looked at. */
async function play(m: Model, steps: readonly Step[]): Promise<number> {
  for (const s of steps) {
    await (played[s.act] ?? other)(m, s);
    const row = (await findInvoice(api.database.read, m.invoiceId))!;
    expect(row.balanceCents).toBe(balanceOf(m));
    expect(row.state).toBe(m.withdrawn ? 'withdrawn' : balanceOf(m) <= 0 ? 'paid' : 'issued');
  }
  return steps.length;
}

describe('random acts', () => {
  let acts = 0;
  it(`${RUNS * LANES * ACTS} of them, five invoices at a time, leave the ledger balanced and every invoice as counted`, async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.array(step, { minLength: ACTS, maxLength: ACTS }), { minLength: LANES, maxLength: LANES }),
        fc.array(fc.array(fc.integer({ min: 1, max: 7 }), { minLength: 1, maxLength: 3 }), { minLength: LANES, maxLength: LANES }),
        async (lanes, weights) => {
          const models: Model[] = [];
          for (const at of lanes.keys()) models.push(await begin(weights[at]!));
          const done = await Promise.all(models.map((m, at) => play(m, lanes[at]! as Step[])));
          acts += done.reduce((total, n) => total + n, 0);
        },
      ),
      { numRuns: RUNS, endOnFailure: true },
    );
    expect(acts).toBe(RUNS * LANES * ACTS);
    const rows = await balances(api.database.read, '2100-01-01');
    expect(rows.reduce((total, { cents }) => total + cents, 0)).toBe(0);
    const owed = rows
      .filter(({ account }) => account === 'receivable' || account === 'deposits-held')
      .reduce((total, { cents }) => total + cents, 0);
    const [sums] = await api.database.read.rows<{ n: number; off: number; held: number; late: number; credits: number; top: number }>(
      `SELECT (SELECT coalesce(sum(cents), 0)::bigint FROM invoice_money) AS n,
         (SELECT count(*)::int FROM (SELECT FROM ledger_line GROUP BY entry_id HAVING sum(cents) <> 0) x) AS off,
         (SELECT count(*)::int FROM (SELECT FROM ledger_line WHERE account = 'deposits-held' GROUP BY job_id HAVING sum(cents) > 0) x) AS held,
         (SELECT count(*)::int FROM ledger_entry WHERE real_on <= '2026-03-31' AND happened_on = '2026-04-01') AS late,
         (SELECT count(*)::int FROM invoice_act WHERE kind = 'credit_note') AS credits, (SELECT coalesce(max(number), 1000) - 1000 FROM invoice_act) AS top`,
    );
    expect([sums!.n, sums!.off, sums!.held]).toEqual([owed, 0, 0]);
    expect(sums!.late).toBeGreaterThan(0);
    expect(sums!.top).toBe(sums!.credits);
  }, 180_000);
});

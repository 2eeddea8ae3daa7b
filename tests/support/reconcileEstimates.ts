// Holds the estimates of the owner's page (cost to come, cash, outlook) and what waits for somebody against the rows behind them.
import { expect } from 'vitest';
import type { Reader } from '@backsight/store/database';
import { readDevelopment } from '@backsight/usecases/liability/development/readDevelopment';
import { readOutlook } from '@backsight/usecases/liability/outlook/readOutlook';
import type { readOwner } from '@backsight/usecases/liability/owner/readOwner';
import { readCash } from '@backsight/usecases/liability/owner/readRows';

type OwnerPage = Awaited<ReturnType<typeof readOwner>>;
/** Held against one another; a number other than 0 counts as one that was held. */
export type Same = (shown: unknown, found: unknown, what: string) => void;
const sum = (amounts: readonly number[]): number => amounts.reduce((total, amount) => total + amount, 0);

/** The number opens the triangle: what its quarters still have to come, or callbacks to come times what one cost. */
export async function reconcileToCome(read: Reader, now: Date, { toCome, money }: OwnerPage, same: Same): Promise<void> {
  const asked = { now, by: 'quarter', of: 'incurred', method: 'each', seeOwnerOnly: true } as const;
  const found = await readDevelopment(read, asked);
  if (!found.ok) throw new Error('no development');
  const { origins, estimate, outstanding } = found.value;
  if (!toCome.ok) {
    same([toCome.sentence, outstanding.ok], [outstanding.ok ? '' : outstanding.sentence, false], 'nothing to come');
    return;
  }
  if (estimate.ok) {
    same(toCome.cents, estimate.totals.unreported, 'to come, of the triangle');
    // Quarters are rounded to cents one by one.
    const ofQuarters = sum(origins.map(({ outlook }) => outlook?.unreported ?? 0));
    expect(Math.abs(toCome.cents - ofQuarters), 'to come, quarter by quarter').toBeLessThanOrEqual(origins.length / 2);
    same(
      sum(origins.map(({ latest }) => latest)) + (found.value.folded?.latest ?? 0),
      money.ever.incurredCents,
      'incurred, quarter by quarter',
    );
    return;
  }
  const counts = await readDevelopment(read, { ...asked, of: 'callbacks' });
  if (!counts.ok || !outstanding.ok) throw new Error('no callbacks to come');
  const callbacks = sum(counts.value.origins.map(({ latest }) => latest)) + (counts.value.folded?.latest ?? 0);
  same(toCome.cents, Math.round(outstanding.callbacksToCome! * (money.ever.incurredCents / callbacks)), 'to come, by what a callback cost');
}

/** Each span: its rows add up to it, with the mean of the stretches below them; what is set aside is that of the ledger. */
export async function reconcileCash(read: Reader, now: Date, { cash, money }: OwnerPage, same: Same): Promise<void> {
  const page = await readCash(read, { now, seeOwnerOnly: true });
  same(sum(page.items.map(({ cents }) => cents)), money.ever.reservedCents, 'set aside, row by row');
  for (const span of ['days30', 'days90'] as const) {
    same(page[span], cash[span], `cash of ${span}`);
    const shown = cash[span];
    if (!shown.ok) continue;
    const stretches = span === 'days30' ? page.unforeseen30 : page.unforeseen90;
    const rows = sum(page.items.map((row) => row[span]!.cents));
    same(shown.cents, rows + Math.round(sum(stretches) / stretches.length), `cash of ${span}, row by row`);
  }
}

const NOTHING = {
  ...{ feePercent: 0, jobsPercent: 0, capCents: null, deductibleCents: null, premiumCents: 0 },
  ...{ stepKey: null, stepMinutes: 0, fewerLeast: 0, fewerMost: 0 },
};

/** Where nothing is changed: twice the jobs of the year before and their fees, by quarters that add up, and no difference. */
export async function reconcileOutlook(read: Reader, now: Date, same: Same): Promise<void> {
  const found = await readOutlook(read, { scenario: NOTHING, seed: 1, asOf: now });
  if (!found.ok) throw new Error('no outlook');
  const { figures, quarters, from, runs, because } = found.value;
  const [year] = await read.rows<{ jobs: number; cents: number; feed: number }>(
    `WITH went AS (SELECT j.id, min((v.starts_at AT TIME ZONE o.zone)::date) AS day FROM job j JOIN office o ON o.id = j.office_id JOIN visit v ON v.job_id = j.id AND v.state IN ('on_site', 'done') WHERE j.kind = 'inspection' GROUP BY j.id)
     SELECT count(*) FILTER (WHERE day >= $1::date - 364 AND day < $1::date)::int AS jobs, count(*) FILTER (WHERE day >= date_trunc('month', $1::date - 364))::int AS feed,
       coalesce(sum((SELECT sum(cents) FROM job_fee_line l WHERE l.job_id = went.id AND l.withdrawn_at IS NULL)) FILTER (WHERE day >= date_trunc('month', $1::date - 364)), 0)::int AS cents FROM went`,
    [from],
  );
  const { jobs, cents, feed } = year!;
  if (jobs < 30) {
    same([figures, quarters, because.length], [[], [], 1], 'no outlook of so few jobs');
    return;
  }
  same(sum(quarters.map((quarter) => quarter.jobs)), 2 * jobs, 'jobs of the quarters');
  const mean = (measure: string): number => figures.find((one) => one.measure === measure)!.now.mean;
  // Twice a gamma of shape jobs + 1/2, and Poisson about it: variance 6 (jobs + 1/2). Five standard errors of a mean.
  const error = 5 * Math.sqrt((6 * (jobs + 0.5)) / runs);
  expect(Math.abs(mean('jobs') - 2 * (jobs + 0.5)), 'jobs of two years').toBeLessThan(error);
  expect(Math.abs(mean('income') - (2 * (jobs + 0.5) * cents) / feed), 'fees of two years').toBeLessThan((error * cents) / feed);
  for (const { measure, difference } of figures) same(difference, { mean: 0, lower: 0, upper: 0 }, `no change of ${measure}`);
}

/** What waits for a decision, and policies that end, counted by hand. */
export async function reconcileWaiting(read: Reader, { waiting, conclusions, policies, today }: OwnerPage, same: Same): Promise<void> {
  const remedies = await read.rows<{ id: string; cents: number }>(
    `SELECT id::text AS id, cents FROM remedy WHERE state IN ('proposed', 'approved') ORDER BY id`,
  );
  same(
    waiting.map(({ remedyId, cents }) => ({ id: remedyId, cents })).toSorted((a, b) => (a.id < b.id ? -1 : 1)),
    remedies,
    'remedies that wait',
  );
  const unconfirmed = await read.rows<{ number: number }>(
    `SELECT c.number FROM callback c WHERE c.state <> 'closed' AND (SELECT n.needs_confirmation AND n.id NOT IN (SELECT conclusion_id FROM conclusion_confirmation)
       FROM conclusion n WHERE n.callback_id = c.id ORDER BY n.happened_at DESC, n.id DESC LIMIT 1) ORDER BY 1`,
  );
  same(
    conclusions.map(({ number }) => number).toSorted((a, b) => a - b),
    unconfirmed.map(({ number }) => number),
    'conclusions that wait',
  );
  const ending = await read.rows<{ id: string; days: number }>(
    `SELECT id::text AS id, ends_on - $1::date AS days FROM insurance_policy p WHERE ends_on - $1::date BETWEEN -30 AND 90
       AND (SELECT count(*) FROM insurance_policy n WHERE n.kind = p.kind AND n.ends_on > p.ends_on AND n.starts_on - p.ends_on <= 1) = 0 ORDER BY ends_on, id`,
    [today],
  );
  same(
    policies.map(({ id, daysLeft }) => ({ id, days: daysLeft })).toSorted((a, b) => a.days - b.days || (a.id < b.id ? -1 : 1)),
    ending,
    'policies that end',
  );
}

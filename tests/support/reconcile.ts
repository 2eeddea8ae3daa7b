// Holds the owner's page against the ledger and the records themselves, to the cent, and every number against the rows that it opens.
import { expect } from 'vitest';
import type { Reader } from '@backsight/store/database';
import { readOwner } from '@backsight/usecases/liability/owner/readOwner';
import {
  readCallbacksOfMonth,
  readEntries,
  readHeld,
  readOpenCallbacks,
  readOverrides,
} from '@backsight/usecases/liability/owner/readRows';
import { readUnsignedStarts, readWindowJobs, readWindows } from '@backsight/usecases/liability/owner/readWindows';
import { reconcileCash, reconcileOutlook, reconcileToCome, reconcileWaiting } from './reconcileEstimates.ts';

type Money = { paidCents: number; reservedCents: number; recoveredCents: number; incurredCents: number };
type Days = { from?: string; to?: string; inspected?: string };

/** Sums of the ledger by accounts, as an accountant would take them: no table of sums is read. */
async function ledger(read: Reader, { from, to }: Days): Promise<Money> {
  const [row] = await read.rows<{ bank: number; reserve: number; recoveries: number }>(
    `SELECT coalesce(sum(cents) FILTER (WHERE account = 'bank'), 0)::int AS bank, coalesce(sum(cents) FILTER (WHERE account = 'callback-reserve'), 0)::int AS reserve,
       coalesce(sum(cents) FILTER (WHERE account = 'recoveries'), 0)::int AS recoveries
     FROM ledger_line JOIN ledger_entry e ON e.id = entry_id WHERE callback_id IS NOT NULL AND happened_on BETWEEN coalesce($1::date, '-infinity') AND coalesce($2::date, 'infinity')`,
    [from ?? null, to ?? null],
  );
  const { bank, reserve, recoveries } = row!;
  return {
    paidCents: 0 - bank - recoveries,
    reservedCents: 0 - reserve,
    recoveredCents: 0 - recoveries,
    incurredCents: 0 - bank - reserve,
  };
}

/** All entries of a filter, page after page, summed by hand. */
async function rowsOf(read: Reader, days: Days): Promise<Money & { total: Money }> {
  const sum = { paidCents: 0, reservedCents: 0, recoveredCents: 0, incurredCents: 0 };
  let after: string | undefined;
  for (;;) {
    const page = await readEntries(read, { ...days, after, seeOwnerOnly: true });
    for (const row of page.items) for (const key of Object.keys(sum) as (keyof Money)[]) sum[key] += row[key];
    if (page.next === null) return { ...sum, total: page.total };
    after = page.next;
  }
}

const moneyOf = ({ paidCents, reservedCents, recoveredCents, incurredCents }: Money): Money => ({
  paidCents,
  reservedCents,
  recoveredCents,
  incurredCents,
});

/** Answers how many numbers other than 0 were held against their rows. */
export async function reconcile(read: Reader, now: Date): Promise<number> {
  const asking = { now, seeOwnerOnly: true };
  const page = await readOwner(read, asking);
  let held = 0;
  const same = (shown: unknown, found: unknown, what: string): void => {
    expect(shown, what).toEqual(found);
    if (shown !== 0) held += 1;
  };
  const { month, year, ever } = page.money;
  for (const [days, shown] of [
    [month.days, month.now],
    [month.beforeDays, month.before],
    [year.days, year.now],
    [year.beforeDays, year.before],
    [{}, ever],
  ] as const) {
    same(shown, await ledger(read, days), `ledger ${JSON.stringify(days)}`);
    same({ ...shown, total: shown }, await rowsOf(read, days), `rows ${JSON.stringify(days)}`);
  }
  // What months hold together is held below: those that show nothing need no look of their own.
  for (const row of page.months.filter((one) => one.jobs + one.callbacks + Math.abs(one.reservedCents) + Math.abs(one.paidCents) > 0)) {
    const rows = await rowsOf(read, { inspected: row.month });
    same({ ...moneyOf(row), total: moneyOf(row) }, rows, `rows of ${row.month}`);
    same(row.callbacks, (await readCallbacksOfMonth(read, { ...asking, inspected: row.month })).items.length, `callbacks of ${row.month}`);
    same(row.jobs, (await readWindowJobs(read, { ...asking, inspected: row.month, only: 'all' })).total, `jobs of ${row.month}`);
  }
  const sumOf = (key: keyof Money | 'jobs' | 'callbacks'): number => page.months.reduce((sum, row) => sum + row[key], 0);
  same(
    [sumOf('paidCents'), sumOf('reservedCents'), sumOf('recoveredCents')],
    [ever.paidCents, ever.reservedCents, ever.recoveredCents],
    'all months',
  );
  const [whole] = await read.rows<{ jobs: number; callbacks: number }>(
    `SELECT (SELECT count(DISTINCT job_id)::int FROM visit v JOIN job j ON j.id = v.job_id AND j.kind = 'inspection' WHERE v.state IN ('on_site', 'done')) AS jobs,
       (SELECT count(*)::int FROM callback WHERE kind NOT IN ('question', 'near_miss') AND duplicate_of IS NULL) AS callbacks`,
  );
  same({ jobs: sumOf('jobs'), callbacks: sumOf('callbacks') }, whole, 'all months');
  for (const { state, ...ages } of page.open)
    for (const [age, n] of Object.entries(ages) as ['upTo7' | 'upTo30' | 'upTo90' | 'older', number][])
      same(n, (await readOpenCallbacks(read, { ...asking, state, age })).items.length, `open ${state} ${age}`);
  same(
    ever.reservedCents,
    (await readOpenCallbacks(read, asking)).items.reduce((sum, { reservedCents }) => sum + reservedCents, 0),
    'set aside for open ones',
  );
  for (const span of [page.overrides.month, page.overrides.year]) {
    same(span.now, (await readOverrides(read, span.days)).items.length, 'overrides');
    same(span.before, (await readOverrides(read, span.beforeDays)).items.length, 'overrides a year before');
  }
  for (const span of [page.unsignedStarts.month, page.unsignedStarts.year]) {
    same(span.now, (await readUnsignedStarts(read, { ...asking, ...span.days })).items.length, 'unsigned at the start');
    same(span.before, (await readUnsignedStarts(read, { ...asking, ...span.beforeDays })).items.length, 'unsigned a year before');
  }
  same(page.held.jobs, (await readHeld(read, true)).items.length, 'held');
  await reconcileToCome(read, now, page, same);
  await reconcileCash(read, now, page, same);
  await reconcileOutlook(read, now, same);
  await reconcileWaiting(read, page, same);
  return held + (await reconcileWindows(read, now));
}

async function reconcileWindows(read: Reader, now: Date): Promise<number> {
  const asking = { now, seeOwnerOnly: true };
  const { total, months, closing } = await readWindows(read, asking);
  let held = 0;
  const same = (shown: number, found: number, what: string): void => {
    expect(shown, what).toBe(found);
    if (shown !== 0) held += 1;
  };
  const jobs = (more: object) => readWindowJobs(read, { ...asking, ...more });
  for (const { month, ...row } of [{ month: undefined, ...total }, ...months]) {
    const of = month === undefined ? {} : { inspected: month };
    const all = await jobs(of);
    same(row.jobs, all.total, `windows of ${month}`);
    same(row.capCents, all.capCents, `limits of ${month}`);
    if (month === undefined)
      for (const [n, only] of [
        [row.shortJobs, 'short'],
        [row.noCap, 'no_cap'],
        [row.unsigned, 'unsigned'],
        [row.held, 'held'],
      ] as const)
        same(n, (await jobs({ ...of, only })).total, `${only} of ${month}`);
  }
  for (const { month, short, long } of closing) {
    same(short.jobs, (await jobs({ closes: month, by: 'short' })).total, `closing in ${month}, short`);
    same(long.jobs, (await jobs({ closes: month, by: 'long' })).total, `closing in ${month}, long`);
  }
  return held;
}

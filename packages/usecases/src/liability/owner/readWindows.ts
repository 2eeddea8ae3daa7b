// Claim windows that are still open: by month, what closes when, and the inspections behind each number.
import { byDay, endOf, exposureOf, lawOf, windowOf, type Law, type Reading, type WindowDays } from '@backsight/domain/liability/exposure';
import { ROWS_SHOWN } from '@backsight/domain/liability/shown';
import { isOpen, type ClaimWindow } from '@backsight/domain/liability/claimWindow';
import type { RulePack } from '@backsight/domain/shared/rulePack';
import { findFirm } from '@backsight/store/firm';
import { listRulePacks } from '@backsight/store/firm/rulePacks';
import { unsignedStartJobs, watchedJobs, windowJobs, windowSums, type WindowJob } from '@backsight/store/liability/windows';
import type { Reader } from '@backsight/store/database';
import { dayAt } from '../../callbacks/steps/day.ts';
import type { Asking } from './readOwner.ts';
import { oldestThatCounts, readingsOf } from './windowLaw.ts';

type LawFinder = (of: WindowDays) => Law;
const isOpenLong = (window: ClaimWindow | null, today: string): boolean => window !== null && isOpen(window.longUntil, today);

async function lawAndDay(reader: Reader, now: Date): Promise<{ today: string; packs: RulePack[]; law: LawFinder }> {
  const packs = await listRulePacks(reader);
  return { today: dayAt(now, (await findFirm(reader))?.zone ?? 'UTC'), packs, law: lawOf(packs) };
}

export async function readWindows(reader: Reader, { now, seeOwnerOnly }: Asking) {
  const { today, packs, law } = await lawAndDay(reader, now);
  const rows = await windowSums(reader, oldestThatCounts(packs, today));
  const { months, total, closing, last, withoutRule, future } = exposureOf(rows, packs, today);
  const watched = (await watchedJobs(reader, seeOwnerOnly)).filter((job) => isOpenLong(windowOf(law(job), job), today));
  const countsOf = (jobs: typeof watched) => ({
    held: jobs.filter(({ held }) => held).length,
    openCallbacks: jobs.reduce((sum, { openCallbacks }) => sum + openCallbacks, 0),
  });
  return {
    today,
    total: { ...total, ...countsOf(watched) },
    months: months.map((row) => ({ ...row, ...countsOf(watched.filter(({ inspectedOn }) => inspectedOn.startsWith(row.month))) })),
    closing,
    last,
    withoutRule,
    future,
    readings: readingsOf(
      packs,
      rows.map(({ jurisdiction }) => jurisdiction),
      today,
    ),
  };
}

/** What was open at the end of a day that lies behind; agreements count as they are signed today. */
export async function windowsOn(reader: Reader, day: string) {
  const packs = await listRulePacks(reader);
  return exposureOf(byDay(await windowSums(reader, oldestThatCounts(packs, day)), day), packs, day);
}

const PARTS = {
  all: () => true,
  short: () => true,
  no_cap: (job: WindowJob) => job.signed && job.capCents === null,
  unsigned: (job: WindowJob) => !job.signed,
  cap: (job: WindowJob) => job.capCents !== null,
  held: (job: WindowJob) => job.held,
  called: (job: WindowJob) => job.openCallbacks.length > 0,
};

type JobsAsking = Asking & {
  inspected?: string | undefined;
  closes?: string | undefined;
  by?: Reading | undefined;
  only?: keyof typeof PARTS | undefined;
  page?: number | undefined;
  /** All of them, however many, as a table to take away has them. */
  every?: boolean;
};
const PAGE = 100;

/** Inspections whose window is open by the longest reading (`only` all: or not), narrowed by month of inspection, or by the month in which it closes. */
export async function readWindowJobs(reader: Reader, { now, seeOwnerOnly, every = false, page = 1, ...asked }: JobsAsking) {
  const { inspected, closes, by = 'long', only } = asked;
  const { today, packs, law } = await lawAndDay(reader, now);
  const counts = (days: WindowDays): boolean => {
    if (only === 'all') return true;
    const window = windowOf(law(days), days);
    if (!window || !isOpen(window.longUntil, today)) return false;
    if (closes !== undefined && !(isOpen(endOf(window, by), today) && endOf(window, by).startsWith(closes))) return false;
    return only !== 'short' || isOpen(window.shortUntil, today);
  };
  const since = inspected === undefined ? oldestThatCounts(packs, today) : `${inspected}-01`;
  const fits = ({ inspectedOn }: WindowDays): boolean => inspected === undefined || inspectedOn.startsWith(inspected);
  const sums = (await windowSums(reader, since)).filter((row) => fits(row) && counts(row));
  const days = [...new Set(sums.map(({ inspectedOn }) => inspectedOn))].toSorted().toReversed();
  const part = PARTS[only ?? 'all'];
  const jobs = (await windowJobs(reader, days, seeOwnerOnly)).filter((job) => counts(job) && part(job));
  return {
    total: jobs.length,
    capCents: jobs.reduce((sum, { capCents }) => sum + (capCents ?? 0), 0),
    items: (every ? jobs : jobs.slice((page - 1) * PAGE, page * PAGE)).map((job) => rowOf(job, law)),
    next: !every && jobs.length > page * PAGE ? page + 1 : null,
  };
}

export async function readUnsignedStarts(
  reader: Reader,
  { now, seeOwnerOnly, every = false, from, to }: Asking & { every?: boolean; from?: string | undefined; to?: string | undefined },
) {
  const { law } = await lawAndDay(reader, now);
  const jobs = await unsignedStartJobs(reader, { from: from ?? null, to: to ?? null }, seeOwnerOnly, every ? null : ROWS_SHOWN);
  return { items: jobs.map((job) => rowOf(job, law)) };
}

function rowOf(job: WindowJob, law: LawFinder) {
  const { jurisdiction: _state, claimMonths: _months, ...row } = job;
  const its = law(job);
  const window = windowOf(its, job);
  const ends = { shortUntil: window?.shortUntil ?? null, longUntil: window?.longUntil ?? null };
  return { ...row, capBarred: its.capBarred && job.capCents !== null, ...ends };
}

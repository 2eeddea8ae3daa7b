// The owner's page: paid, set aside, recovered, what is open and waits, and what may still come of work already done.
import { exposureOf } from '@backsight/domain/liability/exposure';
import { findFirm } from '@backsight/store/firm';
import { listRulePacks } from '@backsight/store/firm/rulePacks';
import { figures } from '@backsight/store/liability/figures';
import { hiddenFigures, moneyWithin } from '@backsight/store/liability/money';
import {
  conclusionsWaiting,
  hasOwnerOnly,
  heldJobs,
  openByAge,
  overridesWithin,
  policiesEnding,
  remediesWaiting,
} from '@backsight/store/liability/watch';
import { unsignedStarts, windowSums } from '@backsight/store/liability/windows';
import type { Reader } from '@backsight/store/database';
import { DateTime } from 'luxon';
import { dayAt } from '../../callbacks/steps/day.ts';
import { outstanding } from '../development/outstanding.ts';
import { cashOf } from './cash.ts';
import { monthLines } from './months.ts';
import { besides, fourSpans } from './spans.ts';
import { oldestThatCounts } from './windowLaw.ts';

/** `seeOwnerOnly`: whether files for the owner alone are among what is counted. */
export type Asking = { now: Date; seeOwnerOnly: boolean };

const POLICY_DAYS = 90;
const MOST_WAITING = 500;
const MEASURES = ['jobs', 'callbacks', 'paid', 'reserved', 'recovered'] as const;

/** `every`: all that waits, however much. */
export async function readOwner(reader: Reader, asking: Asking & { every?: boolean }) {
  const { now, seeOwnerOnly } = asking;
  const today = dayAt(now, (await findFirm(reader))?.zone ?? 'UTC');
  const money = await moneyWithin(reader, [...fourSpans(today), { from: null, to: null }], seeOwnerOnly);
  const rows = await figuresSeen(reader, seeOwnerOnly);
  const { cash } = await cashOf(reader, today, seeOwnerOnly);
  const held = await heldJobs(reader, seeOwnerOnly);
  return {
    today,
    leftOut: !seeOwnerOnly && (await hasOwnerOnly(reader)),
    money: { ...besides(today, money), ever: money[4]! },
    toCome: toComeOf(rows, today),
    cash,
    open: await openByAge(reader, now, seeOwnerOnly),
    ...(await waitingOf(reader, seeOwnerOnly, asking.every ? null : MOST_WAITING)),
    overrides: besides(today, await overridesWithin(reader, fourSpans(today))),
    unsignedStarts: besides(today, await unsignedStarts(reader, fourSpans(today))),
    held: { jobs: held.length, byHand: held.filter(({ byHandSince }) => byHandSince !== null).length },
    policies: await policiesOf(reader, today),
    windows: await windowsOf(reader, today),
    months: monthLines(rows, today),
  };
}

/** Figures of the whole firm, without what the reader may not see. */
async function figuresSeen(reader: Reader, seeOwnerOnly: boolean) {
  const rows = await figures(reader, { grouping: 'all', measures: MEASURES });
  if (seeOwnerOnly) return rows;
  return [...rows, ...(await hiddenFigures(reader)).map((row) => ({ ...row, value: '', amount: -row.amount }))];
}

function toComeOf(rows: Awaited<ReturnType<typeof figuresSeen>>, today: string) {
  const found = outstanding(rows, today);
  if (!found.ok) return { ok: false as const, sentence: found.sentence };
  const { amountCents, rangeCents, sentence } = found;
  return { ok: true as const, cents: amountCents, lower: rangeCents?.lower ?? null, upper: rangeCents?.upper ?? null, method: sentence };
}

async function waitingOf(reader: Reader, seeOwnerOnly: boolean, most: number | null) {
  const remedies = await remediesWaiting(reader, seeOwnerOnly, most);
  const conclusions = await conclusionsWaiting(reader, seeOwnerOnly, most);
  return {
    waiting: remedies.map((row) => ({ ...row, recordedAt: row.recordedAt.toISOString() })),
    conclusions: conclusions.map((row) => ({ ...row, happenedAt: row.happenedAt.toISOString() })),
  };
}

async function policiesOf(reader: Reader, today: string) {
  const at = DateTime.fromISO(today, { zone: 'utc' });
  const rows = await policiesEnding(reader, at.minus({ days: 30 }).toISODate()!, at.plus({ days: POLICY_DAYS }).toISODate()!);
  return rows.map((row) => ({ ...row, daysLeft: Math.round(DateTime.fromISO(row.endsOn, { zone: 'utc' }).diff(at, 'days').days) }));
}

async function windowsOf(reader: Reader, today: string) {
  const packs = await listRulePacks(reader);
  const { total, withoutRule, last } = exposureOf(await windowSums(reader, oldestThatCounts(packs, today)), packs, today);
  const { jobs, shortJobs, capCents, noCap, unsigned } = total;
  return { jobs, shortJobs, capCents, noCap, unsigned, withoutRule, last };
}

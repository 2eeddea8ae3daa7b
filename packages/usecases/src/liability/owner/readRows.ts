// The rows behind the numbers of the owner's page.
import { ROWS_SHOWN } from '@backsight/domain/liability/shown';
import { findFirm } from '@backsight/store/firm';
import { moneyOfMonth, moneyRows, moneyWithin } from '@backsight/store/liability/money';
import { callbacksOfMonth, heldJobs, openCallbacks, overrides, type Age } from '@backsight/store/liability/watch';
import type { Reader } from '@backsight/store/database';
import { dayAt } from '../../callbacks/steps/day.ts';
import { cashOf } from './cash.ts';
import type { Asking } from './readOwner.ts';

const PAGE = 100;
/** `every`: all rows, however many, as a table to take away has them. */
type Every = { every?: boolean };
type Days = { from?: string | undefined; to?: string | undefined };
const mostOf = ({ every = false }: Every): number | null => (every ? null : ROWS_SHOWN);
const daysOf = ({ from, to }: Days) => ({ from: from ?? null, to: to ?? null });

/** Entries of the ledger by callback, a page at a time, with the sum of all that fit. */
export async function readEntries(
  reader: Reader,
  asking: Days & Every & { seeOwnerOnly: boolean; inspected?: string | undefined; after?: string | undefined },
) {
  const { seeOwnerOnly, every = false } = asking;
  const filter = { ...daysOf(asking), inspected: asking.inspected ?? null, seeOwnerOnly };
  const rows = await moneyRows(reader, filter, asking.after ?? null, every ? null : PAGE + 1);
  const ids = [...new Set(rows.map(({ entryId }) => entryId))];
  const more = !every && ids.length > PAGE;
  const shown = new Set(every ? ids : ids.slice(0, PAGE));
  const total =
    filter.inspected === null
      ? (await moneyWithin(reader, [daysOf(asking)], seeOwnerOnly))[0]!
      : await moneyOfMonth(reader, { ...filter, inspected: filter.inspected });
  return {
    items: rows.filter(({ entryId }) => shown.has(entryId)).map((row) => ({ ...row, recordedAt: row.recordedAt.toISOString() })),
    next: more ? ids[PAGE - 1]! : null,
    total,
  };
}

export async function readOpenCallbacks(reader: Reader, asking: Asking & Every & { state?: string | undefined; age?: Age | undefined }) {
  const rows = await openCallbacks(reader, { ...asking, state: asking.state ?? null, age: asking.age ?? null }, mostOf(asking));
  return { items: rows.map((row) => ({ ...row, receivedAt: row.receivedAt.toISOString() })) };
}

export async function readCallbacksOfMonth(reader: Reader, asking: Asking & Every & { inspected: string }) {
  const rows = await callbacksOfMonth(reader, asking, mostOf(asking));
  return { items: rows.map((row) => ({ ...row, receivedAt: row.receivedAt.toISOString() })) };
}

export const readOverrides = async (reader: Reader, asking: Days & Every) => ({
  items: (await overrides(reader, daysOf(asking), mostOf(asking))).map((row) => ({ ...row, happenedAt: row.happenedAt.toISOString() })),
});

export const readHeld = async (reader: Reader, seeOwnerOnly: boolean) => ({
  items: (await heldJobs(reader, seeOwnerOnly)).map((row) => ({ ...row, byHandSince: row.byHandSince?.toISOString() ?? null })),
});

/** What is set aside now with its chances, and what used to leave unforeseen, the newest stretch first. */
export async function readCash(reader: Reader, { now, seeOwnerOnly }: Asking) {
  const today = dayAt(now, (await findFirm(reader))?.zone ?? 'UTC');
  const { cash, reserves, history } = await cashOf(reader, today, seeOwnerOnly);
  const unforeseen = (span: number): number[] => history.new.find((row) => row.span === span)?.cents ?? [];
  return { ...cash, items: reserves, unforeseen30: unforeseen(30), unforeseen90: unforeseen(90) };
}

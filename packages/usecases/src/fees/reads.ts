// What the office reads about money.
import { DateTime } from 'luxon';
import { ageOf, toGiveBack } from '@backsight/domain/fees/invoice';
import type { Reader } from '@backsight/store/database';
import {
  findInvoice,
  invoicesToGiveBack,
  invoiceLines,
  invoicesOfJob,
  openInvoices,
  paymentsOf,
  type InvoiceRow,
} from '@backsight/store/fees';
import { balances, listEntries } from '@backsight/store/fees/ledger';
import { findFirm } from '@backsight/store/firm';

const shown = (i: InvoiceRow) => ({
  ...i,
  issuedAt: i.issuedAt?.toISOString() ?? null,
  openCents: i.state === 'withdrawn' ? 0 : i.totalCents - i.paidCents,
  toGiveBackCents: toGiveBack(i),
});

/** One invoice with its lines and payments; null when there is none. */
export async function readInvoice(reader: Reader, id: string) {
  const invoice = await findInvoice(reader, id);
  if (!invoice) return null;
  const [lines, payments] = [await invoiceLines(reader, id), await paymentsOf(reader, id)];
  return {
    ...shown(invoice),
    lines,
    payments: payments.map(({ entryId: _, recordedAt, ...p }) => ({ ...p, recordedAt: recordedAt.toISOString() })),
  };
}

/** The invoices of a job, oldest first. */
export const readInvoicesOfJob = async (reader: Reader, jobId: string) => (await invoicesOfJob(reader, jobId)).map(shown);

async function todayOf(reader: Reader, now: Date): Promise<string> {
  const firm = await findFirm(reader);
  return DateTime.fromJSDate(now, { zone: firm?.zone ?? 'UTC' }).toISODate()!;
}

/** Who owes what and since when, longest first, with the sum of each age; and what the firm has to give back. */
export async function readReceivables(reader: Reader, now: Date) {
  const today = await todayOf(reader, now);
  const items = (await openInvoices(reader))
    .map((i) => ({ ...shown(i), ...ageOf(i.dueOn, today) }))
    .filter(({ openCents }) => openCents > 0);
  const bands = (['not due', '0-30', '31-60', '61-90', 'over 90'] as const).map((band) => ({
    band,
    cents: items.filter((i) => i.band === band).reduce((sum, i) => sum + i.openCents, 0),
  }));
  const back = (await invoicesToGiveBack(reader)).map(shown);
  return {
    items,
    bands,
    totalCents: items.reduce((sum, i) => sum + i.openCents, 0),
    back,
    backCents: back.reduce((sum, i) => sum + i.toGiveBackCents, 0),
  };
}

/** Balance of every account up to and including a day. */
export async function readTrialBalance(reader: Reader, now: Date, until?: string) {
  const day = until ?? (await todayOf(reader, now));
  const rows = (await balances(reader, day)).map(({ cents, ...account }) => ({
    ...account,
    debit: Math.max(cents, 0),
    credit: Math.max(-cents, 0),
  }));
  const sum = (side: 'debit' | 'credit') => rows.reduce((total, row) => total + row[side], 0);
  return { until: day, rows, debit: sum('debit'), credit: sum('credit') };
}

/** A page of ledger entries, newest first. */
export async function readEntries(reader: Reader, before: string | null, limit: number) {
  const rows = await listEntries(reader, before, limit + 1);
  const items = rows.slice(0, limit).map((e) => ({ ...e, recordedAt: e.recordedAt.toISOString() }));
  return { items, next: rows.length > limit ? items.at(-1)!.id : null };
}

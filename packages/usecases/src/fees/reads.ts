// What the office reads about money.
import { DateTime } from 'luxon';
import { backOf, openOf } from '@backsight/domain/fees/changes';
import { ageOf } from '@backsight/domain/fees/invoice';
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
import { actsOf } from '@backsight/store/fees/acts';
import { handedOverUnpaid } from '@backsight/store/fees/evidence';
import { findFirm } from '@backsight/store/firm';

const shown = ({ creditedTaxCents: _, payerEmail: _address, balanceCents, ...i }: InvoiceRow) => ({
  ...i,
  issuedAt: i.issuedAt?.toISOString() ?? null,
  openCents: openOf({ balanceCents }),
  toGiveBackCents: backOf({ balanceCents }),
});

/** One invoice with its lines and payments; null when there is none. */
export async function readInvoice(reader: Reader, id: string) {
  const invoice = await findInvoice(reader, id);
  if (!invoice) return null;
  const [lines, payments] = [await invoiceLines(reader, id), await paymentsOf(reader, id)];
  return {
    ...shown(invoice),
    lines,
    acts: (await actsOf(reader, id)).map(({ entryId: _, invoiceId: _of, ...act }) => act),
    handedOverOn: openOf(invoice) > 0 ? await handedOverUnpaid(reader, id) : null,
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

// Withdraws invoices: their ledger entries are taken back, and what was paid on them is to be given back.
import { DateTime } from 'luxon';
import { reversalLines } from '@backsight/domain/fees/ledger';
import { invoicesOfJob, linesOf, lockInvoicesOfJob, setInvoiceState } from '@backsight/store/fees';
import { actsOf } from '@backsight/store/fees/acts';
import type { Work } from '../../run.ts';
import { postEntry } from './post.ts';

type Standing = { id: string; number: number | null; totalCents: number; paidCents: number };
export type Withdrawn = { numbers: number[]; toGiveBack: { payerId: string; cents: number }[] };

/** Withdraws one issued invoice as of an ISO day: all that it asked for or took off is reversed, so that what was paid stands as owed to the payer. */
export async function withdrawInvoice(work: Work, old: Standing, today: string): Promise<void> {
  await setInvoiceState(work.tx, old.id, 'withdrawn');
  const acts = (await actsOf(work.tx, old.id)).filter(({ kind, takenBackOn }) => kind !== 'refund' && takenBackOn === null);
  for (const reversesId of [old.id, ...acts.map(({ entryId }) => entryId)])
    await postEntry(work, {
      kind: 'reversal',
      happenedOn: today,
      memo: `Invoice ${old.number} withdrawn`,
      lines: reversalLines(await linesOf(work.tx, reversesId)),
      reversesId,
    });
  await work.did('invoice', old.id, { state: 'withdrawn', number: old.number, cents: old.totalCents, toGiveBackCents: old.paidCents });
}

/** Withdraws every invoice of a job that takes place no more; answers whom money is to be given back to, in cents. */
export async function withdrawInvoices(work: Work, jobId: string, zone: string): Promise<Withdrawn> {
  await lockInvoicesOfJob(work.tx, jobId);
  const standing = (await invoicesOfJob(work.tx, jobId)).filter(({ state }) => state !== 'withdrawn');
  const today = DateTime.fromJSDate(work.now, { zone }).toISODate()!;
  for (const invoice of standing) await withdrawInvoice(work, invoice, today);
  const paid = standing.filter(({ paidCents }) => paidCents > 0);
  return {
    numbers: standing.map(({ number }) => number!),
    toGiveBack: paid.map(({ payerId, paidCents }) => ({ payerId, cents: paidCents })),
  };
}

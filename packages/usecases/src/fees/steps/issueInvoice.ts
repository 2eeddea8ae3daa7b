// Issues the invoices of a job: what is not invoiced yet, to whoever pays, each his share.
import { DateTime } from 'luxon';
import { decideInvoices, type InvoiceToIssue, type JobToInvoice, type OpenInvoice } from '@backsight/domain/fees/billing';
import { invoiceLines } from '@backsight/domain/fees/ledger';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { invoicesOfJob, lockInvoicesOfJob, saveInvoice, type InvoiceRow } from '@backsight/store/fees';
import { findJobForInvoice, type JobForInvoice } from '@backsight/store/fees/job';
import { closedThrough } from '@backsight/store/fees/books';
import { findMoneyRules } from '@backsight/store/fees/rules';
import { nextNumber } from '@backsight/store/numbers';
import type { Work } from '../../run.ts';
import { rulesOf } from './moneyRules.ts';
import { postEntry } from './post.ts';
import { withdrawInvoice } from './withdrawInvoices.ts';

/** The invoice, and where several pay every one that was issued, in the order of the payers. */
export type Issued = { invoiceId: string; number: number; all: { invoiceId: string; number: number; payerId: string }[] };

/**
 * Issues invoices for the fee lines in force, less what partly paid invoices already ask for; unpaid ones are withdrawn.
 * Asking again when nothing changed answers the invoice that is there. The ledger entry of an invoice carries the invoice's id.
 */
export async function issueInvoice(work: Work, jobId: string): Promise<Outcome<Issued>> {
  await lockInvoicesOfJob(work.tx, jobId);
  const [job, all, rules] = await Promise.all([findJobForInvoice(work.tx, jobId), invoicesOfJob(work.tx, jobId), findMoneyRules(work.tx)]);
  if (!job) return refuse('not-found', { thing: 'job' });
  const today = DateTime.fromJSDate(work.now, { zone: job.zone }).toISODate()!;
  const standing = all.filter(({ state }) => state !== 'withdrawn');
  const decided = decideInvoices(toInvoice(job, standing, rulesOf(rules)), today);
  if (!decided.ok) return decided;
  if ('same' in decided.value) {
    const { id: invoiceId, number, payerId } = decided.value.same;
    return accept({ invoiceId, number, all: [{ invoiceId, number, payerId }] });
  }
  for (const old of decided.value.withdraw)
    await withdrawInvoice(
      work,
      standing.find(({ id }) => id === old.id)!,
      today,
    );
  const issued = [];
  for (const one of decided.value.issue) issued.push(await issue(work, jobId, one, today));
  const { invoiceId, number } = issued[0]!;
  return accept({ invoiceId, number, all: issued });
}

const openInvoice = (i: InvoiceRow): OpenInvoice => ({
  id: i.id,
  number: i.number!,
  totalCents: i.totalCents,
  taxCents: i.taxCents,
  paidCents: i.paidCents,
  lessCents: i.creditedCents + i.writtenOffCents,
  payerId: i.payerId,
});

function toInvoice(job: JobForInvoice, standing: readonly InvoiceRow[], rules: JobToInvoice['rules']): JobToInvoice {
  const inRole = (role: string) =>
    job.parties
      .filter((p) => p.role === role)
      .map(({ partyId, name, weight }) => ({ partyId, name, ...(weight === null ? {} : { weight }) }));
  const { depositCents, depositPercent } = job;
  return {
    ...job,
    deposit: depositCents !== null ? { cents: depositCents } : depositPercent !== null ? { percent: depositPercent } : null,
    payers: inRole('payer'),
    clients: inRole('client'),
    invoices: standing.map(openInvoice),
    rules,
  };
}

async function issue(work: Work, jobId: string, what: InvoiceToIssue, today: string): Promise<Issued['all'][number]> {
  const invoiceId = work.newId();
  const { payerId, totalCents, taxCents } = what;
  const [number, closed] = await Promise.all([nextNumber(work.tx, 'invoice'), closedThrough(work.tx)]);
  await saveInvoice(work.tx, { ...what, id: invoiceId, number, jobId, at: work.now });
  const lines = invoiceLines(totalCents, { partyId: payerId, jobId }, taxCents);
  await postEntry(work, { id: invoiceId, kind: 'invoice', happenedOn: today, memo: `Invoice ${number}`, lines }, closed);
  await work.did('invoice', invoiceId, { state: 'issued', number, cents: totalCents, taxCents, dueOn: what.dueOn });
  return { invoiceId, number, payerId };
}

// Issues the invoice of a job: what is not invoiced yet, to the one party that pays.
import { DateTime } from 'luxon';
import { decideInvoice, type InvoiceToIssue, type OpenInvoice } from '@backsight/domain/fees/invoice';
import { invoiceLines } from '@backsight/domain/fees/ledger';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { invoicesOfJob, lockInvoicesOfJob, saveInvoice } from '@backsight/store/fees';
import { findJobForInvoice } from '@backsight/store/fees/job';
import { nextNumber } from '@backsight/store/numbers';
import type { Work } from '../../run.ts';
import { postEntry } from './post.ts';
import { withdrawInvoice } from './withdrawInvoices.ts';

export type Issued = { invoiceId: string; number: number };

/**
 * Issues an invoice for the fee lines in force, less what partly paid invoices already ask for; unpaid ones are withdrawn.
 * Asking again when nothing changed answers the invoice that is there. The ledger entry of an invoice carries the invoice's id.
 */
export async function issueInvoice(work: Work, jobId: string): Promise<Outcome<Issued>> {
  await lockInvoicesOfJob(work.tx, jobId);
  const job = await findJobForInvoice(work.tx, jobId);
  if (!job) return refuse('not-found', { thing: 'job' });
  const today = DateTime.fromJSDate(work.now, { zone: job.zone }).toISODate()!;
  const standing = (await invoicesOfJob(work.tx, jobId)).filter(({ state }) => state !== 'withdrawn');
  const invoices = standing.map((i): OpenInvoice => ({
    id: i.id,
    number: i.number!,
    totalCents: i.totalCents,
    paidCents: i.paidCents,
    payerId: i.payerId,
  }));
  const inRole = (role: string) => job.parties.filter((p) => p.role === role);
  const decided = decideInvoice({ ...job, payers: inRole('payer'), clients: inRole('client'), invoices }, today);
  if (!decided.ok) return decided;
  if ('same' in decided.value) return accept({ invoiceId: decided.value.same.id, number: decided.value.same.number });
  for (const old of decided.value.issue.withdraw) await withdrawInvoice(work, old, today);
  return accept(await issue(work, jobId, decided.value.issue, today));
}

async function issue(work: Work, jobId: string, what: InvoiceToIssue, today: string): Promise<Issued> {
  const invoiceId = work.newId();
  const { payerId, totalCents, dueOn, lines } = what;
  const number = await nextNumber(work.tx, 'invoice');
  await saveInvoice(work.tx, { id: invoiceId, number, jobId, payerId, totalCents, dueOn, lines, at: work.now });
  await postEntry(work, {
    id: invoiceId,
    kind: 'invoice',
    happenedOn: today,
    memo: `Invoice ${number}`,
    lines: invoiceLines(totalCents, { partyId: payerId, jobId }),
  });
  await work.did('invoice', invoiceId, { state: 'issued', number, cents: totalCents, dueOn });
  return { invoiceId, number };
}

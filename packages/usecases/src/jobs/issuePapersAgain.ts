// Issues the agreement and the invoice of a confirmed job anew, after something was learned that changed them.
import { mayPaperAgain } from '@backsight/domain/jobs/decide';
import { accept, refuse, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import { newestAgreement } from '@backsight/store/agreements';
import { invoicesOfJob } from '@backsight/store/fees';
import { lockJob } from '@backsight/store/jobs/jobs';
import { issueAgreement } from '../agreements/steps/issueAgreement.ts';
import { issueInvoice } from '../fees/steps/issueInvoice.ts';
import type { Act, Work } from '../run.ts';
import { askAgain } from './steps/changeFee.ts';

export type PapersIssued = { agreementId: string; invoiceId: string; invoiceNumber: number; warnings: Warning[] };

export const issuePapersAgain: Act<{ id: string; publicUrl: string }, PapersIssued> = { operation: 'jobs.issue-papers', run: issueAgain };

/** Papers that still say the same stay as they are. What the client signed or paid before is kept. */
async function issueAgain(work: Work, { id, publicUrl }: { id: string; publicUrl: string }): Promise<Outcome<PapersIssued>> {
  const job = await lockJob(work.tx, id);
  if (!job) return refuse('not-found', { thing: 'job' });
  const allowed = mayPaperAgain(job.state);
  if (!allowed.ok) return allowed;
  const before = { agreement: await newestAgreement(work.tx, id), invoices: await invoicesOfJob(work.tx, id) };
  const agreement = await issueAgreement(work, { jobId: id, publicUrl });
  if (!agreement.ok) return agreement;
  const invoice = await issueInvoice(work, id);
  if (!invoice.ok) return invoice;
  const { agreementId } = agreement.value;
  const { invoiceId, number } = invoice.value;
  if (agreementId !== before.agreement?.id) await askAgain(work, job, 'signature', 'The agreement was issued anew.');
  if (!before.invoices.some((one) => one.id === invoiceId) && job.terms === 'due_at_booking')
    await askAgain(work, job, 'payment', 'A new invoice was issued.');
  const warnings = [...agreement.warnings, ...invoice.warnings];
  await work.did('job', id, { agreementId, invoice: number, issuedAnew: true });
  return accept({ agreementId, invoiceId, invoiceNumber: number, warnings }, warnings);
}

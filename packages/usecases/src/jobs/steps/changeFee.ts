// A fee that changed after it was agreed: the invoices follow, and an agreement that names the old one is superseded.
import type { FeeLine } from '@backsight/domain/fees/schedule';
import { accept, type Outcome, type Warning } from '@backsight/domain/shared/outcome';
import { newestAgreement } from '@backsight/store/agreements';
import { invoicesOfJob } from '@backsight/store/fees';
import type { Job } from '@backsight/store/jobs/jobs';
import { openNeed } from '@backsight/store/jobs/markNeed';
import { issueAgreement } from '../../agreements/steps/issueAgreement.ts';
import { invoiceTheFee } from '../../fees/steps/carryOver.ts';
import type { Work } from '../../run.ts';
import { replaceLines } from './feeLines.ts';

/** Sets the fee lines; once invoices stand they are brought to the new fee. Answers what is then to be given back, in cents. */
export async function changeFee(work: Work, jobId: string, lines: readonly FeeLine[]): Promise<Outcome<{ toGiveBackCents: number }>> {
  await replaceLines(work, jobId, lines);
  const standing = (await invoicesOfJob(work.tx, jobId)).some(({ state }) => state !== 'withdrawn');
  return standing ? invoiceTheFee(work, jobId) : accept({ toGiveBackCents: 0 });
}

/** What was settled with the papers before is wanted again, as long as the visit lies ahead. */
export async function askAgain(work: Work, job: Pick<Job, 'id' | 'state'>, kind: 'signature' | 'payment', why: string): Promise<void> {
  if (job.state === 'booked')
    await openNeed(work.tx, { id: work.newId(), jobId: job.id, kind, dueAt: work.now, details: { why }, at: work.now });
}

/** Issues the agreement with the new fee in the place of the one before, and asks for the signatures again. Nothing happens while none was issued. */
export async function supersede(
  work: Work,
  job: Pick<Job, 'id' | 'state'>,
  publicUrl: string,
): Promise<{ superseded: boolean; warnings: Warning[] }> {
  const before = await newestAgreement(work.tx, job.id);
  if (!before) return { superseded: false, warnings: [] };
  const issued = await issueAgreement(work, { jobId: job.id, publicUrl });
  if (!issued.ok) {
    const text = 'The fee changed, but the agreement could not be written anew. Look at it on the page of the job.';
    return { superseded: false, warnings: [{ code: 'papers-differ', text }] };
  }
  const superseded = issued.value.agreementId !== before.id;
  if (superseded) await askAgain(work, job, 'signature', 'The agreement was issued anew with the fee as it is now.');
  return { superseded, warnings: issued.warnings };
}

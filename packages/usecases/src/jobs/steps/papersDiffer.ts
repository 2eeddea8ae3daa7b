// Where the papers of a confirmed job no longer say what the job is.
import { agreementDiffers, invoicesDiffer } from '@backsight/domain/agreements/differs';
import { newestAgreement } from '@backsight/store/agreements';
import { findText } from '@backsight/store/agreements/texts';
import { findJobForAgreement } from '@backsight/store/agreements/job';
import type { Reader } from '@backsight/store/database';
import { invoicesOfJob } from '@backsight/store/fees';
import { writtenFor } from '../../agreements/steps/writtenFor.ts';

/** Sentences, none when the papers are right or none were issued yet. */
export async function papersDiffer(reader: Reader, jobId: string): Promise<string[]> {
  const job = await findJobForAgreement(reader, jobId);
  const agreement = await newestAgreement(reader, jobId);
  const invoices = (await invoicesOfJob(reader, jobId)).filter(({ state }) => state !== 'withdrawn');
  if (!job || (!agreement && invoices.length === 0)) return [];
  const text = agreement && (await findText(reader, agreement.textId));
  const written = text && (await writtenFor(reader, job, text, agreement.issuedAt));
  const invoiced = invoices.reduce((sum, { totalCents, taxCents }) => sum + totalCents - taxCents, 0);
  const taken = invoices.reduce((sum, { creditedCents, writtenOffCents }) => sum + creditedCents + writtenOffCents, 0);
  return [
    ...(agreement && written ? agreementDiffers(agreement.body, written.template, written.facts) : []),
    ...invoicesDiffer(job.feeCents, invoiced > job.feeCents ? Math.max(job.feeCents, invoiced - taken) : invoiced),
  ];
}

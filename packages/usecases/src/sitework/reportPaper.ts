// A report as a file: the plain one drafted from the sealed record.
import type { PdfFile } from '@backsight/documents/pdf/content';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { findReport, findReportJob } from '@backsight/store/sitework/report';
import type { Actor } from '../run.ts';
import { mayWriteReport } from './steps/reportJob.ts';
import { reportPdf } from './steps/reportPdf.ts';

/** Refusals: not-found (also for a report taken in as a file), not-allowed. */
export async function reportPaper(reader: Reader, { reportId, actor }: { reportId: string; actor: Actor }): Promise<Outcome<PdfFile>> {
  const report = await findReport(reader, reportId);
  const job = report && (await findReportJob(reader, report.jobId));
  if (!report || !job || report.source !== 'drafted') return refuse('not-found', { thing: 'report' });
  return mayWriteReport(job, actor) ? accept(await reportPdf(reader, report, job)) : refuse('not-allowed');
}

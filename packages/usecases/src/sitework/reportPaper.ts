// A report as a file: the plain one drafted from the sealed record.
import { DateTime } from 'luxon';
import type { PdfFile } from '@backsight/documents/pdf/content';
import { pdfOf } from '@backsight/documents/pdf/write';
import { reportBlocks } from '@backsight/documents/papers/report';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { ReportBody } from '@backsight/domain/sitework/report';
import type { Reader } from '@backsight/store/database';
import { findReport, findReportJob } from '@backsight/store/sitework/report';
import { licensesForPaper } from '@backsight/store/firm/letterhead';
import { letterhead } from '../firm/steps/letterhead.ts';
import type { Actor } from '../run.ts';
import { mayWriteReport } from './steps/reportJob.ts';

const words = (day: string): string => DateTime.fromISO(day).setLocale('en-US').toFormat('LLLL d, yyyy');

/** Names those who inspected with their licenses on the day of the inspection. Refusals: not-found (also for a report taken in as a file). */
export async function reportPaper(reader: Reader, { reportId, actor }: { reportId: string; actor: Actor }): Promise<Outcome<PdfFile>> {
  const report = await findReport(reader, reportId);
  const job = report && (await findReportJob(reader, report.jobId));
  if (!report || !job || report.source !== 'drafted') return refuse('not-found', { thing: 'report' });
  if (!mayWriteReport(job, actor)) return refuse('not-allowed');
  const licenses = await licensesForPaper(reader, report.jobId, report.inspectedOn);
  const licensed = (name: string): string =>
    [name, ...licenses.filter((one) => one.name === name).map(({ number }) => `license ${number}`)].join(', ');
  const body = report.body as unknown as ReportBody;
  const head = await letterhead(reader, report.recordedAt, report.jobId);
  return accept({
    name: `report-job-${job.number}-version-${report.version}.pdf`,
    bytes: await pdfOf({
      ...head,
      title: `Inspection report: ${job.address}`,
      foot: `Job ${job.number}, version ${report.version} of ${words(report.revisedOn ?? report.reportOn)}`,
      blocks: reportBlocks({
        ...body,
        job: job.number,
        address: job.address,
        version: report.version,
        inspectedOn: words(report.inspectedOn),
        reportOn: words(report.reportOn),
        revisedOn: report.revisedOn && words(report.revisedOn),
        inspectedBy: report.inspectedBy.map(licensed),
        preparedBy: licensed(report.preparedByName),
      }),
    }),
  });
}

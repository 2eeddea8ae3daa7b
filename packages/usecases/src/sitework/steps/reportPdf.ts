// The plain report drafted from the sealed record, as a file; sealed when it is handed over, and the same bytes from then on.
import { createHash } from 'node:crypto';
import { DateTime } from 'luxon';
import type { PdfFile } from '@backsight/documents/pdf/content';
import { pdfOf } from '@backsight/documents/pdf/write';
import { reportBlocks } from '@backsight/documents/papers/report';
import { shortState } from '@backsight/domain/shared/stateOfZip';
import type { ReportBody } from '@backsight/domain/sitework/report';
import { findSealedPaper, saveSealedPaper } from '@backsight/store/agreements/sealed';
import type { Reader } from '@backsight/store/database';
import { storeFile } from '@backsight/store/sitework/files';
import { noteFile, type ReportJob, type ReportRow } from '@backsight/store/sitework/report';
import { licensesForPaper } from '@backsight/store/firm/letterhead';
import { letterhead } from '../../firm/steps/letterhead.ts';
import type { Work } from '../../run.ts';

/** A day as a client reads it. */
export const dayForClient = (day: string): string => DateTime.fromISO(day, { zone: 'utc', locale: 'en-US' }).toFormat('LLLL d, yyyy');

/** As it reads now; names those who inspected with their licenses on the day of the inspection. */
async function drawnUp(reader: Reader, report: ReportRow, job: ReportJob): Promise<PdfFile> {
  const licenses = await licensesForPaper(reader, report.jobId, report.inspectedOn);
  const licensed = (name: string): string =>
    [name, ...licenses.filter((one) => one.name === name).map(({ number }) => `license ${number}`)].join(', ');
  const body = report.body as unknown as ReportBody;
  return {
    name: `report-job-${job.number}-version-${report.version}.pdf`,
    bytes: await pdfOf({
      ...(await letterhead(reader, report.recordedAt, report.jobId)),
      title: `Inspection report: ${job.address}`,
      foot: `Job ${job.number}, version ${report.version} of ${dayForClient(report.revisedOn ?? report.reportOn)}`,
      blocks: reportBlocks({
        ...body,
        job: job.number,
        address: `${job.address}, ${shortState(job.jurisdiction)} ${job.zip}`,
        version: report.version,
        inspectedOn: dayForClient(report.inspectedOn),
        reportOn: dayForClient(report.reportOn),
        revisedOn: report.revisedOn && dayForClient(report.revisedOn),
        inspectedBy: report.inspectedBy.map(licensed),
        preparedBy: licensed(report.preparedByName),
      }),
    }),
  };
}

/** The sealed file where it was handed over, else as it reads now. */
export async function reportPdf(reader: Reader, report: ReportRow, job: ReportJob): Promise<PdfFile> {
  const sealed = await findSealedPaper(reader, { reportId: report.id });
  return sealed ? { name: sealed.name, bytes: sealed.content } : drawnUp(reader, report, job);
}

export type Attachable = { sha256: string; name: string };

/**
 * Seals a drafted report at its first hand-over. Answers what a mail may carry: null where the service keeps no files (`directory` null).
 */
export async function sealReport(work: Work, report: ReportRow, job: ReportJob, directory: string | null): Promise<Attachable | null> {
  const earlier = await findSealedPaper(work.tx, { reportId: report.id });
  const { name, bytes } = earlier ? { name: earlier.name, bytes: earlier.content } : await drawnUp(work.tx, report, job);
  const content = new Uint8Array(bytes);
  const sha256 = earlier?.sha256 ?? createHash('sha256').update(content).digest('hex');
  if (!earlier) {
    const paper = { id: work.newId(), kind: 'report' as const, reportId: report.id, signatures: 0 };
    await saveSealedPaper(work.tx, { ...paper, name, sha256, content, recordedAt: work.now });
    await work.did('report', report.id, { sealed: sha256 });
  }
  if (directory === null) return null;
  await storeFile(directory, Buffer.from(content));
  await noteFile(work.tx, { sha256, mediaType: 'application/pdf', bytes: content.length, name, at: work.now });
  return { sha256, name };
}

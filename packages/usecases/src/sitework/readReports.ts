// The report register of a job: versions, dates, recipients, when it is due, and what a draft can be made from.
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { HAND_OVER_WANTS, handOverMissing, worthALook, type ReportBody } from '@backsight/domain/sitework/report';
import type { Reader } from '@backsight/store/database';
import { findReport, findReportJob, reportsOfJob, type ReportRow } from '@backsight/store/sitework/report';
import { consentsOfJob, handOverOverrides } from '@backsight/store/sitework/register';
import type { Actor } from '../run.ts';
import { handOverFacts } from './steps/handOverFacts.ts';
import { mayWriteReport, reportDueOf } from './steps/reportJob.ts';
import { reportSources } from './steps/reportSource.ts';
import { readStoredFile } from '@backsight/store/sitework/files';

const reportJson = ({ jobId: _jobId, recordedAt, deliveries, sealed, ...row }: ReportRow) => ({
  ...row,
  sealed: sealed && { ...sealed, at: new Date(sealed.at).toISOString() },
  recordedAt: recordedAt.toISOString(),
  body: row.source === 'drafted' ? (row.body as ReportBody) : null,
  deliveries: deliveries.map(({ deliveredAt, ...d }) => ({ ...d, deliveredAt: new Date(deliveredAt).toISOString() })),
});

export async function readReports(reader: Reader, input: { jobId: string; actor: Actor; now: Date }) {
  const job = await findReportJob(reader, input.jobId);
  if (!job) return refuse('not-found', { thing: 'job' });
  if (!mayWriteReport(job, input.actor)) return refuse('not-allowed');
  const sources = await reportSources(reader, job);
  const reports = await reportsOfJob(reader, input.jobId);
  const due = await reportDueOf(reader, job);
  const handedOver = reports.some(({ deliveries }) => deliveries.length > 0);
  const consents = (await consentsOfJob(reader, input.jobId)).map((c) => ({ ...c, recordedAt: c.recordedAt.toISOString() }));
  return accept({
    overdue: due !== null && !handedOver && new Date(due.at) < input.now,
    handOver: {
      missing: handOverMissing(await handOverFacts(reader, job)).map((code) => ({ code, wants: HAND_OVER_WANTS[code] })),
      overrides: (await handOverOverrides(reader, input.jobId)).map((o) => ({ ...o, happenedAt: o.happenedAt.toISOString() })),
    },
    consents,
    jobId: job.jobId,
    jobNumber: job.number,
    address: job.address,
    inspectedOn: job.visits[0]?.day ?? null,
    dueAt: due?.at ?? null,
    dueWords: due?.words ?? '',
    sealed: sources.length > 0,
    sources: sources.map((source) => ({ ...source, worthALook: worthALook(source) })),
    reports: reports.map(reportJson),
    parties: job.parties.map(({ consentAt, ...party }) => ({ ...party, mayReceive: party.roles.includes('client') || consentAt !== null })),
  });
}

/** The file of a report that was taken in. */
export async function readReportFile(reader: Reader, input: { reportId: string; actor: Actor; directory: string }) {
  const report = await findReport(reader, input.reportId);
  const job = report && (await findReportJob(reader, report.jobId));
  if (!report?.fileSha256 || !job) return refuse('not-found', { thing: 'report file' });
  if (!mayWriteReport(job, input.actor)) return refuse('not-allowed');
  return accept({ bytes: await readStoredFile(input.directory, report.fileSha256), name: report.fileName ?? 'report.pdf' });
}

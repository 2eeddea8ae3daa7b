// Adds a version of the client's report: drafted from the sealed record, or taken in as a file made elsewhere.
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { draftReport, type Defect } from '@backsight/domain/sitework/report';
import { findReportJob, noteFile, reportsOfJob, saveReport, type ReportJob } from '@backsight/store/sitework/report';
import { nextNumber } from '@backsight/store/numbers';
import { localDay } from '../firm/steps/localDay.ts';
import type { Act, Work } from '../run.ts';
import { pdfOf } from './steps/pdf.ts';
import { inspectionOf, mayWriteReport } from './steps/reportJob.ts';
import { reportSources } from './steps/reportSource.ts';
import { storeFile } from '@backsight/store/sitework/files';

type Dates = { id: string; jobId: string; completedOn: string; reportOn: string };
type Made = { id: string; version: number };

/** Refusals: record-not-sealed, report-before-visit. */
export const draftReportOfJob: Act<Dates & { defects: Defect[] }, Made> = {
  operation: 'sitework.draft-report',
  run: async (work, { defects, ...input }) => {
    const job = await findReportJob(work.tx, input.jobId);
    if (!job) return refuse('not-found', { thing: 'job' });
    const sources = await reportSources(work.tx, job);
    if (sources.length === 0) return refuse('record-not-sealed');
    return add(work, job, input, { source: 'drafted', body: draftReport(sources, defects), fileSha256: null });
  },
};

/** `directory`: where the service keeps its files. */
export type TakenFile = { name: string; base64: string };

/** Refusals: file-not-pdf, file-too-large, report-before-visit. */
export const takeInReport: Act<Dates & { file: TakenFile; directory: string }, Made> = {
  operation: 'sitework.take-in-report',
  run: async (work, { file, directory, ...input }) => {
    const job = await findReportJob(work.tx, input.jobId);
    if (!job) return refuse('not-found', { thing: 'job' });
    if (!mayWriteReport(job, work.actor)) return refuse('not-allowed');
    const pdf = pdfOf(file.base64);
    if (!pdf.ok) return pdf;
    const sha256 = await storeFile(directory, pdf.value);
    await noteFile(work.tx, { sha256, bytes: pdf.value.length, name: file.name, mediaType: 'application/pdf', at: work.now });
    return add(work, job, input, { source: 'taken_in', body: {}, fileSha256: sha256 });
  },
};

async function add(
  work: Work,
  job: ReportJob,
  input: Dates,
  what: { source: 'drafted' | 'taken_in'; body: unknown; fileSha256: string | null },
): Promise<Outcome<Made>> {
  if (!mayWriteReport(job, work.actor) || work.actor.kind !== 'person') return refuse('not-allowed');
  const visit = inspectionOf(job);
  if (!visit || !visit.recordId) return refuse('record-not-sealed');
  if (input.completedOn < visit.day) return refuse('report-before-visit', {}, 'completedOn');
  const before = await reportsOfJob(work.tx, job.jobId);
  const version = (before[0]?.version ?? 0) + 1;
  const { today } = await localDay(work.tx, work.now);
  const dates = {
    inspectedOn: visit.day,
    completedOn: input.completedOn,
    reportOn: before.at(-1)?.reportOn ?? input.reportOn,
    revisedOn: version === 1 ? null : today,
  };
  const inspectedBy = [...new Set(job.visits.flatMap(({ pair }) => pair.map(({ personId }) => personId)))];
  await saveReport(work.tx, {
    id: input.id,
    jobId: job.jobId,
    version,
    ...what,
    ...dates,
    inspectedBy,
    preparedBy: work.actor.id,
    registerNo: version === 1 ? await nextNumber(work.tx, 'report') : null,
    at: work.now,
  });
  await work.did('report', input.id, {
    jobId: job.jobId,
    version,
    source: what.source,
    ...(what.fileSha256 ? { file: what.fileSha256 } : {}),
  });
  return accept({ id: input.id, version });
}

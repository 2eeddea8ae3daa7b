// When a job's report is due, and who may write and hand it over.
import type { ReportDue } from '@backsight/domain/sitework/reportDue';
import type { Reader } from '@backsight/store/database';
import type { ReportJob } from '@backsight/store/sitework/report';
import type { Actor } from '../../run.ts';
import { reportDueFor, type DueAsk } from './reportDue.ts';

/** The inspection that the report is about: the job's first visit. */
export const inspectionOf = (job: ReportJob): ReportJob['visits'][number] | null => job.visits[0] ?? null;

/** By the promise of the firm and the rules of the property's state; null before there is a visit. */
export async function reportDueOf(reader: Reader, job: ReportJob): Promise<ReportDue | null> {
  const ask = dueAskOf(job);
  return ask && reportDueFor(reader, ask);
}

/** What the due day of a job's report is asked with; null before there is a visit. */
export function dueAskOf(job: ReportJob): DueAsk | null {
  const [first, last] = [inspectionOf(job), job.visits.at(-1)];
  if (!first || !last) return null;
  return { ...job, inspectedAt: new Date(first.endsAt), completedAt: new Date(last.endsAt) };
}

/** The pair writes its report; the lead inspector, the owner and the office may do it for them. */
export const mayWriteReport = (job: ReportJob, actor: Actor): boolean =>
  actor.kind === 'person' &&
  (actor.roles.some((role) => role !== 'inspector') || job.visits.some(({ pair }) => pair.some(({ personId }) => personId === actor.id)));

// Reports that nobody got yet, with the instant by which each is due: the promised business days after the inspection.
import type { Reader } from '@backsight/store/database';
import { findReportJob } from '@backsight/store/sitework/report';
import { reportsAwaited } from '@backsight/store/sitework/register';
import { reportDueOf } from './reportJob.ts';

export type ReportDue = { jobId: string; number: number; where: string; dueAt: string; overdue: boolean };

/** The most pressing first. */
export async function reportsDue(reader: Reader, now: Date): Promise<ReportDue[]> {
  const found: ReportDue[] = [];
  for (const { jobId, number, where } of await reportsAwaited(reader)) {
    const due = await reportDueOf(reader, (await findReportJob(reader, jobId))!);
    if (due) found.push({ jobId, number, where, dueAt: due.at, overdue: new Date(due.at) < now });
  }
  return found.sort((a, b) => a.dueAt.localeCompare(b.dueAt) || a.number - b.number);
}

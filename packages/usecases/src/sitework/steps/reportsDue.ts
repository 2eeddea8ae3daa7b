// Reports that nobody got yet, with the instant by which each is due: the promised business days after the inspection.
import { packOn } from '@backsight/domain/shared/rulePack';
import type { Reader } from '@backsight/store/database';
import { listRulePacks } from '@backsight/store/firm/rulePacks';
import { listClosedDays } from '@backsight/store/firm/settings';
import { findReportJobs } from '@backsight/store/sitework/report';
import { reportsAwaited } from '@backsight/store/sitework/register';
import { dayOfInspection, reportDueBy } from './reportDue.ts';
import { dueAskOf } from './reportJob.ts';

export type ReportDue = { jobId: string; number: number; where: string; dueAt: string; overdue: boolean };

/** The most pressing first. However many there are, what their due days rest on is read once. */
export async function reportsDue(reader: Reader, now: Date): Promise<ReportDue[]> {
  const awaited = await reportsAwaited(reader);
  if (awaited.length === 0) return [];
  const jobs = new Map(
    (
      await findReportJobs(
        reader,
        awaited.map(({ jobId }) => jobId),
      )
    ).map((job) => [job.jobId, dueAskOf(job)]),
  );
  const asks = [...jobs.values()].filter((ask) => ask !== null);
  const firstDay = asks.map(dayOfInspection).toSorted()[0];
  if (firstDay === undefined) return [];
  const [packs, closed] = await Promise.all([listRulePacks(reader), listClosedDays(reader, firstDay)]);
  const closedDays = closed.map(({ day }) => day);
  const found = awaited.flatMap(({ jobId, number, where }): ReportDue[] => {
    const ask = jobs.get(jobId);
    if (!ask) return [];
    const { at } = reportDueBy(ask, { pack: packOn(packs, ask.jurisdiction, dayOfInspection(ask)), closedDays });
    return [{ jobId, number, where, dueAt: at, overdue: new Date(at) < now }];
  });
  return found.sort((a, b) => a.dueAt.localeCompare(b.dueAt) || a.number - b.number);
}

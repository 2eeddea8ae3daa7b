// When a job's report is due, and who may write and hand it over.
import { openingHours } from '@backsight/domain/firm/stored';
import { deadline } from '@backsight/domain/shared/deadline';
import type { BusinessCalendar } from '@backsight/domain/shared/calendar';
import type { Reader } from '@backsight/store/database';
import { listClosedDays } from '@backsight/store/firm/settings';
import type { ReportJob } from '@backsight/store/sitework/report';
import type { Actor } from '../../run.ts';

/** The inspection that the report is about: the job's first visit. */
export const inspectionOf = (job: ReportJob): ReportJob['visits'][number] | null => job.visits[0] ?? null;

/** Closing time of the promised business day after the inspection; null before there is one. The promise is the firm's own. */
export async function reportDueAt(reader: Reader, job: ReportJob): Promise<string | null> {
  const visit = inspectionOf(job);
  if (!visit) return null;
  const closedDays = (await listClosedDays(reader, visit.day)).map(({ day }) => day);
  const calendar: BusinessCalendar = { zone: job.zone, hours: openingHours(job.hours), closedDays };
  return deadline({ amount: job.reportDueDays, unit: 'businessDays' }, new Date(visit.endsAt).toISOString(), [], calendar);
}

/** The pair writes its report; the lead inspector, the owner and the office may do it for them. */
export const mayWriteReport = (job: ReportJob, actor: Actor): boolean =>
  actor.kind === 'person' &&
  (actor.roles.some((role) => role !== 'inspector') || job.visits.some(({ pair }) => pair.some(({ personId }) => personId === actor.id)));

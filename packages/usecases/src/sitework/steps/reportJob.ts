// When a job's report is due, and who may write and hand it over.
import { deadline } from '@backsight/domain/shared/deadline';
import type { BusinessCalendar, IsoWeekday, OpeningHours } from '@backsight/domain/shared/calendar';
import type { Reader } from '@backsight/store/database';
import { listClosedDays } from '@backsight/store/firm/settings';
import type { ReportJob } from '@backsight/store/sitework/report';
import type { Actor } from '../../run.ts';

const hoursOf = (stored: ReportJob['hours']): Record<IsoWeekday, OpeningHours | null> => {
  const of = (weekday: IsoWeekday): OpeningHours | null => {
    const span = stored[String(weekday)];
    return span ? { start: span[0], end: span[1] } : null;
  };
  return { 1: of(1), 2: of(2), 3: of(3), 4: of(4), 5: of(5), 6: of(6), 7: of(7) };
};

/** The inspection that the report is about: the job's first visit. */
export const inspectionOf = (job: ReportJob): ReportJob['visits'][number] | null => job.visits[0] ?? null;

/** Closing time of the promised business day after the inspection; null before there is one. The promise is the firm's own. */
export async function reportDueAt(reader: Reader, job: ReportJob): Promise<string | null> {
  const visit = inspectionOf(job);
  if (!visit) return null;
  const closedDays = (await listClosedDays(reader, visit.day)).map(({ day }) => day);
  const calendar: BusinessCalendar = { zone: job.zone, hours: hoursOf(job.hours), closedDays };
  return deadline({ amount: job.reportDueDays, unit: 'businessDays' }, new Date(visit.endsAt).toISOString(), [], calendar);
}

/** The pair writes its report; the lead inspector, the owner and the office may do it for them. */
export const mayWriteReport = (job: ReportJob, actor: Actor): boolean =>
  actor.kind === 'person' && (actor.roles.some((role) => role !== 'inspector') || job.visits.some(({ pair }) => pair.some(({ personId }) => personId === actor.id)));

// Who comes to the next visit of a job, when the client is to be there, and who attends.
import { timeInWords } from '@backsight/domain/agreements/facts';
import { comingWords } from '@backsight/domain/agreements/notices';
import type { JobForAgreement } from '@backsight/store/agreements/job';
import { findAttendance } from '@backsight/store/jobs/attendance';
import type { Work } from '../../run.ts';

/** In sentences; empty when nothing of it is known. */
export async function comingOf(work: Work, { id, visit, zone }: JobForAgreement): Promise<string> {
  const attendance = visit && (await findAttendance(work.tx, id));
  if (!attendance) return '';
  const { arrives, arriveAt, attendees } = attendance;
  const none = arriveAt === null || arriveAt >= new Date(visit.endsAt);
  return comingWords({
    pair: visit.pair.map(({ name }) => name),
    arriveAt: none ? null : timeInWords(arriveAt, zone),
    forWalkThrough: arrives === 'walk_through',
    attendees,
  });
}

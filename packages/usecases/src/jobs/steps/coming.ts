// Who comes to the next visit of a job, when the client is to be there, and who attends.
import { timeInWords } from '@backsight/domain/agreements/facts';
import { comingWords } from '@backsight/domain/agreements/notices';
import type { JobForAgreement } from '@backsight/store/agreements/job';
import { findAttendance } from '@backsight/store/jobs/attendance';
import type { Work } from '../../run.ts';

/** What was said of a job as it was read once: several letters of one act say the same. */
const said = new WeakMap<JobForAgreement, Promise<string>>();

/** In sentences; empty when nothing of it is known. */
export function comingOf(work: Work, job: JobForAgreement): Promise<string> {
  if (!said.has(job)) said.set(job, comingNow(work, job));
  return said.get(job)!;
}

async function comingNow(work: Work, { id, visit, zone }: JobForAgreement): Promise<string> {
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

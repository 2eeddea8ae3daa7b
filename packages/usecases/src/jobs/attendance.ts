// Who of the client's side attends the visit, and when they are to arrive.
import { mayLearn } from '@backsight/domain/jobs/decide';
import type { Arrives } from '@backsight/domain/jobs/words';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { lockJob } from '@backsight/store/jobs/jobs';
import { setAttendance } from '@backsight/store/jobs/attendance';
import type { Act, Work } from '../run.ts';
import { noteJob } from './steps/loadJob.ts';

export type AttendanceInput = { id: string; version: number; attendees: string; arrives: Arrives };

export const noteAttendance: Act<AttendanceInput, { id: string; version: number }> = { operation: 'jobs.attendance', run: note };

async function note(work: Work, input: AttendanceInput): Promise<Outcome<{ id: string; version: number }>> {
  const job = await lockJob(work.tx, input.id);
  if (!job) return refuse('not-found', { thing: 'job' });
  if (job.version !== input.version) return refuse('changed-meanwhile');
  const allowed = mayLearn(job.state);
  if (!allowed.ok) return allowed;
  await setAttendance(work.tx, job.id, input.attendees, input.arrives);
  const version = await noteJob(work, job.id, job.state, { kind: 'attendance', details: { arrives: input.arrives } });
  await work.did('job', job.id, { arrives: input.arrives });
  return accept({ id: job.id, version });
}

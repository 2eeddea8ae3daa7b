// Moves a job along with its visit, and adds the event that says so.
import type { JobState } from '@backsight/domain/jobs/words';
import { addJobEvent, lockJob } from '@backsight/store/jobs/jobs';
import type { Work } from '../../run.ts';

/** Nothing happens where `next` answers the state that the job is in. */
export async function moveJob(
  work: Work,
  jobId: string,
  kind: 'started' | 'visited' | 'reported',
  next: (state: JobState) => JobState,
  details: Record<string, string>,
): Promise<void> {
  const job = await lockJob(work.tx, jobId);
  if (!job) throw new Error('a visit without a job');
  const state = next(job.state);
  if (state === job.state) return;
  await addJobEvent(work.tx, {
    id: work.newId(),
    jobId,
    kind,
    state,
    details,
    actorId: work.actor.kind === 'person' ? work.actor.id : null,
    at: work.now,
  });
}

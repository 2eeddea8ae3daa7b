// Whether somebody may have the numbers of a job's people now.
import { mayCall } from '@backsight/domain/jobs/access';
import { seesEveryJob } from '@backsight/domain/people/roles';
import type { Reader } from '@backsight/store/database';
import { ownVisitsOf } from '@backsight/store/ownJobs';
import type { Actor } from '../../run.ts';

/** The desk always; an inspector around the visits of the job on which he goes. */
export async function mayCallPeople(reader: Reader, jobId: string, { actor, now }: { actor: Actor; now: Date }): Promise<boolean> {
  if (actor.kind !== 'person') return false;
  if (seesEveryJob(actor.roles)) return true;
  return (await ownVisitsOf(reader, jobId, actor.id)).some((visit) => mayCall({ onVisit: true, ...visit }, now));
}

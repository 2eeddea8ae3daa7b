// Before a visit starts, for the pair and those who lead; and the visits of a job.
import { refuse, type Outcome, accept } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { photoCounts } from '@backsight/store/sitework/photos';
import { findVisit, visitsOfJob } from '@backsight/store/sitework/visit';
import type { Actor } from '../run.ts';
import { visitJson } from './readDay.ts';
import { isMember, leads } from './steps/loadRecord.ts';
import { startOf } from './steps/startOf.ts';

/** Refusals: not-found, not-on-this-visit. */
export async function readStart(reader: Reader, input: { visitId: string; actor: Actor; now: Date }) {
  const visit = await findVisit(reader, input.visitId);
  if (!visit) return refuse('not-found', { thing: 'visit' });
  if (!isMember(visit, input.actor) && !leads(input.actor)) return refuse('not-on-this-visit');
  return accept(await startOf(reader, visit, input.now));
}

type JobVisit = ReturnType<typeof visitJson> & { mine: boolean; photos: { here: number; onTheirWay: number } };

/** Visits of a job with their records, for the page of the job's record. */
export async function readVisitsOfJob(reader: Reader, input: { jobId: string; actor: Actor }): Promise<Outcome<JobVisit[]>> {
  const visits = await visitsOfJob(reader, input.jobId);
  if (visits.length === 0) return refuse('not-found', { thing: 'visit of this job' });
  const counts = new Map((await photoCounts(reader, input.jobId)).map(({ visitId, ...count }) => [visitId, count]));
  return accept(
    visits.map((visit) => ({
      ...visitJson(visit),
      mine: isMember(visit, input.actor),
      photos: counts.get(visit.id) ?? { here: 0, onTheirWay: 0 },
    })),
  );
}

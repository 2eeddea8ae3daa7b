// What a callback visit demands: the place and the people of the inspection it looks at again, and never its pair alone.
import type { Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import type { JobForCallback } from '@backsight/store/callbacks/job';
import { accept } from '@backsight/domain/shared/outcome';
import { demandFor, jobContext, type JobContext } from '../../jobs/steps/loadJob.ts';
import type { Demand } from '../../schedule/steps/demand.ts';

export const VISIT_KIND = 'callback_visit';

export const originalPair = (job: JobForCallback): string[] => [...new Set(job.pair.map(({ id }) => id))];

/** No report waits for an objection day here: it was handed over long ago. */
export async function visitDemand(
  reader: Reader,
  job: JobForCallback,
  at: { now: Date; startsAt: Date },
): Promise<Outcome<{ context: JobContext; demand: Demand }>> {
  const found = await jobContext(reader, job.id, at.now);
  if (!found.ok) return found;
  const context = { ...found.value, job: { ...found.value.job, objectionOn: null }, neverAlone: originalPair(job) };
  const demand = demandFor(context, VISIT_KIND, at.startsAt);
  return demand.ok ? accept({ context, demand: demand.value }) : demand;
}

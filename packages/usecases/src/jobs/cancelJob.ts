// Cancels a job that has not begun, with the reason.
import { mayCancel } from '@backsight/domain/jobs/decide';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { dropNeeds, lockJob } from '@backsight/store/jobs/jobs';
import { endVisits } from '@backsight/store/schedule/visits';
import { keepText } from '@backsight/store/text';
import type { Act, Work } from '../run.ts';
import { noteJob } from './steps/loadJob.ts';

export const cancelJob: Act<{ id: string; version: number; reason: string }, { id: string; version: number }> = { operation: 'jobs.cancel', run: cancel };

async function cancel(work: Work, input: { id: string; version: number; reason: string }): Promise<Outcome<{ id: string; version: number }>> {
  const job = await lockJob(work.tx, input.id);
  if (!job) return refuse('not-found', { thing: 'job' });
  if (job.version !== input.version) return refuse('changed-meanwhile');
  const allowed = mayCancel(job.state);
  if (!allowed.ok) return allowed;
  const visits = await endVisits(work.tx, job.id, 'cancelled');
  await dropNeeds(work.tx, job.id, work.now);
  const textId = await keepText(work.tx, work.newId(), input.reason, work.now);
  const version = await noteJob(work, job.id, 'cancelled', { kind: 'cancelled', details: { visits } }, textId);
  await work.did('job', job.id, { state: 'cancelled', before: job.state, visits });
  return accept({ id: job.id, version });
}

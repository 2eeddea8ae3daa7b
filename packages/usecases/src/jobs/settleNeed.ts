// Notes how far one thing of the still-to-get list is: asked, settled, refused, not needed; by whom and when.
import { mayChangeParties, maySettle } from '@backsight/domain/jobs/decide';
import type { NeedKind, NeedState } from '@backsight/domain/jobs/words';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import { lockJob, updateNeed } from '@backsight/store/jobs/jobs';
import type { Act, Work } from '../run.ts';
import { noteJob } from './steps/loadJob.ts';

/** `who` agreed or refused, `how` one gets in or what was said; words that only the job page shows. */
export type NeedInput = { jobId: string; version: number; kind: NeedKind; state: NeedState; who: string; how: string };

export const settleNeed: Act<NeedInput, { id: string; version: number }> = { operation: 'jobs.need', run: settle };

async function settle(work: Work, input: NeedInput): Promise<Outcome<{ id: string; version: number }>> {
  const job = await lockJob(work.tx, input.jobId);
  if (!job) return refuse('not-found', { thing: 'job' });
  if (job.version !== input.version) return refuse('changed-meanwhile');
  const may = maySettle(input.kind, input.state, work.actor.kind === 'person' ? work.actor.roles : []);
  if (!may.ok) return may;
  const allowed = mayChangeParties(job.state);
  if (!allowed.ok) return allowed;
  const details = { ...(input.who ? { who: input.who } : {}), ...(input.how ? { how: input.how } : {}) };
  const by = work.actor.kind === 'person' ? work.actor.id : null;
  if (!(await updateNeed(work.tx, job.id, input.kind, { state: input.state, details, at: work.now, by })))
    return refuse('not-found', { thing: 'item' });
  const version = await noteJob(work, job.id, job.state, { kind: 'need', details: { need: input.kind, state: input.state } });
  await work.did('job', job.id, { need: input.kind, state: input.state });
  return accept({ id: job.id, version });
}

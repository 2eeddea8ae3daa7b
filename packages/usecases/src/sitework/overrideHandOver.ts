// Lets a report leave although signature or fee is missing, with the reason and what was missing kept.
import { mayLetHandOver } from '@backsight/domain/sitework/report';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { saveHandOverOverride } from '@backsight/store/sitework/register';
import { findReportJob } from '@backsight/store/sitework/report';
import type { Act } from '../run.ts';
import { handOverFacts } from './steps/handOverFacts.ts';

export const overrideHandOver: Act<{ id: string; jobId: string; reason: string }, { id: string; missing: string[] }> = {
  operation: 'sitework.override-hand-over',
  run: async (work, { id, jobId, reason }) => {
    const job = await findReportJob(work.tx, jobId);
    if (!job) return refuse('not-found', { thing: 'job' });
    const allowed = mayLetHandOver(await handOverFacts(work.tx, job), reason);
    if (!allowed.ok) return allowed;
    if (work.actor.kind !== 'person') return refuse('not-allowed');
    const missing = allowed.value;
    await saveHandOverOverride(work.tx, { id, jobId, missing, reason: reason.trim(), actorId: work.actor.id, at: work.now });
    await work.did('job', jobId, { handOverOverride: id, missing });
    return accept({ id, missing });
  },
};

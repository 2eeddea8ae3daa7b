// Issues the agreement of a job when the office asks for it.
import { mayPaper } from '@backsight/domain/jobs/decide';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import type { Warning } from '@backsight/domain/shared/outcome';
import { lockJob } from '@backsight/store/jobs/jobs';
import type { Act } from '../run.ts';
import { issueAgreement } from './steps/issueAgreement.ts';

export const issueAgreementOfJob: Act<{ jobId: string; publicUrl: string }, { agreementId: string; warnings: Warning[] }> = {
  operation: 'agreements.issue',
  run: async (work, input) => {
    const job = await lockJob(work.tx, input.jobId);
    if (!job) return refuse('not-found', { thing: 'job' });
    const allowed = mayPaper(job.state);
    if (!allowed.ok) return allowed;
    const issued = await issueAgreement(work, input);
    if (!issued.ok) return issued;
    await work.did('job', input.jobId, { agreementId: issued.value.agreementId });
    return accept({ agreementId: issued.value.agreementId, warnings: issued.warnings }, issued.warnings);
  },
};

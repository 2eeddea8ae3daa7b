// Issues the invoice of a job when the office asks for it.
import type { Act } from '../run.ts';
import { mayPaper } from '@backsight/domain/jobs/decide';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { lockJob } from '@backsight/store/jobs/jobs';
import { issueInvoice, type Issued } from './steps/issueInvoice.ts';

export const issueInvoiceOfJob: Act<{ jobId: string }, Issued> = {
  operation: 'fees.issue',
  run: async (work, { jobId }) => {
    const job = await lockJob(work.tx, jobId);
    if (!job) return refuse('not-found', { thing: 'job' });
    const allowed = mayPaper(job.state);
    if (!allowed.ok) return allowed;
    const issued = await issueInvoice(work, jobId);
    if (!issued.ok) return issued;
    await work.did('job', jobId, { invoiceId: issued.value.invoiceId });
    return accept(issued.value, issued.warnings);
  },
};

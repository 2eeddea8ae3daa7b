// Issues the invoice of a job when the office asks for it.
import type { Act } from '../run.ts';
import { accept } from '@backsight/domain/shared/outcome';
import { issueInvoice, type Issued } from './steps/issueInvoice.ts';

export const issueInvoiceOfJob: Act<{ jobId: string }, Issued> = {
  operation: 'fees.issue',
  run: async (work, { jobId }) => {
    const issued = await issueInvoice(work, jobId);
    if (!issued.ok) return issued;
    await work.did('job', jobId, { invoiceId: issued.value.invoiceId });
    return accept(issued.value, issued.warnings);
  },
};

// Outside providers of a job hear of nothing by mail: somebody calls them.
import type { ReactNode } from 'react';
import type { JobPage as Job } from '@backsight/contract/jobs';

export function TellProviders({ job }: { job: Job }): ReactNode {
  const names = [...new Set(job.services.flatMap(({ provider }) => provider ?? []))];
  return names.length === 0 ? null : <p>Call {names.join(' and ')}: they come to this job too, and no mail goes to them.</p>;
}

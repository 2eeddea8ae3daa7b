// Calls about holds on the evidence of a job.
import { queryOptions } from '@tanstack/react-query';
import { holdRoutes as routes } from '@backsight/contract/callbacks/holds';
import { call } from './call.ts';

export const holdQuery = (jobId: string) =>
  queryOptions({ queryKey: ['holds', jobId], queryFn: ({ signal }) => call(routes.ofJob, { params: { id: jobId }, signal }) });
export const holdEvidence = ({ jobId, ...body }: { jobId: string; holdId: string; words: string }) =>
  call(routes.hold, { params: { id: jobId }, body });
export const liftHold = ({ holdId, words }: { holdId: string; words: string }) =>
  call(routes.lift, { params: { id: holdId }, body: { words } });

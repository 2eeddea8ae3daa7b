// Calls about the files of a job.
import { queryOptions } from '@tanstack/react-query';
import { jobFileRoutes as routes } from '@backsight/contract/jobs/files';
import type { BodyOf } from '@backsight/contract/route';
import { call } from './call.ts';

export const jobFilesQuery = (id: string) =>
  queryOptions({ queryKey: ['job-files', id], queryFn: ({ signal }) => call(routes.list, { params: { id }, signal }) });
export const makeJobFile = ({ jobId, ...body }: BodyOf<typeof routes.make> & { jobId: string }) =>
  call(routes.make, { params: { id: jobId }, body, key: body.id });
export const fileItemsQuery = (id: string) =>
  queryOptions({ queryKey: ['job-files', id, 'items'], queryFn: ({ signal }) => call(routes.items, { params: { id }, signal }) });
export const reviewJobFile = ({ id, key, ...body }: BodyOf<typeof routes.review> & { id: string; key: string }) =>
  call(routes.review, { params: { id }, body, key });

// Calls of the owner's page, of the rows behind its numbers, and of claim windows.
import { queryOptions } from '@tanstack/react-query';
import { ownerRoutes as routes } from '@backsight/contract/liability/owner';
import type { QueryOf } from '@backsight/contract/route';
import { windowRoutes } from '@backsight/contract/liability/windows';
import { call } from './call.ts';

export type EntriesSearch = QueryOf<typeof routes.entries>;
export type OpenSearch = QueryOf<typeof routes.openCallbacks>;
export type DaysSearch = QueryOf<typeof routes.overrides>;
export type WindowJobsSearch = QueryOf<typeof windowRoutes.jobs>;

export const ownerQuery = queryOptions({ queryKey: ['liability'], queryFn: ({ signal }) => call(routes.page, { signal }) });
export const moneyEntriesQuery = (query: EntriesSearch) =>
  queryOptions({ queryKey: ['liability', 'entries', query], queryFn: ({ signal }) => call(routes.entries, { query, signal }) });
export const openCallbacksQuery = (query: OpenSearch) =>
  queryOptions({ queryKey: ['liability', 'open', query], queryFn: ({ signal }) => call(routes.openCallbacks, { query, signal }) });
export const monthCallbacksQuery = (query: { inspected: string }) =>
  queryOptions({ queryKey: ['liability', 'callbacks', query], queryFn: ({ signal }) => call(routes.callbacks, { query, signal }) });
export const overridesQuery = (query: DaysSearch) =>
  queryOptions({ queryKey: ['liability', 'overrides', query], queryFn: ({ signal }) => call(routes.overrides, { query, signal }) });
export const heldJobsQuery = queryOptions({ queryKey: ['liability', 'held'], queryFn: ({ signal }) => call(routes.held, { signal }) });
export const cashQuery = queryOptions({ queryKey: ['liability', 'cash'], queryFn: ({ signal }) => call(routes.cash, { signal }) });
export const windowsQuery = queryOptions({
  queryKey: ['liability', 'windows'],
  queryFn: ({ signal }) => call(windowRoutes.page, { signal }),
});
export const windowJobsQuery = (query: WindowJobsSearch) =>
  queryOptions({ queryKey: ['liability', 'windows', query], queryFn: ({ signal }) => call(windowRoutes.jobs, { query, signal }) });
export const unsignedStartsQuery = (query: DaysSearch) =>
  queryOptions({
    queryKey: ['liability', 'unsigned', query],
    queryFn: ({ signal }) => call(windowRoutes.unsignedStarts, { query, signal }),
  });

// Calls about the audit trail.
import { infiniteQueryOptions, queryOptions } from '@tanstack/react-query';
import { auditRoutes as routes } from '@backsight/contract/audit';
import { call } from './call.ts';

/** The trail, page by page; `thingKind` and `thingId` narrow it. */
export const auditQuery = (thing: { thingKind?: string; thingId?: string }) =>
  infiniteQueryOptions({
    queryKey: ['audit', thing],
    queryFn: ({ pageParam, signal }) => call(routes.list, { query: pageParam === '' ? thing : { ...thing, before: pageParam }, signal }),
    initialPageParam: '',
    getNextPageParam: (page) => page.next,
  });
export const auditCheckQuery = queryOptions({
  queryKey: ['audit-check'],
  queryFn: ({ signal }) => call(routes.check, { signal }),
  enabled: false,
  gcTime: 0,
});

// Calls about looking through callbacks.
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { likelyRoutes } from '@backsight/contract/callbacks/likely';
import { callbackListRoutes as routes, type CallbackFind } from '@backsight/contract/callbacks/lists';
import type { QueryOf } from '@backsight/contract/route';
import { call } from './call.ts';

export type CallbackSearch = QueryOf<typeof routes.list>;
export type GroupSearch = QueryOf<typeof routes.groups>;

export const callbacksQuery = (query: CallbackSearch) =>
  queryOptions({
    queryKey: ['callbacks', 'list', query],
    queryFn: ({ signal }) => call(routes.list, { query, signal }),
    placeholderData: keepPreviousData,
  });
export const callbackGroupsQuery = (query: GroupSearch) =>
  queryOptions({ queryKey: ['callbacks', 'groups', query], queryFn: ({ signal }) => call(routes.groups, { query, signal }) });

/** Address of the table of those that fit. */
export const callbackTable = (find: CallbackFind, besides: { opinions?: 'yes'; money?: 'yes' }): string => {
  const parts = Object.entries({ ...find, ...besides }).filter(([, value]) => value !== undefined);
  return `${routes.table.path}?${new URLSearchParams(parts.map(([key, value]) => [key, String(value)]))}`;
};

/** Worked out at each look, and dropped from memory as soon as nobody looks. */
export const likelyQuery = (id: string, q: string) =>
  queryOptions({
    queryKey: ['callbacks', id, 'likely', q],
    queryFn: ({ signal }) => call(likelyRoutes.read, { params: { id }, query: q === '' ? {} : { q }, signal }),
    placeholderData: keepPreviousData,
    gcTime: 0,
  });

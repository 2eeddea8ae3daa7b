// Calls about looking through callbacks.
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { likelyRoutes } from '@backsight/contract/callbacks/likely';
import { call } from './call.ts';

/** Worked out at each look, and dropped from memory as soon as nobody looks. */
export const likelyQuery = (id: string, q: string) =>
  queryOptions({
    queryKey: ['callbacks', id, 'likely', q],
    queryFn: ({ signal }) => call(likelyRoutes.read, { params: { id }, query: q === '' ? {} : { q }, signal }),
    placeholderData: keepPreviousData,
    gcTime: 0,
  });

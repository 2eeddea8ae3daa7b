// The call of the go-to box.
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { findRoutes } from '@backsight/contract/find';
import { call } from './call.ts';

/** What was found before stays on the screen until the next answer is there. */
export const findQuery = (q: string) =>
  queryOptions({
    queryKey: ['find', q],
    queryFn: ({ signal }) => call(findRoutes.find, { query: { q }, signal }),
    enabled: q !== '',
    staleTime: 10_000,
    placeholderData: keepPreviousData,
  });

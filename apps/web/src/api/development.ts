// Calls about how callbacks and their cost develop by period of inspection.
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { developmentRoutes as routes } from '@backsight/contract/liability/development';
import type { QueryOf } from '@backsight/contract/route';
import { call } from './call.ts';

/** What the address says is sent as it is, so that a wrong word is told. */
export type DevelopmentSearch = NonNullable<QueryOf<typeof routes.page>>;

export const developmentQuery = (query: DevelopmentSearch) =>
  queryOptions({
    queryKey: ['liability', 'development', query],
    queryFn: ({ signal }) => call(routes.page, { query, signal }),
    placeholderData: keepPreviousData,
  });

// The call for the home.
import { queryOptions } from '@tanstack/react-query';
import { homeRoutes } from '@backsight/contract/home';
import { call } from './call.ts';

export const homeQuery = queryOptions({
  queryKey: ['home'],
  queryFn: ({ signal }) => call(homeRoutes.home, { signal }),
  refetchInterval: 60_000,
});

// The call for the home.
import { queryOptions } from '@tanstack/react-query';
import { homeRoutes, type FirstStep, type HomeKey } from '@backsight/contract/home';
import { call } from './call.ts';

/** The first lines of every list; with a key, all lines of that list. */
export const homeQuery = (list?: HomeKey) =>
  queryOptions({
    queryKey: ['home', list ?? 'all'],
    queryFn: ({ signal }) => call(homeRoutes.home, { query: { list }, signal }),
    refetchInterval: 60_000,
  });

/** Leaves these first steps of the firm, and no others. */
export const leaveSteps = (steps: FirstStep[]) => call(homeRoutes.leaveSteps, { body: { steps } });

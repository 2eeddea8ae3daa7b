// Calls about the figures of the steps.
import { queryOptions } from '@tanstack/react-query';
import { liabilityRoutes as routes } from '@backsight/contract/liability';
import { call } from './call.ts';

export const stepFiguresQuery = queryOptions({ queryKey: ['liability', 'steps'], queryFn: ({ signal }) => call(routes.steps, { signal }) });

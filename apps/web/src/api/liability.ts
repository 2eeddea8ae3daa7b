// Calls about what the firm owes and the figures of its steps.
import { queryOptions } from '@tanstack/react-query';
import { liabilityRoutes as routes } from '@backsight/contract/liability';
import { call } from './call.ts';

export const liabilityQuery = queryOptions({ queryKey: ['liability'], queryFn: ({ signal }) => call(routes.page, { signal }) });
export const stepFiguresQuery = queryOptions({ queryKey: ['liability', 'steps'], queryFn: ({ signal }) => call(routes.steps, { signal }) });

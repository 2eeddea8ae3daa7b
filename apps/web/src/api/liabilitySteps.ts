// Calls about the figures of the steps.
import { queryOptions } from '@tanstack/react-query';
import { liabilityStepRoutes as routes, type STEP_TABLES } from '@backsight/contract/liability/steps';
import { addressOf, call } from './call.ts';

/** Months of inspection YYYY-MM; left out: all. */
export type StepsWanted = { from?: string; until?: string; system?: string };

export const stepsQuery = (query: StepsWanted) =>
  queryOptions({ queryKey: ['liability', 'steps', query], queryFn: ({ signal }) => call(routes.list, { query, signal }) });
export const stepsTableAddress = (query: StepsWanted): string => addressOf(routes.table.path, {}, query);
export const stepQuery = (key: string) =>
  queryOptions({ queryKey: ['liability', 'step', key], queryFn: ({ signal }) => call(routes.one, { params: { key }, signal }) });
export const stepTableAddress = (key: string, of: (typeof STEP_TABLES)[number]): string => addressOf(routes.oneTable.path, { key }, { of });

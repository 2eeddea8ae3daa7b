// Calls about the figures of the steps.
import { queryOptions } from '@tanstack/react-query';
import { liabilityStepRoutes as routes } from '@backsight/contract/liability/steps';
import { stepTables } from '@backsight/contract/liability/stepTables';
import { call } from './call.ts';
import { tableAddress } from './tables.ts';

/** Months of inspection YYYY-MM; left out: all. */
export type StepsWanted = { from?: string; until?: string; system?: string };

export const stepsQuery = (query: StepsWanted) =>
  queryOptions({ queryKey: ['liability', 'steps', query], queryFn: ({ signal }) => call(routes.list, { query, signal }) });
export const stepsTableAddress = (query: StepsWanted): string => tableAddress(stepTables.list, 'steps', query);
export const stepQuery = (key: string) =>
  queryOptions({ queryKey: ['liability', 'step', key], queryFn: ({ signal }) => call(routes.one, { params: { key }, signal }) });
export type StepTable = keyof typeof stepTables.one.make;
export const stepTableAddress = (key: string, of: StepTable): string => tableAddress(stepTables.one, of, {}, { key });

// Calls about how often callbacks come, and about people and pairs beside what was to be expected.
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { frequencyRoutes as routes } from '@backsight/contract/liability/frequency';
import { frequencyTables, peopleTables } from '@backsight/contract/liability/frequencyTables';
import { peopleFigureRoutes } from '@backsight/contract/liability/people';
import type { QueryOf } from '@backsight/contract/route';
import { call } from './call.ts';
import { tableAddress } from './tables.ts';

/** What the address says is sent as it is, so that a wrong word is told. */
export type FrequencySearch = NonNullable<QueryOf<typeof routes.page>>;
type Span = Pick<FrequencySearch, 'from' | 'until'>;

export const frequencyQuery = (query: FrequencySearch) =>
  queryOptions({
    queryKey: ['liability', 'frequency', query],
    queryFn: ({ signal }) => call(routes.page, { query, signal }),
    placeholderData: keepPreviousData,
  });
export const peopleFiguresQuery = (query: Span) =>
  queryOptions({
    queryKey: ['liability', 'people', query],
    queryFn: ({ signal }) => call(peopleFigureRoutes.page, { query, signal }),
    placeholderData: keepPreviousData,
  });
export const ownFiguresQuery = (query: Span) =>
  queryOptions({
    queryKey: ['liability', 'own', query],
    queryFn: ({ signal }) => call(peopleFigureRoutes.own, { query, signal }),
    placeholderData: keepPreviousData,
  });

/** Where the tables are read. */
export const frequencyTable = (table: keyof typeof frequencyTables.page.make, span: Span): string =>
  tableAddress(frequencyTables.page, table, span);
export const peopleTable = (table: keyof typeof peopleTables.page.make, span: Span): string => tableAddress(peopleTables.page, table, span);

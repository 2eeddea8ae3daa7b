// Calls about outlooks.
import { queryOptions } from '@tanstack/react-query';
import { outlookRoutes as routes } from '@backsight/contract/liability/outlook';
import type { BodyOf, QueryOf } from '@backsight/contract/route';
import { call } from './call.ts';

export type OutlookAsked = QueryOf<typeof routes.read>;

export const outlookQuery = (asked: OutlookAsked) =>
  queryOptions({ queryKey: ['liability', 'outlook', asked], queryFn: ({ signal }) => call(routes.read, { query: asked, signal }) });
export const keptOutlooksQuery = queryOptions({
  queryKey: ['liability', 'outlooks'],
  queryFn: ({ signal }) => call(routes.kept, { signal }),
});

export const keepOutlook = (body: BodyOf<typeof routes.keep>) => call(routes.keep, { body });
export const removeOutlook = (id: string) => call(routes.remove, { params: { id } });

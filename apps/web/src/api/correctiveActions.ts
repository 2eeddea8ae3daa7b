// Calls about one corrective action: its page, its effect, its review, the same gap on other jobs.
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { actionRoutes } from '@backsight/contract/callbacks/actions';
import { changeRoutes as routes } from '@backsight/contract/callbacks/change';
import type { BodyOf, QueryOf } from '@backsight/contract/route';
import { call } from './call.ts';

const KEY = ['callbacks', 'action'] as const;

export const actionQuery = (id: string) =>
  queryOptions({ queryKey: [...KEY, id], queryFn: ({ signal }) => call(routes.one, { params: { id }, signal }) });
export const effectQuery = (id: string, days: number | null) =>
  queryOptions({
    queryKey: [...KEY, id, 'effect', days],
    queryFn: ({ signal }) => call(routes.effect, { params: { id }, query: days === null ? {} : { days }, signal }),
    placeholderData: keepPreviousData,
  });
export type ElsewhereSearch = QueryOf<typeof routes.elsewhere>;
export const elsewhereQuery = (id: string, query: ElsewhereSearch) =>
  queryOptions({
    queryKey: [...KEY, id, 'elsewhere', query],
    queryFn: ({ signal }) => call(routes.elsewhere, { params: { id }, query, signal }),
    placeholderData: keepPreviousData,
  });
export const concludedQuery = queryOptions({
  queryKey: ['callbacks', 'concluded'],
  queryFn: ({ signal }) => call(routes.concluded, { signal }),
});

type Of<B> = B & { id: string };
const split = <B extends object>({ id, ...body }: Of<B>) => ({ params: { id }, body: body as unknown as B });

export const finishAction = (sent: Of<BodyOf<typeof actionRoutes.finish>>) => call(actionRoutes.finish, split(sent));
export const planAction = (sent: Of<BodyOf<typeof routes.plan>>) => call(routes.plan, split(sent));
export const reviewAction = (sent: Of<BodyOf<typeof routes.review>>) => call(routes.review, split(sent));
export const lookElsewhere = (sent: Of<BodyOf<typeof routes.look>>) => call(routes.look, split(sent));
export const tellElsewhere = (sent: Of<BodyOf<typeof routes.tell>>) => call(routes.tell, split(sent));

// Calls about starts, visits and the week.
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { scheduleRoutes as routes } from '@backsight/contract/schedule';
import type { BodyOf } from '@backsight/contract/route';
import { call } from './call.ts';

export type StartsAsk = BodyOf<typeof routes.starts>;
export type ChosenStart = BodyOf<typeof routes.move>;

export const startsQuery = (body: StartsAsk | null) =>
  queryOptions({
    queryKey: ['starts', body],
    queryFn: ({ signal }) => call(routes.starts, { body: body!, signal }),
    enabled: body !== null,
    placeholderData: keepPreviousData,
    staleTime: 15_000,
  });
export const weekQuery = (from: string) =>
  queryOptions({
    queryKey: ['week', from],
    queryFn: ({ signal }) => call(routes.week, { query: { from }, signal }),
    placeholderData: keepPreviousData,
  });

export const moveVisit = (sent: { id: string; version: number; start: ChosenStart; waive?: boolean; waiver?: string }) =>
  call(routes.move, {
    params: { id: sent.id },
    version: sent.version,
    body: { ...sent.start, waive: sent.waive ?? false, waiver: sent.waiver ?? '' },
  });
export const addVisit = (sent: { jobId: string; kind: string; start: ChosenStart; key: string }) =>
  call(routes.addVisit, { params: { id: sent.jobId }, body: { kind: sent.kind, start: sent.start }, key: sent.key });

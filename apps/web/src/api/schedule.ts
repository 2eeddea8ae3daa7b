// Calls about starts, visits and the week.
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { scheduleRoutes as routes } from '@backsight/contract/schedule';
import type { BodyOf } from '@backsight/contract/route';
import { call } from './call.ts';

export type StartsAsk = BodyOf<typeof routes.starts>;
export type ChosenStart = BodyOf<typeof routes.addVisit>['start'];

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

type Move = Omit<BodyOf<typeof routes.move>, keyof ChosenStart> & { id: string; version: number; start: ChosenStart };
export const moveVisit = ({ id, version, start, ...wish }: Move) =>
  call(routes.move, { params: { id }, version, body: { ...start, ...wish } });
/** What a move would come to: its refusal or its consequences. Nothing is asked as long as there is no start. */
export const rehearsalQuery = (visit: { id: string; version: number }, start: ChosenStart | null) =>
  queryOptions({
    queryKey: ['visit', visit.id, 'rehearsal', visit.version, start],
    queryFn: ({ signal }) => call(routes.rehearseMove, { params: { id: visit.id }, version: visit.version, body: start!, signal }),
    enabled: start !== null,
    staleTime: 5_000,
    gcTime: 30_000,
  });
/** What a move to a start makes of the fee. */
export const moveFeeQuery = (id: string, startsAt: string) =>
  queryOptions({
    queryKey: ['visit', id, 'move', startsAt],
    queryFn: ({ signal }) => call(routes.previewMove, { params: { id }, body: { startsAt }, signal }),
    staleTime: 15_000,
  });
export const addVisit = (sent: { jobId: string; kind: string; start: ChosenStart; key: string }) =>
  call(routes.addVisit, { params: { id: sent.jobId }, body: { kind: sent.kind, start: sent.start }, key: sent.key });

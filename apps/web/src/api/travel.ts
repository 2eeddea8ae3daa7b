// Calls about driving times, recorded drives and places of properties.
import { queryOptions } from '@tanstack/react-query';
import { travelRoutes as routes } from '@backsight/contract/schedule/travel';
import type { BodyOf, QueryOf } from '@backsight/contract/route';
import { call } from './call.ts';

export type NewTravelRule = BodyOf<typeof routes.addRule>;
export type DriveMark = BodyOf<typeof routes.mark>;

export const travelQuery = queryOptions({ queryKey: ['travel'], queryFn: ({ signal }) => call(routes.travel, { signal }) });
export const addTravelRule = ({ key, ...body }: NewTravelRule & { key: string }) =>
  call(routes.addRule, { body: body as NewTravelRule, key });
export const endTravelRule = (id: string) => call(routes.endRule, { params: { id } });
export const refitTravel = ({ id, key }: { id: string; key: string }) => call(routes.refit, { body: { id }, key });
export const chooseFit = ({ version, ...body }: BodyOf<typeof routes.use> & { version: number }) => call(routes.use, { version, body });

export const markDrive = ({ visitId, key, ...body }: DriveMark & { visitId: string; key: string }) =>
  call(routes.mark, { params: { id: visitId }, body, key });

export const placeQuery = (query: QueryOf<typeof routes.placeOf> | null) =>
  queryOptions({
    queryKey: ['place', query],
    queryFn: ({ signal }) => call(routes.placeOf, { query: query!, signal }),
    enabled: query !== null,
    staleTime: Infinity,
    retry: false,
  });
export const setPlace = ({ id, version, ...body }: BodyOf<typeof routes.setPlace> & { id: string; version: number }) =>
  call(routes.setPlace, { params: { id }, version, body });

export const setState = ({ id, version, ...body }: BodyOf<typeof routes.setState> & { id: string; version: number }) =>
  call(routes.setState, { params: { id }, version, body });

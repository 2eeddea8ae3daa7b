// Calls about the firm: set-up, settings, offices, closed days, insurance, authority.
import { queryOptions } from '@tanstack/react-query';
import { firmRoutes as routes, setUpRoutes } from '@backsight/contract/firm';
import type { BodyOf } from '@backsight/contract/route';
import { call } from './call.ts';

export type SetUp = BodyOf<typeof setUpRoutes.setUp>;
export type FirmChange = BodyOf<typeof routes.change>;
export type OfficeChange = BodyOf<typeof routes.changeOffice>;
export type NewPolicy = BodyOf<typeof routes.addPolicy>;
export type NewLoan = BodyOf<typeof routes.lend>;
export type LimitRole = NewLoan['role'];

export const setUpQuery = queryOptions({
  queryKey: ['set-up'],
  queryFn: ({ signal }) => call(setUpRoutes.state, { signal }),
  staleTime: 60_000,
});
export const setUpFirm = ({ key, ...body }: SetUp & { key: string }) => call(setUpRoutes.setUp, { body, key });

export const firmQuery = queryOptions({ queryKey: ['firm'], queryFn: ({ signal }) => call(routes.firm, { signal }) });
export const authorityQuery = queryOptions({
  queryKey: ['firm', 'authority'],
  queryFn: ({ signal }) => call(routes.authority, { signal }),
});
export const changeFirm = ({ version, change }: { version: number; change: FirmChange }) => call(routes.change, { version, body: change });
export const changeOffice = ({ id, ...body }: OfficeChange & { id: string }) => call(routes.changeOffice, { params: { id }, body });
export const closeDay = ({ day, name }: { day: string; name: string }) => call(routes.closeDay, { params: { day }, body: { name } });
export const openDay = (day: string) => call(routes.openDay, { params: { day } });
export const addPolicy = ({ key, ...body }: NewPolicy & { key: string }) => call(routes.addPolicy, { body, key });
export const endPolicy = ({ id, ...body }: { id: string; endsOn: string; reason: string }) =>
  call(routes.endPolicy, { params: { id }, body });
export const changePolicy = ({ id, ...body }: NewPolicy) => call(routes.changePolicy, { params: { id }, body });
export const setDiscountLimit = ({ role, discountCents }: { role: LimitRole; discountCents: number | null }) =>
  call(routes.setDiscountLimit, { params: { role }, body: { discountCents } });
export const setLimit = ({ role, limitCents }: { role: LimitRole; limitCents: number | null }) =>
  call(routes.setLimit, { params: { role }, body: { limitCents } });
export const lend = ({ key, ...body }: NewLoan & { key: string }) => call(routes.lend, { body, key });
export const endLoan = (id: string) => call(routes.endLoan, { params: { id } });

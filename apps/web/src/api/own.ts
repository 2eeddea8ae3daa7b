// Calls about one's own work: education hours, miles driven, the private calendar.
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { calendarRoutes, educationRoutes, mileageRoutes } from '@backsight/contract/people/own';
import type { BodyOf } from '@backsight/contract/route';
import { addressOf, call } from './call.ts';

type Keyed = { key: string; personId: string };

export const educationQuery = (id: string) =>
  queryOptions({ queryKey: ['people', id, 'education'], queryFn: ({ signal }) => call(educationRoutes.list, { params: { id }, signal }) });
export const addEducation = ({ key, personId, ...body }: BodyOf<typeof educationRoutes.add> & Keyed) =>
  call(educationRoutes.add, { params: { id: personId }, body, key });
export const withdrawEducation = (id: string) => call(educationRoutes.withdraw, { params: { id } });
/** Where the certificate of an entry is read. */
export const certificateAddress = (id: string): string => addressOf(educationRoutes.certificate.path, { id });

type Period = { from: string; to: string; personId?: string | null };
export const mileageQuery = (period: Period) =>
  queryOptions({
    queryKey: ['mileage', period],
    queryFn: ({ signal }) => call(mileageRoutes.list, { query: period, signal }),
    placeholderData: keepPreviousData,
  });
/** Where the list for repayment is read as a table. */
export const mileageTableAddress = (period: Period): string => addressOf(mileageRoutes.export.path, {}, period);
export const enterMileage = ({ key, personId, ...body }: BodyOf<typeof mileageRoutes.enter> & Keyed) =>
  call(mileageRoutes.enter, { params: { id: personId }, body, key });
export const changeMileageRate = (tenthCents: number) => call(mileageRoutes.rate, { body: { tenthCents } });

export const calendarFeedQuery = queryOptions({
  queryKey: ['calendar-feed'],
  queryFn: ({ signal }) => call(calendarRoutes.state, { signal }),
});
export const openCalendarFeed = () => call(calendarRoutes.open, {});
export const closeCalendarFeed = () => call(calendarRoutes.close, {});

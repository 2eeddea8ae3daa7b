// Calls about visits that did not go as booked.
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { deskRoutes } from '@backsight/contract/jobs/desk';
import type { BodyOf } from '@backsight/contract/route';
import { lateRoutes } from '@backsight/contract/schedule/late';
import { endingRoutes } from '@backsight/contract/sitework/endings';
import { testItemRoutes } from '@backsight/contract/sitework/testItems';
import { call, patience } from './call.ts';
import { onPhone, onPhoneToday } from './phone/replies.ts';

export const testItemsQuery = (id: string) =>
  queryOptions({ queryKey: ['jobs', id, 'tests'], queryFn: ({ signal }) => call(testItemRoutes.list, { params: { id }, signal }) });
export const placeTestItem = ({ jobId, key, ...body }: BodyOf<typeof testItemRoutes.place> & { jobId: string; key: string }) =>
  call(testItemRoutes.place, { params: { id: jobId }, body, key });
export const stepTestItem = ({ itemId, key, ...body }: BodyOf<typeof testItemRoutes.step> & { itemId: string; key: string }) =>
  call(testItemRoutes.step, { params: { id: itemId }, body, key });

/** Codes of the house: kept on the phone for the day of the visit, and no longer. */
export const wayInQuery = (id: string, asked: boolean) =>
  queryOptions({
    queryKey: ['my-day', id, 'way-in'],
    queryFn: ({ signal }) => call(deskRoutes.wayIn, { params: { id }, signal }),
    enabled: asked,
    ...onPhoneToday,
  });

export const lateQuery = (id: string, minutes: number) =>
  queryOptions({
    queryKey: ['visit', id, 'late', minutes],
    queryFn: ({ signal }) => call(lateRoutes.preview, { params: { id }, query: { minutes }, signal }),
    placeholderData: keepPreviousData,
  });
export const sayLate = ({ visitId, key, ...body }: BodyOf<typeof lateRoutes.say> & { visitId: string; key: string }) =>
  call(lateRoutes.say, { params: { id: visitId }, body, key });

export const deskRulesQuery = queryOptions({ queryKey: ['desk-rules'], queryFn: ({ signal }) => call(deskRoutes.rules, { signal }) });
export const changeDeskRules = ({ version, rules }: { version: number; rules: BodyOf<typeof deskRoutes.changeRules> }) =>
  call(deskRoutes.changeRules, { version, body: rules });

type Edit<T> = T & { id: string; version: number };

export const deskQuery = (id: string) =>
  queryOptions({ queryKey: ['jobs', id, 'desk'], queryFn: ({ signal }) => call(deskRoutes.desk, { params: { id }, signal }) });
export const endingQuery = (id: string) =>
  queryOptions({
    queryKey: ['visit', id, 'ending'],
    queryFn: ({ signal }) => call(endingRoutes.about, { params: { id }, signal }),
    ...onPhone,
  });

export const endEarly = ({ visitId, key, ...body }: BodyOf<typeof endingRoutes.end> & { visitId: string; key: string }) =>
  call(endingRoutes.end, { params: { id: visitId }, body, key, signal: patience() });
export const noteAttendance = ({ id, version, ...body }: Edit<BodyOf<typeof deskRoutes.attendance>>) =>
  call(deskRoutes.attendance, { params: { id }, version, body });
export const noteAccess = ({ id, version, ...body }: Edit<BodyOf<typeof deskRoutes.access>>) =>
  call(deskRoutes.access, { params: { id }, version, body });
export const bookLook = (sent: { id: string; start: BodyOf<typeof deskRoutes.bookLook>['start']; key: string }) =>
  call(deskRoutes.bookLook, { params: { id: sent.id }, body: { start: sent.start }, key: sent.key });
export const declineLook = (sent: { id: string; key: string }) => call(deskRoutes.declineLook, { params: { id: sent.id }, key: sent.key });
export const chargeEnding = ({ id, version, ...body }: Edit<BodyOf<typeof deskRoutes.chargeEnding>>) =>
  call(deskRoutes.chargeEnding, { params: { id }, version, body });
export const answerReportOwed = ({ id, version, ...body }: Edit<BodyOf<typeof deskRoutes.reportOwed>>) =>
  call(deskRoutes.reportOwed, { params: { id }, version, body });
export const bookAgain = ({ id, version, ...body }: Edit<BodyOf<typeof deskRoutes.bookAgain>>) =>
  call(deskRoutes.bookAgain, { params: { id }, version, body });

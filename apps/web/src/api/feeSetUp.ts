// Calls about what the firm charges and offers, prices asked, and pay.
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { payRoutes } from '@backsight/contract/fees/pay';
import { scheduleRoutes } from '@backsight/contract/fees/schedules';
import { inquiryRoutes } from '@backsight/contract/jobs/inquiries';
import { serviceRoutes } from '@backsight/contract/jobs/services';
import { waiverRoutes } from '@backsight/contract/jobs/waivers';
import type { BodyOf } from '@backsight/contract/route';
import { addressOf, call } from './call.ts';

type Edit<T> = T & { id: string; version: number };

export const schedulesQuery = queryOptions({ queryKey: ['fee-schedules'], queryFn: ({ signal }) => call(scheduleRoutes.list, { signal }) });
export const scheduleQuery = (id: string, beside?: string) =>
  queryOptions({
    queryKey: ['fee-schedules', id, beside ?? ''],
    queryFn: ({ signal }) => call(scheduleRoutes.one, { params: { id }, query: beside ? { beside } : {}, signal }),
  });
export const draftSchedule = ({ key, ...body }: BodyOf<typeof scheduleRoutes.draft> & { key: string }) =>
  call(scheduleRoutes.draft, { body, key });
export const changeSchedule = ({ id, version, ...body }: Edit<BodyOf<typeof scheduleRoutes.change>>) =>
  call(scheduleRoutes.change, { params: { id }, version, body });
export const putInForce = ({ id, version, fromDay }: Edit<{ fromDay: string }>) =>
  call(scheduleRoutes.putInForce, { params: { id }, version, body: { fromDay } });
export const dropSchedule = ({ id, version }: Edit<object>) => call(scheduleRoutes.drop, { params: { id }, version, body: {} });
export type WhatIfBody = BodyOf<typeof scheduleRoutes.whatIf>;
export const whatIfQuery = (body: WhatIfBody) =>
  queryOptions({
    queryKey: ['fee-what-if', body],
    queryFn: ({ signal }) => call(scheduleRoutes.whatIf, { body, signal }),
    placeholderData: keepPreviousData,
    retry: false,
  });
export const overJobsQuery = (asked: { id: string; beside: string; from: string; until: string }) =>
  queryOptions({
    queryKey: ['fee-over-jobs', asked],
    queryFn: ({ signal }) => {
      const { id, ...query } = asked;
      return call(scheduleRoutes.overJobs, { params: { id }, query, signal });
    },
  });

export const servicesQuery = queryOptions({ queryKey: ['services'], queryFn: ({ signal }) => call(serviceRoutes.list, { signal }) });
export const addService = ({ idempotency, ...body }: BodyOf<typeof serviceRoutes.add> & { idempotency: string }) =>
  call(serviceRoutes.add, { body, key: idempotency });
export const changeService = ({ key, version, ...body }: BodyOf<typeof serviceRoutes.change> & { key: string; version: number }) =>
  call(serviceRoutes.change, { params: { key }, version, body });

export const minutesQuery = queryOptions({ queryKey: ['minutes'], queryFn: ({ signal }) => call(serviceRoutes.minutes, { signal }) });
export const changeMinutes = ({ version, minutes }: { version: number; minutes: Record<string, number> }) =>
  call(serviceRoutes.changeMinutes, { version, body: { minutes } });
export const changeVisitKind = ({ key, version, ...body }: BodyOf<typeof serviceRoutes.changeKind> & { key: string; version: number }) =>
  call(serviceRoutes.changeKind, { params: { key }, version, body });

export const inquiriesQuery = queryOptions({ queryKey: ['inquiries'], queryFn: ({ signal }) => call(inquiryRoutes.list, { signal }) });
export const inquiryQuery = (id: string) =>
  queryOptions({ queryKey: ['inquiries', id], queryFn: ({ signal }) => call(inquiryRoutes.one, { params: { id }, signal }) });
export const saveInquiry = ({ key, ...body }: BodyOf<typeof inquiryRoutes.save> & { key: string }) =>
  call(inquiryRoutes.save, { body, key });
export const followUpInquiry = ({ id, version, ...body }: Edit<BodyOf<typeof inquiryRoutes.followUp>>) =>
  call(inquiryRoutes.followUp, { params: { id }, version, body });
export const closeInquiry = ({ id, version, ...body }: Edit<BodyOf<typeof inquiryRoutes.close>>) =>
  call(inquiryRoutes.close, { params: { id }, version, body });

export const waiversQuery = queryOptions({ queryKey: ['waivers'], queryFn: ({ signal }) => call(waiverRoutes.list, { signal }) });

export const payRulesQuery = queryOptions({ queryKey: ['pay', 'rules'], queryFn: ({ signal }) => call(payRoutes.rules, { signal }) });
export const setPayRule = ({ key, ...body }: BodyOf<typeof payRoutes.set> & { key: string }) => call(payRoutes.set, { body, key });
type Period = { from: string; until: string };
export const payQuery = (period: Period) =>
  queryOptions({
    queryKey: ['pay', period],
    queryFn: ({ signal }) => call(payRoutes.statement, { query: period, signal }),
    placeholderData: keepPreviousData,
  });
/** Where the statement is read as a table. */
export const payTableAddress = (period: Period): string => addressOf(payRoutes.csv.path, {}, period);

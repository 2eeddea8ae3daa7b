// Calls about the site record and the client's report.
import { infiniteQueryOptions, queryOptions } from '@tanstack/react-query';
import { siteworkRoutes as routes, type MemberRecord, type NewEntry } from '@backsight/contract/sitework';
import { aheadRoutes, type Ahead } from '@backsight/contract/sitework/ahead';
import { afterSealRoutes } from '@backsight/contract/sitework/afterSeal';
import { doubleLookRoutes } from '@backsight/contract/sitework/doubleLooks';
import { registerRoutes } from '@backsight/contract/sitework/register';
import { reportRoutes } from '@backsight/contract/sitework/reports';
import type { BodyOf } from '@backsight/contract/route';
import { call, patience } from './call.ts';
import { storedRows } from './phone/outbox.ts';
import { onPhone } from './phone/replies.ts';

export const dayQuery = queryOptions({ queryKey: ['my-day'], queryFn: ({ signal }) => call(routes.day, { signal }), ...onPhone });
export const startQuery = (id: string) =>
  queryOptions({ queryKey: ['visit', id, 'start'], queryFn: ({ signal }) => call(routes.start, { params: { id }, signal }), ...onPhone });
export const siteVisitsQuery = (id: string) =>
  queryOptions({ queryKey: ['jobs', id, 'site-visits'], queryFn: ({ signal }) => call(routes.visits, { params: { id }, signal }) });
/** Read as long as there is signal: whatever has changed since it was handed out is handed out anew. */
export const aheadQuery = queryOptions({
  queryKey: ['ahead'],
  queryFn: async ({ signal }): Promise<Ahead> => {
    const ahead = await call(aheadRoutes.ahead, { signal });
    const due = ahead.visits.filter(({ offerId }) => offerId === null);
    for (const { start } of due) await call(aheadRoutes.offer, { params: { id: start.visit.id }, body: {} });
    return due.length === 0 ? ahead : call(aheadRoutes.ahead, { signal });
  },
  staleTime: 60_000,
  refetchInterval: 10 * 60_000,
  ...onPhone,
});
/** `holds`: ids of what this phone had told the service before it asked; the answer holds it, as it is or as something newer. */
export type RecordAsRead = MemberRecord & { holds?: readonly string[] };

/** Kept on the phone, so that a dead spot or a closed browser does not empty the screen. */
export const recordQuery = (id: string) =>
  queryOptions({
    queryKey: ['record', id],
    queryFn: async ({ signal }): Promise<RecordAsRead> => {
      const holds = storedRows(id);
      return { ...(await call(routes.record, { params: { id }, signal })), holds };
    },
    ...onPhone,
    refetchInterval: 30_000,
  });
/** A mark that changes with everything that is added to the record: asked often by whoever waits for the partner. */
export const standQuery = (id: string) =>
  queryOptions({
    queryKey: ['stand', id],
    queryFn: ({ signal }) => call(routes.stand, { params: { id }, signal }),
    refetchInterval: 2500,
    meta: { quietWhenSignedOut: true }, // the record itself asks to sign in, once
    staleTime: 0,
    retry: false,
  });
export const sealedQuery = (id: string) =>
  queryOptions({ queryKey: ['record', id, 'sealed'], queryFn: ({ signal }) => call(routes.sealed, { params: { id }, signal }) });
export const reportsQuery = (id: string) =>
  queryOptions({ queryKey: ['jobs', id, 'reports'], queryFn: ({ signal }) => call(reportRoutes.list, { params: { id }, signal }) });

type Kept<T> = T & { key: string };
export const openRecord = ({ visitId, key, ...body }: Kept<BodyOf<typeof routes.open> & { visitId: string }>) =>
  call(routes.open, { params: { id: visitId }, body, key });
export const addItem = ({ recordId, key, ...body }: Kept<BodyOf<typeof routes.addItem> & { recordId: string }>) =>
  call(routes.addItem, { params: { id: recordId }, body, key });
export const sendEntries = (recordId: string, deviceId: string, entries: NewEntry[]) =>
  call(routes.enter, { params: { id: recordId }, body: { deviceId, sentAt: new Date().toISOString(), entries }, signal: patience() });
export const draftReport = ({ jobId, key, ...body }: Kept<BodyOf<typeof reportRoutes.draft> & { jobId: string }>) =>
  call(reportRoutes.draft, { params: { id: jobId }, body, key });
export const takeInReport = ({ jobId, key, ...body }: Kept<BodyOf<typeof reportRoutes.takeIn> & { jobId: string }>) =>
  call(reportRoutes.takeIn, { params: { id: jobId }, body, key });
export const handOver = ({ reportId, key, ...body }: Kept<BodyOf<typeof reportRoutes.handOver> & { reportId: string }>) =>
  call(reportRoutes.handOver, { params: { id: reportId }, body, key });

export const recordConsent = ({ jobId, ...body }: BodyOf<typeof registerRoutes.consent> & { jobId: string }) =>
  call(registerRoutes.consent, { params: { id: jobId }, body, key: body.id });
export const letHandOver = ({ jobId, ...body }: BodyOf<typeof registerRoutes.overrideHandOver> & { jobId: string }) =>
  call(registerRoutes.overrideHandOver, { params: { id: jobId }, body, key: body.id });
export const reportRegisterQuery = (days: { from: string; to: string }) =>
  infiniteQueryOptions({
    queryKey: ['report-register', days],
    queryFn: ({ signal, pageParam }) =>
      call(registerRoutes.register, { query: { ...days, limit: 25, ...(pageParam ? { cursor: pageParam } : {}) }, signal }),
    initialPageParam: '',
    getNextPageParam: ({ next }) => next,
  });

export const afterSealQuery = (id: string) =>
  queryOptions({ queryKey: ['record', id, 'after-seal'], queryFn: ({ signal }) => call(afterSealRoutes.read, { params: { id }, signal }) });
export const supplementRecord = ({ recordId, ...body }: BodyOf<typeof afterSealRoutes.supplement> & { recordId: string }) =>
  call(afterSealRoutes.supplement, { params: { id: recordId }, body, key: body.id });
export const giveOutRecord = ({ recordId, ...body }: BodyOf<typeof afterSealRoutes.giveOut> & { recordId: string }) =>
  call(afterSealRoutes.giveOut, { params: { id: recordId }, body, key: body.id });

export const doubleLooksQuery = queryOptions({
  queryKey: ['double-looks'],
  queryFn: ({ signal }) => call(doubleLookRoutes.read, { signal }),
});
export const changeDoubleLooks = ({ version, ...body }: BodyOf<typeof doubleLookRoutes.change> & { version: number }) =>
  call(doubleLookRoutes.change, { body, version });

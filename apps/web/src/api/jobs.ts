// Calls about jobs: quote, look-ups, hold, the page of a job and what is done on it.
import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import { jobsRoutes as routes, type NeedKind } from '@backsight/contract/jobs';
import type { BodyOf, QueryOf } from '@backsight/contract/route';
import { call } from './call.ts';

export type QuoteAsk = BodyOf<typeof routes.quote>;
export type HoldBody = BodyOf<typeof routes.hold>;
export type NeedChange = BodyOf<typeof routes.need> & { kind: NeedKind };
export type JobSearch = QueryOf<typeof routes.list>;
export type NewJobParty = BodyOf<typeof routes.addParty>;
export type KnownFacts = BodyOf<typeof routes.learnFacts>['facts'];

export const quoteQuery = (body: QuoteAsk) =>
  queryOptions({
    queryKey: ['quote', body],
    queryFn: ({ signal }) => call(routes.quote, { body, signal }),
    placeholderData: keepPreviousData,
    staleTime: 30_000,
  });
export const townsQuery = queryOptions({
  queryKey: ['towns'],
  queryFn: ({ signal }) => call(routes.towns, { signal }),
  staleTime: Infinity,
});
export const propertyQuery = (query: { address: string; town: string }) =>
  queryOptions({
    queryKey: ['property', query],
    queryFn: ({ signal }) => call(routes.lookUp, { query, signal }),
    enabled: query.address.length > 3 && query.town !== '',
  });
export const partiesQuery = (text: string) =>
  queryOptions({
    queryKey: ['parties', text],
    queryFn: ({ signal }) => call(routes.parties, { query: { text }, signal }),
    enabled: text.length > 2,
  });

export const jobsQuery = (query: JobSearch) =>
  queryOptions({
    queryKey: ['jobs', 'list', query],
    queryFn: ({ signal }) => call(routes.list, { query, signal }),
    placeholderData: keepPreviousData,
  });
export const jobQuery = (id: string) =>
  queryOptions({ queryKey: ['jobs', id], queryFn: ({ signal }) => call(routes.one, { params: { id }, signal }) });

export const markHouse = (sent: { id: string; askOwner: string | null }) =>
  call(routes.markProperty, { params: { id: sent.id }, body: { askOwner: sent.askOwner } });
export const markParty = (sent: { id: string; askOwner: string | null }) =>
  call(routes.markParty, { params: { id: sent.id }, body: { askOwner: sent.askOwner } });
export const holdJob = ({ key, ...body }: HoldBody & { key: string }) => call(routes.hold, { body, key });
export const confirmJob = (sent: { id: string; key: string }) => call(routes.confirm, { params: { id: sent.id }, key: sent.key });
export const issuePapers = (sent: { id: string; key: string }) => call(routes.papers, { params: { id: sent.id }, key: sent.key });
export const cancelJob = ({ id, version, ...body }: BodyOf<typeof routes.cancel> & { id: string; version: number }) =>
  call(routes.cancel, { params: { id }, version, body });
export const settleNeed = ({ id, kind, version, ...body }: NeedChange & { id: string; version: number }) =>
  call(routes.need, { params: { id, kind }, version, body });
export const previewDiscount = ({ id, ...body }: BodyOf<typeof routes.previewDiscount> & { id: string }) =>
  call(routes.previewDiscount, { params: { id }, body });
export const giveDiscount = ({ id, version, ...body }: BodyOf<typeof routes.giveDiscount> & { id: string; version: number }) =>
  call(routes.giveDiscount, { params: { id }, version, body });
export const previewFacts = (sent: { id: string; facts: KnownFacts }) =>
  call(routes.previewFacts, { params: { id: sent.id }, body: { facts: sent.facts } });
export const learnFacts = (sent: { id: string; version: number; facts: KnownFacts }) =>
  call(routes.learnFacts, { params: { id: sent.id }, version: sent.version, body: { facts: sent.facts } });
export const addJobParty = ({ jobId, key, ...body }: NewJobParty & { jobId: string; key: string }) =>
  call(routes.addParty, { params: { id: jobId }, body, key });
export const removeJobParty = (sent: { id: string; jobPartyId: string }) => call(routes.removeParty, { params: sent });
export const changeParty = ({ id, ...body }: BodyOf<typeof routes.changeParty> & { id: string }) =>
  call(routes.changeParty, { params: { id }, body });

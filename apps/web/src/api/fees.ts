// Calls about invoices, payments and the ledger.
import { infiniteQueryOptions, queryOptions } from '@tanstack/react-query';
import { feesRoutes as routes } from '@backsight/contract/fees';
import type { BodyOf } from '@backsight/contract/route';
import { call } from './call.ts';

export type NewPayment = BodyOf<typeof routes.pay>;
export type Reversal = BodyOf<typeof routes.reverse>['reason'];

export const receivablesQuery = queryOptions({
  queryKey: ['money', 'receivables'],
  queryFn: ({ signal }) => call(routes.receivables, { signal }),
});
export const invoiceQuery = (id: string) =>
  queryOptions({ queryKey: ['money', 'invoice', id], queryFn: ({ signal }) => call(routes.one, { params: { id }, signal }) });
export const jobInvoicesQuery = (id: string) =>
  queryOptions({ queryKey: ['money', 'job', id], queryFn: ({ signal }) => call(routes.ofJob, { params: { id }, signal }) });
export const trialBalanceQuery = (until?: string) =>
  queryOptions({
    queryKey: ['money', 'balance', until ?? ''],
    queryFn: ({ signal }) => call(routes.trialBalance, { query: until ? { until } : {}, signal }),
  });
export const entriesQuery = infiniteQueryOptions({
  queryKey: ['money', 'entries'],
  queryFn: ({ signal, pageParam }) => call(routes.entries, { query: { ...(pageParam ? { before: pageParam } : {}) }, signal }),
  initialPageParam: '',
  getNextPageParam: (page) => page.next,
});

export const recordPayment = ({ invoiceId, ...body }: NewPayment & { invoiceId: string }) =>
  call(routes.pay, { params: { id: invoiceId }, body, key: body.id });
export const reversePayment = (sent: { paymentId: string; reason: Reversal; key: string }) =>
  call(routes.reverse, { params: { id: sent.paymentId }, body: { reason: sent.reason }, key: sent.key });

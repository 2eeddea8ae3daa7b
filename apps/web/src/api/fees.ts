// Calls about invoices, payments, terms and statements.
import { queryOptions } from '@tanstack/react-query';
import { feesRoutes as routes } from '@backsight/contract/fees';
import { termsRoutes } from '@backsight/contract/fees/terms';
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
export const recordPayment = ({ invoiceId, ...body }: NewPayment & { invoiceId: string }) =>
  call(routes.pay, { params: { id: invoiceId }, body, key: body.id });
export const reversePayment = ({ paymentId, key, ...body }: { paymentId: string; reason: Reversal; charge: boolean; key: string }) =>
  call(routes.reverse, { params: { id: paymentId }, body, key });

export type Change = BodyOf<typeof routes.creditNote> & { invoiceId: string };
export type Refund = BodyOf<typeof routes.refund> & { invoiceId: string };
export const writeCreditNote = ({ invoiceId, ...body }: Change) =>
  call(routes.creditNote, { params: { id: invoiceId }, body, key: body.id });
export const writeOff = ({ invoiceId, ...body }: Change) => call(routes.writeOff, { params: { id: invoiceId }, body, key: body.id });
export const refundPayment = ({ invoiceId, ...body }: Refund) => call(routes.refund, { params: { id: invoiceId }, body, key: body.id });
export const takeBackAct = ({ actId, key }: { actId: string; key: string }) =>
  call(routes.takeBack, { params: { id: actId }, body: {}, key });
export const issueInvoice = ({ jobId, key }: { jobId: string; key: string }) =>
  call(routes.issue, { params: { id: jobId }, body: {}, key });

export const termsQuery = (id: string) =>
  queryOptions({ queryKey: ['money', 'terms', id], queryFn: ({ signal }) => call(termsRoutes.terms, { params: { id }, signal }) });
export type Terms = BodyOf<typeof termsRoutes.setTerms>;
export const setTerms = ({ jobId, ...body }: Terms & { jobId: string }) => call(termsRoutes.setTerms, { params: { id: jobId }, body });
export type Shares = BodyOf<typeof termsRoutes.setShares>['shares'];
export const setShares = ({ jobId, shares }: { jobId: string; shares: Shares }) =>
  call(termsRoutes.setShares, { params: { id: jobId }, body: { shares } });

export const moneyRulesQuery = queryOptions({
  queryKey: ['money', 'rules'],
  queryFn: ({ signal }) => call(termsRoutes.rules, { signal }),
});
export const changeMoneyRules = ({ version, ...body }: BodyOf<typeof termsRoutes.changeRules> & { version: number }) =>
  call(termsRoutes.changeRules, { body, version });

export type Period = { from?: string | undefined; to?: string | undefined };
export const statementQuery = (id: string, query: Period) =>
  queryOptions({
    queryKey: ['money', 'statement', id, query],
    queryFn: ({ signal }) => call(termsRoutes.statement, { params: { id }, query, signal }),
  });

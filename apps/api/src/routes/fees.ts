// Invoices, payments and the ledger.
import type { FastifyInstance } from 'fastify';
import { feesRoutes as routes } from '@backsight/contract/fees';
import { issueInvoiceOfJob } from '@backsight/usecases/fees/issue';
import { readEntries, readInvoice, readInvoicesOfJob, readReceivables, readTrialBalance } from '@backsight/usecases/fees/reads';
import { recordPayment } from '@backsight/usecases/fees/recordPayment';
import { reversePayment } from '@backsight/usecases/fees/reversePayment';
import { refuse } from '@backsight/domain/shared/outcome';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function feesApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.issue, ({ act, params }) => act(issueInvoiceOfJob, { jobId: params.id }));
  mount(app, services, routes.ofJob, ({ read, params }) => readInvoicesOfJob(read, params.id));
  mount(
    app,
    services,
    routes.one,
    async ({ read, params }) => (await readInvoice(read, params.id)) ?? refuse('not-found', { thing: 'invoice' }),
  );
  mount(app, services, routes.pay, ({ act, params, body }) => act(recordPayment, { ...body, invoiceId: params.id }));
  mount(app, services, routes.reverse, ({ act, params, body }) => act(reversePayment, { paymentId: params.id, reason: body.reason }));
  mount(app, services, routes.receivables, ({ read, now }) => readReceivables(read, now));
  mount(app, services, routes.trialBalance, ({ read, query, now }) => readTrialBalance(read, now, query.until));
  mount(app, services, routes.entries, ({ read, query }) => readEntries(read, query.before ?? null, query.limit));
}

// Invoices, payments, what else happens to an invoice, terms and statements.
import type { FastifyInstance } from 'fastify';
import { feesRoutes as routes } from '@backsight/contract/fees';
import { termsRoutes } from '@backsight/contract/fees/terms';
import { refundPayment, takeBackAct, writeCreditNote, writeOff } from '@backsight/usecases/fees/changeInvoice';
import { evidenceFile } from '@backsight/usecases/fees/evidence';
import { issueInvoiceOfJob } from '@backsight/usecases/fees/issue';
import { creditNotePaper, invoicePaper, receiptPaper, statementPaper } from '@backsight/usecases/fees/papers';
import { readInvoice, readInvoicesOfJob, readReceivables } from '@backsight/usecases/fees/reads';
import { recordPayment } from '@backsight/usecases/fees/recordPayment';
import { reversePayment } from '@backsight/usecases/fees/reversePayment';
import { exportStatement, readStatement } from '@backsight/usecases/fees/statement';
import { changeMoneyRules, readMoneyRules, readTerms, setShares, setTerms } from '@backsight/usecases/fees/terms';
import { refuse } from '@backsight/domain/shared/outcome';
import { mount } from '../http/mount.ts';
import { sendPdf } from '../http/pdf.ts';
import type { Services } from '../http/services.ts';

export function feesApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.issue, async ({ act, params }) => {
    const issued = await act(issueInvoiceOfJob, { jobId: params.id });
    return issued.ok ? { invoiceId: issued.value.invoiceId, number: issued.value.number } : issued;
  });
  mount(app, services, routes.ofJob, ({ read, params }) => readInvoicesOfJob(read, params.id));
  mount(
    app,
    services,
    routes.one,
    async ({ read, params }) => (await readInvoice(read, params.id)) ?? refuse('not-found', { thing: 'invoice' }),
  );
  mount(app, services, routes.pay, ({ act, params, body }) => act(recordPayment, { ...body, invoiceId: params.id }));
  mount(app, services, routes.reverse, ({ act, params, body }) => act(reversePayment, { paymentId: params.id, ...body }));
  mount(app, services, routes.receivables, ({ read, now }) => readReceivables(read, now));
  mount(app, services, routes.creditNote, ({ act, params, body }) => act(writeCreditNote, { ...body, invoiceId: params.id }));
  mount(app, services, routes.writeOff, ({ act, params, body }) => act(writeOff, { ...body, invoiceId: params.id }));
  mount(app, services, routes.refund, ({ act, params, body }) => act(refundPayment, { ...body, invoiceId: params.id }));
  mount(app, services, routes.takeBack, ({ act, params }) => act(takeBackAct, { actId: params.id }));
}

export function moneyPapersApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.paper, ({ read, params, reply }) => sendPdf(reply, invoicePaper(read, params.id)));
  mount(app, services, routes.receipt, ({ read, params, reply }) => sendPdf(reply, receiptPaper(read, params.id)));
  mount(app, services, routes.creditNotePaper, ({ read, params, reply }) => sendPdf(reply, creditNotePaper(read, params.id)));
  mount(app, services, routes.evidence, ({ read, params, now, reply }) => sendPdf(reply, evidenceFile(read, now, params.id)));
  mount(app, services, termsRoutes.statementPaper, ({ read, params, query, now, reply }) =>
    sendPdf(reply, statementPaper(read, now, { partyId: params.id, ...query })),
  );
}

export function termsApi(app: FastifyInstance, services: Services): void {
  mount(
    app,
    services,
    termsRoutes.terms,
    async ({ read, params }) => (await readTerms(read, params.id)) ?? refuse('not-found', { thing: 'job' }),
  );
  mount(app, services, termsRoutes.setTerms, ({ act, params, body }) => act(setTerms, { ...body, jobId: params.id }));
  mount(app, services, termsRoutes.setShares, ({ act, params, body }) => act(setShares, { ...body, jobId: params.id }));
  mount(app, services, termsRoutes.rules, ({ read }) => readMoneyRules(read));
  mount(app, services, termsRoutes.changeRules, ({ act, body, version }) => act(changeMoneyRules, { ...body, version }));
  mount(app, services, termsRoutes.statement, ({ read, params, query, now }) => readStatement(read, now, { partyId: params.id, ...query }));
  mount(app, services, termsRoutes.statementCsv, async ({ read, params, query, now, reply }) => {
    const table = await exportStatement(read, now, { partyId: params.id, ...query });
    if (!table.ok) return table;
    reply.type('text/csv; charset=utf-8; header=present').header('content-disposition', 'attachment; filename="statement.csv"');
    return table.value;
  });
}

// The procedure book over HTTP.
import type { FastifyInstance } from 'fastify';
import { proceduresRoutes as routes } from '@backsight/contract/procedures';
import { procedureTableRoutes as tables } from '@backsight/contract/procedures/table';
import { refuse } from '@backsight/domain/shared/outcome';
import { acknowledgeRevision, answerQuestions } from '@backsight/usecases/procedures/acknowledge';
import { approveRevision, withdrawRevision } from '@backsight/usecases/procedures/approval';
import { changeDraft, discardDraft, draftRevision } from '@backsight/usecases/procedures/drafts';
import { coveragePaper, listDuties, readCoverage } from '@backsight/usecases/procedures/coverage';
import { checkTable, importSteps } from '@backsight/usecases/procedures/importSteps';
import { revisionPaper, revisionTable } from '@backsight/usecases/procedures/revisionPapers';
import { newProcedure } from '@backsight/usecases/procedures/newProcedure';
import { readBook, readProcedure, readToAcknowledge } from '@backsight/usecases/procedures/readBook';
import { readImpact } from '@backsight/usecases/procedures/readImpact';
import { readAcknowledgements, readComparison, readRevision } from '@backsight/usecases/procedures/readRevision';
import { sendPdf } from '../http/pdf.ts';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

const noProcedure = () => refuse('not-found', { thing: 'procedure' });
const noRevision = () => refuse('not-found', { thing: 'revision' });

export function proceduresApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.book, ({ read, now }) => readBook(read, { now }));
  mount(app, services, routes.coverage, ({ read, now, query }) => readCoverage(read, { jurisdiction: query.jurisdiction ?? null, now }));
  mount(app, services, routes.coveragePaper, ({ read, now, query, reply }) =>
    sendPdf(reply, coveragePaper(read, { jurisdiction: query.jurisdiction ?? null, now })),
  );
  mount(app, services, routes.duties, async () => listDuties());
  mount(app, services, routes.mine, ({ read, now, request }) => readToAcknowledge(read, { personId: request.session!.personId, now }));
  mount(
    app,
    services,
    routes.procedure,
    async ({ read, now, params }) => (await readProcedure(read, { id: params.id, now })) ?? noProcedure(),
  );
  mount(app, services, routes.begin, ({ act, body }) => act(newProcedure, body));
  mount(app, services, routes.draft, ({ act, params, body }) => act(draftRevision, { ...body, procedureId: params.id }));
  mount(
    app,
    services,
    routes.revision,
    async ({ read, now, params, actor }) => (await readRevision(read, { id: params.id, now, actor })) ?? noRevision(),
  );
  mount(
    app,
    services,
    routes.comparison,
    async ({ read, now, params }) => (await readComparison(read, { id: params.id, now })) ?? noRevision(),
  );
  mount(
    app,
    services,
    routes.acknowledgements,
    async ({ read, now, params, actor }) => (await readAcknowledgements(read, { id: params.id, now, actor })) ?? noRevision(),
  );
  mount(app, services, routes.impact, async ({ read, now, params }) => (await readImpact(read, { id: params.id, now })) ?? noRevision());
  mount(app, services, routes.change, ({ act, params, body, version }) => act(changeDraft, { ...body, id: params.id, version }));
  mount(app, services, routes.discard, ({ act, params, version }) => act(discardDraft, { id: params.id, version }));
  mount(app, services, routes.approve, ({ act, params, body }) =>
    act(approveRevision, { ...body, id: params.id, publicUrl: services.config.publicUrl }),
  );
  mount(app, services, routes.withdraw, ({ act, params }) => act(withdrawRevision, { id: params.id }));
  mount(app, services, routes.answer, ({ act, params, body }) => act(answerQuestions, { ...body, id: params.id }));
  mount(app, services, routes.acknowledge, ({ act, params, body }) => act(acknowledgeRevision, { ...body, id: params.id }));
  mount(app, services, tables.paper, ({ read, now, params, reply }) => sendPdf(reply, revisionPaper(read, { id: params.id, now })));
  mount(app, services, tables.table, async ({ read, now, params, reply }) => {
    const table = await revisionTable(read, { id: params.id, now });
    if (!table.ok) return table;
    reply.type('text/csv; charset=utf-8; header=present').header('content-disposition', `attachment; filename="${table.value.name}"`);
    return table.value.text;
  });
  mount(app, services, tables.check, ({ read, now, params, body }) => checkTable(read, { id: params.id, text: body.text, now }));
  mount(app, services, tables.takeIn, ({ act, params, body, version }) => act(importSteps, { ...body, id: params.id, version }));
}

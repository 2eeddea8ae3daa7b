// Bringing records in from a spreadsheet, over HTTP.
import type { FastifyInstance, FastifyReply } from 'fastify';
import { bringInRoutes as routes } from '@backsight/contract/firm/bringIns';
import { refuse } from '@backsight/domain/shared/outcome';
import { askToBring, askToUndo, throwAway } from '@backsight/usecases/firm/bringIn/ask';
import { mapColumns } from '@backsight/usecases/firm/bringIn/mapColumns';
import {
  problemsTable,
  readBringIn,
  readBringIns,
  readBrought,
  readDepends,
  readProblems,
} from '@backsight/usecases/firm/bringIn/readBringIns';
import { sampleTable } from '@backsight/usecases/firm/bringIn/samples';
import { takeFile } from '@backsight/usecases/firm/bringIn/takeFile';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

const none = () => refuse('not-found', { thing: 'spreadsheet' });

function sendTable(reply: FastifyReply, { name, text }: { name: string; text: string }): string {
  reply.type('text/csv; charset=utf-8; header=present').header('content-disposition', `attachment; filename="${name}"`);
  return text;
}

export function bringInsApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.list, ({ read, query }) => readBringIns(read, { before: query.before ?? null }));
  mount(app, services, routes.take, ({ act, body }) => act(takeFile, body));
  mount(app, services, routes.one, async ({ read, params }) => (await readBringIn(read, params)) ?? none());
  mount(app, services, routes.map, ({ act, params, body, version }) => act(mapColumns, { id: params.id, version, mapping: body }));
  mount(app, services, routes.problems, ({ read, params, query }) =>
    readProblems(read, { id: params.id, after: query.after ?? -1, weight: query.weight ?? null }),
  );
  mount(app, services, routes.problemsTable, async ({ read, params, reply }) => {
    const table = await problemsTable(read, params);
    return table ? sendTable(reply, table) : none();
  });
  mount(app, services, routes.bring, ({ act, params, body, version }) =>
    act(askToBring, { id: params.id, version, leaveOut: body.leaveOut }),
  );
  mount(
    app,
    services,
    routes.brought,
    async ({ read, params, query }) => (await readBrought(read, { id: params.id, after: query.after ?? null })) ?? none(),
  );
  mount(app, services, routes.depends, ({ read, params }) => readDepends(read, params));
  mount(app, services, routes.undo, ({ act, params, version }) => act(askToUndo, { id: params.id, version }));
  mount(app, services, routes.throwAway, ({ act, params, version }) => act(throwAway, { id: params.id, version }));
  mount(app, services, routes.sample, async ({ params, reply }) => sendTable(reply, sampleTable(params.kind)));
}

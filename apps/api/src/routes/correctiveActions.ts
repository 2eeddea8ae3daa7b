// Corrective actions to their end: planned, done, reviewed; their effect; the same gap on other jobs.
import type { FastifyInstance } from 'fastify';
import { actionRoutes } from '@backsight/contract/callbacks/actions';
import { changeRoutes } from '@backsight/contract/callbacks/change';
import { createAction, finishAction, linkRevision, replanAction } from '@backsight/usecases/callbacks/correctiveActions';
import { draftForAction } from '@backsight/usecases/callbacks/draftForAction';
import { lookElsewhere, tellElsewhere } from '@backsight/usecases/callbacks/elsewhere';
import { readAction, readActions, readConcluded } from '@backsight/usecases/callbacks/readActions';
import { readEffect } from '@backsight/usecases/callbacks/readEffect';
import { readElsewhere } from '@backsight/usecases/callbacks/readElsewhere';
import { reviewAction } from '@backsight/usecases/callbacks/reviewAction';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function correctiveActionsApi(app: FastifyInstance, services: Services): void {
  mount(app, services, actionRoutes.list, ({ read, query, actor }) =>
    readActions(read, { revisionId: query.revision ?? null, roles: actor.kind === 'person' ? actor.roles : [] }),
  );
  mount(app, services, actionRoutes.create, ({ act, body }) => act(createAction, body));
  mount(app, services, actionRoutes.link, ({ act, params, body }) => act(linkRevision, { id: params.id, ...body }));
  mount(app, services, actionRoutes.draft, ({ act, params, body }) => act(draftForAction, { id: params.id, ...body }));
  mount(app, services, actionRoutes.finish, ({ act, params, body }) => act(finishAction, { id: params.id, ...body }));
  mount(app, services, changeRoutes.concluded, ({ read, actor }) => readConcluded(read, actor.kind === 'person' ? actor.roles : []));
  mount(app, services, changeRoutes.one, ({ read, params, actor }) => readAction(read, { id: params.id, actor }));
  mount(app, services, changeRoutes.plan, ({ act, params, body }) => act(replanAction, { id: params.id, ...body }));
  mount(app, services, changeRoutes.review, ({ act, params, body }) => act(reviewAction, { id: params.id, ...body }));
  mount(app, services, changeRoutes.effect, ({ read, params, query, now }) =>
    readEffect(read, { id: params.id, days: query.days ?? null, now }),
  );
  mount(app, services, changeRoutes.elsewhere, ({ read, params, query }) =>
    readElsewhere(read, { id: params.id, step: query.step ?? null, gap: query.gap ?? null, before: query.before ?? null }),
  );
  mount(app, services, changeRoutes.look, ({ act, params, body }) => act(lookElsewhere, { id: params.id, ...body }));
  mount(app, services, changeRoutes.tell, ({ act, params, body }) => act(tellElsewhere, { id: params.id, ...body }));
}

// Callbacks and remedies.
import type { FastifyInstance } from 'fastify';
import { callbackRoutes as routes } from '@backsight/contract/callbacks';
import { bookVisit } from '@backsight/usecases/callbacks/bookVisit';
import { finishRemedy, payRemedy } from '@backsight/usecases/callbacks/carryOut';
import { recordClearance, recordRecovery, setReserve } from '@backsight/usecases/callbacks/callbackMoney';
import { concludeCallback } from '@backsight/usecases/callbacks/concludeCallback';
import { acknowledgeCallback, addNote, becomeCallback, closeCallback, reopenCallback } from '@backsight/usecases/callbacks/moveCallback';
import { readCallback } from '@backsight/usecases/callbacks/readCallback';
import { findJobs } from '@backsight/usecases/callbacks/readCallbacks';
import { readEvidence } from '@backsight/usecases/callbacks/readEvidence';
import { readVisitStarts } from '@backsight/usecases/callbacks/readVisitStarts';
import { receiveCallback } from '@backsight/usecases/callbacks/receiveCallback';
import { decideRemedy, proposeRemedy } from '@backsight/usecases/callbacks/remedies';
import { refuse } from '@backsight/domain/shared/outcome';
import type { Actor } from '@backsight/usecases/run';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

const rolesOf = (actor: Actor) => (actor.kind === 'person' ? actor.roles : []);
const none = () => refuse('not-found', { thing: 'callback' });

export function callbacksApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.jobs, ({ read, query, actor }) => findJobs(read, { text: query.q, actor }));
  mount(app, services, routes.receive, ({ act, body }) => act(receiveCallback, body));
  mount(
    app,
    services,
    routes.one,
    async ({ read, params, actor, now }) => (await readCallback(read, { id: params.id, roles: rolesOf(actor), now })) ?? none(),
  );
  mount(
    app,
    services,
    routes.evidence,
    async ({ read, params, actor }) => (await readEvidence(read, { id: params.id, roles: rolesOf(actor) })) ?? none(),
  );
  mount(app, services, routes.acknowledge, ({ act, params, body }) => act(acknowledgeCallback, { id: params.id, ...body }));
  mount(app, services, routes.note, ({ act, params, body }) => act(addNote, { id: params.id, ...body }));
  mount(app, services, routes.become, ({ act, params, body }) => act(becomeCallback, { id: params.id, ...body }));
  mount(app, services, routes.conclude, ({ act, params, body }) => act(concludeCallback, { id: params.id, ...body }));
  mount(app, services, routes.reserve, ({ act, params, body }) => act(setReserve, { id: params.id, ...body }));
  mount(app, services, routes.clear, ({ act, params, body }) => act(recordClearance, { id: params.id, ...body }));
  mount(app, services, routes.recover, ({ act, params, body }) => act(recordRecovery, { id: params.id, ...body }));
  mount(app, services, routes.propose, ({ act, params, body }) => act(proposeRemedy, { id: params.id, ...body }));
  mount(app, services, routes.decide, ({ act, params, body }) => act(decideRemedy, { remedyId: params.id, ...body }));
  mount(app, services, routes.pay, ({ act, params, body }) => act(payRemedy, { remedyId: params.id, ...body }));
  mount(app, services, routes.finish, ({ act, params, body }) => act(finishRemedy, { remedyId: params.id, ...body }));
  mount(app, services, routes.visitStarts, ({ read, params, query, actor, now }) =>
    readVisitStarts(read, { remedyId: params.id, fromDay: query.fromDay, roles: rolesOf(actor), now }),
  );
  mount(app, services, routes.bookVisit, ({ act, params, body }) => act(bookVisit, { remedyId: params.id, ...body }));
  mount(app, services, routes.close, ({ act, params, body }) => act(closeCallback, { id: params.id, ...body }));
  mount(app, services, routes.reopen, ({ act, params, body }) => act(reopenCallback, { id: params.id, ...body }));
}

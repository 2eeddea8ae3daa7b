// Putting a callback right: estimates, offers and releases, the insurer, the court, and what its visits saw.
import type { FastifyInstance } from 'fastify';
import { remedyRoutes as routes } from '@backsight/contract/callbacks/remedies';
import { refuse } from '@backsight/domain/shared/outcome';
import { reverseEntry } from '@backsight/usecases/callbacks/carryOut';
import { endCase, openCase, payCourt } from '@backsight/usecases/callbacks/court';
import { addEstimate, readEstimateFile } from '@backsight/usecases/callbacks/estimates';
import { namePolicy, notifyInsurer } from '@backsight/usecases/callbacks/insurer';
import { readConflicts, readPuttingRight } from '@backsight/usecases/callbacks/readPuttingRight';
import { readVisits } from '@backsight/usecases/callbacks/readVisits';
import { amendRemedy } from '@backsight/usecases/callbacks/remedies';
import { endOffer, issueRelease, offerRemedy } from '@backsight/usecases/callbacks/settle';
import type { Actor } from '@backsight/usecases/run';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

const rolesOf = (actor: Actor) => (actor.kind === 'person' ? actor.roles : []);
const none = () => refuse('not-found', { thing: 'callback' });

export function callbackRemediesApi(app: FastifyInstance, services: Services): void {
  const { dataDir: directory, publicUrl } = services.config;
  mount(
    app,
    services,
    routes.puttingRight,
    async ({ read, params, actor, now }) => (await readPuttingRight(read, { id: params.id, roles: rolesOf(actor), now })) ?? none(),
  );
  mount(app, services, routes.conflicts, ({ read, params, query, actor, now }) =>
    readConflicts(read, { id: params.id, ...query, roles: rolesOf(actor), now }),
  );
  mount(
    app,
    services,
    routes.visits,
    async ({ read, params, actor }) => (await readVisits(read, { id: params.id, roles: rolesOf(actor) })) ?? none(),
  );
  mount(app, services, routes.addEstimate, ({ act, params, body }) => act(addEstimate, { id: params.id, ...body, directory }));
  mount(app, services, routes.estimateFile, async ({ read, params, actor, reply }) => {
    const file = await readEstimateFile(read, { id: params.id, roles: rolesOf(actor), directory });
    if (!file.ok) return file;
    reply.type(file.value.mediaType).header('content-disposition', `attachment; filename="${file.value.name.replace(/[^\w. -]/g, '_')}"`);
    return file.value.bytes;
  });
  mount(app, services, routes.amend, ({ act, params, body }) => act(amendRemedy, { remedyId: params.id, ...body }));
  mount(app, services, routes.offer, ({ act, params, body }) => act(offerRemedy, { remedyId: params.id, ...body }));
  mount(app, services, routes.endOffer, ({ act, params, body }) => act(endOffer, { offerId: params.id, ...body }));
  mount(app, services, routes.release, ({ act, params }) => act(issueRelease, { remedyId: params.id, publicUrl }));
  mount(app, services, routes.notify, ({ act, params, body }) => act(notifyInsurer, { id: params.id, ...body }));
  mount(app, services, routes.namePolicy, ({ act, params, body }) => act(namePolicy, { id: params.id, ...body }));
  mount(app, services, routes.openCase, ({ act, params, body }) => act(openCase, { id: params.id, ...body }));
  mount(app, services, routes.endCase, ({ act, params, body }) => act(endCase, { caseId: params.id, ...body }));
  mount(app, services, routes.payCase, ({ act, params, body }) => act(payCourt, { caseId: params.id, ...body }));
  mount(app, services, routes.reverse, ({ act, params, body }) => act(reverseEntry, { entryId: params.id, ...body }));
}

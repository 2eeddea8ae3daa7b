// Opinions of callbacks, accounts of the pair, and holds on evidence.
import type { FastifyInstance } from 'fastify';
import { errorKindRoutes, opinionRoutes } from '@backsight/contract/callbacks/opinions';
import { holdRoutes } from '@backsight/contract/callbacks/holds';
import { refuse } from '@backsight/domain/shared/outcome';
import { askAccount, giveAccount, readMyAccount } from '@backsight/usecases/callbacks/accounts';
import { confirmConclusion } from '@backsight/usecases/callbacks/concludeCallback';
import { holdEvidence, liftHold, readHold } from '@backsight/usecases/callbacks/holds';
import { allowErrorKinds, markForCounsel, readErrorKinds, readOpinions } from '@backsight/usecases/callbacks/opinions';
import type { Actor } from '@backsight/usecases/run';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

const rolesOf = (actor: Actor) => (actor.kind === 'person' ? actor.roles : []);
const idOf = (actor: Actor) => (actor.kind === 'person' ? actor.id : null);

export function opinionsApi(app: FastifyInstance, services: Services): void {
  const { publicUrl } = services.config;
  mount(
    app,
    services,
    opinionRoutes.one,
    async ({ read, params, actor }) => (await readOpinions(read, { id: params.id, actor })) ?? refuse('not-found', { thing: 'callback' }),
  );
  mount(app, services, opinionRoutes.confirm, ({ act, params, body }) => act(confirmConclusion, { id: params.id, ...body }));
  mount(app, services, opinionRoutes.ask, ({ act, params, body }) => act(askAccount, { id: params.id, publicUrl, ...body }));
  mount(app, services, opinionRoutes.mark, ({ act, params, body }) => act(markForCounsel, { id: params.id, ...body }));
  mount(app, services, opinionRoutes.myAccount, ({ read, params, actor }) => readMyAccount(read, { id: params.id, personId: idOf(actor) }));
  mount(app, services, opinionRoutes.give, ({ act, params, body }) => act(giveAccount, { id: params.id, ...body }));
  mount(app, services, errorKindRoutes.one, ({ read }) => readErrorKinds(read));
  mount(app, services, errorKindRoutes.allow, ({ act, body }) => act(allowErrorKinds, body));
  mount(app, services, holdRoutes.ofJob, ({ read, params, actor }) => readHold(read, { jobId: params.id, roles: rolesOf(actor) }));
  mount(app, services, holdRoutes.hold, ({ act, params, body }) => act(holdEvidence, { jobId: params.id, ...body }));
  mount(app, services, holdRoutes.lift, ({ act, params, body }) => act(liftHold, { holdId: params.id, ...body }));
}

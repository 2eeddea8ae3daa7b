// Opinions of callbacks, accounts of the pair, holds on evidence, and the facts around a callback.
import type { FastifyInstance } from 'fastify';
import { errorKindRoutes, opinionRoutes } from '@backsight/contract/callbacks/opinions';
import { backgroundRoutes } from '@backsight/contract/callbacks/background';
import { holdRoutes } from '@backsight/contract/callbacks/holds';
import { refuse } from '@backsight/domain/shared/outcome';
import { askAccount, giveAccount, readMyAccount } from '@backsight/usecases/callbacks/accounts';
import { confirmConclusion } from '@backsight/usecases/callbacks/concludeCallback';
import { factsPaper } from '@backsight/usecases/callbacks/factsPaper';
import { holdEvidence, liftHold, readHold } from '@backsight/usecases/callbacks/holds';
import { allowErrorKinds, markForCounsel, readErrorKinds, readOpinions } from '@backsight/usecases/callbacks/opinions';
import { readBackground } from '@backsight/usecases/callbacks/readBackground';
import type { Actor } from '@backsight/usecases/run';
import { mount } from '../http/mount.ts';
import { sendPdf } from '../http/pdf.ts';
import type { Services } from '../http/services.ts';

const rolesOf = (actor: Actor) => (actor.kind === 'person' ? actor.roles : []);
const none = () => refuse('not-found', { thing: 'callback' });
const idOf = (actor: Actor) => (actor.kind === 'person' ? actor.id : null);

export function opinionsApi(app: FastifyInstance, services: Services): void {
  const { publicUrl } = services.config;
  mount(
    app,
    services,
    opinionRoutes.one,
    async ({ read, params, actor }) => (await readOpinions(read, { id: params.id, actor })) ?? none(),
  );
  mount(app, services, opinionRoutes.confirm, ({ act, params, body }) => act(confirmConclusion, { id: params.id, ...body }));
  mount(app, services, opinionRoutes.ask, ({ act, params, body }) => act(askAccount, { id: params.id, publicUrl, ...body }));
  mount(app, services, opinionRoutes.mark, ({ act, params, body }) => act(markForCounsel, { id: params.id, ...body }));
  mount(app, services, opinionRoutes.myAccount, ({ read, params, actor }) => readMyAccount(read, { id: params.id, personId: idOf(actor) }));
  mount(app, services, opinionRoutes.give, ({ act, params, body }) => act(giveAccount, { id: params.id, ...body }));
  mount(
    app,
    services,
    backgroundRoutes.one,
    async ({ read, params, actor }) => (await readBackground(read, { id: params.id, roles: rolesOf(actor) })) ?? none(),
  );
  mount(app, services, backgroundRoutes.facts, ({ read, params, actor, now, reply }) =>
    sendPdf(reply, factsPaper(read, { id: params.id, actor, now })),
  );
  mount(app, services, errorKindRoutes.one, ({ read }) => readErrorKinds(read));
  mount(app, services, errorKindRoutes.allow, ({ act, body }) => act(allowErrorKinds, body));
  mount(app, services, holdRoutes.ofJob, ({ read, params, actor }) => readHold(read, { jobId: params.id, roles: rolesOf(actor) }));
  mount(app, services, holdRoutes.hold, ({ act, params, body }) => act(holdEvidence, { jobId: params.id, ...body }));
  mount(app, services, holdRoutes.lift, ({ act, params, body }) => act(liftHold, { holdId: params.id, ...body }));
}

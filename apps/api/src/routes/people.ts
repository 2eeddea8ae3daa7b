// People of the firm and signing in.
import type { FastifyInstance } from 'fastify';
import { peopleRoutes as routes } from '@backsight/contract/people';
import { addPerson } from '@backsight/usecases/people/addPerson';
import { changePassword } from '@backsight/usecases/people/changePassword';
import { changePerson } from '@backsight/usecases/people/changePerson';
import { askForPasswordLink, choosePasswordByLink, invitePerson } from '@backsight/usecases/people/passwordLinks';
import { findPerson, listPeople } from '@backsight/usecases/people/listPeople';
import { firmName } from '@backsight/usecases/firm/readFirm';
import { signIn, signOut } from '@backsight/usecases/people/signIn';
import { refuse } from '@backsight/domain/shared/outcome';
import { mount } from '../http/mount.ts';
import { clearSessionCookie, setSessionCookie } from '../http/session.ts';
import type { Services } from '../http/services.ts';

export function peopleApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.signIn, async ({ body, reply, request }) => {
    const parts = { ...services, ownersMust: services.config.ownersMust };
    const outcome = await signIn(parts, { ...body, agent: request.headers['user-agent'], from: request.ip });
    if (!outcome.ok) return outcome;
    setSessionCookie(services, reply, outcome.value.token, outcome.value.expiresAt);
    return outcome.value.person;
  });
  mount(app, services, routes.forgotten, async ({ body }) => {
    await services.runner.run(askForPasswordLink, body, { actor: { kind: 'service' } });
    return {};
  });
  mount(app, services, routes.byLink, ({ body }) => services.runner.run(choosePasswordByLink, body, { actor: { kind: 'service' } }));
  mount(app, services, routes.invite, ({ act, params }) => act(invitePerson, { personId: params.id }));
  mount(app, services, routes.signOut, async ({ request, reply }) => {
    if (request.session) await signOut(services, request.session);
    clearSessionCookie(reply);
    return {};
  });
  mount(app, services, routes.me, async ({ request, read }) => {
    const firm = await firmName(read);
    const session = request.session!;
    const pastPercent = services.pastPercent?.() ?? null;
    return {
      id: session.personId,
      name: session.name,
      roles: session.roles,
      demo: firm?.demo ?? false,
      firm: firm?.name ?? '',
      zone: firm?.zone ?? 'UTC',
      factorNeeded: session.stage === 'factor_needed',
      ...(pastPercent === null ? {} : { pastPercent }),
    };
  });
  mount(app, services, routes.list, async ({ read }) => listPeople(read));
  mount(
    app,
    services,
    routes.one,
    async ({ read, params }) => (await findPerson(read, params.id)) ?? refuse('not-found', { thing: 'person' }),
  );
  mount(app, services, routes.add, ({ act, body }) => act(addPerson, body));
  mount(app, services, routes.ownPassword, ({ act, body, request }) =>
    act(changePassword, { personId: request.session!.personId, keepSession: request.session!.sessionId, ...body }),
  );
  mount(app, services, routes.setPassword, ({ act, body, params }) => act(changePassword, { personId: params.id, ...body }));
  mount(app, services, routes.change, ({ act, body, params, version }) => act(changePerson, { id: params.id, version, edit: body }));
}

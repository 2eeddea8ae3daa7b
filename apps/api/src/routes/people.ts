// People of the firm and signing in.
import type { FastifyInstance } from 'fastify';
import { peopleRoutes as routes } from '@backsight/contract/people';
import { addPerson } from '@backsight/usecases/people/addPerson';
import { changeOwnPassword, givePassword } from '@backsight/usecases/people/changePassword';
import { changePerson } from '@backsight/usecases/people/changePerson';
import { askForPasswordLink, choosePasswordByLink, invitePerson } from '@backsight/usecases/people/passwordLinks';
import { readPeople, readPerson } from '@backsight/usecases/people/listPeople';
import { firmName } from '@backsight/usecases/firm/readFirm';
import { signIn, signOut } from '@backsight/usecases/people/signIn';
import { mount } from '../http/mount.ts';
import { accountOf } from '../http/securityLog.ts';
import { clearSessionCookie, renewSessionCookie, sessionToken, setSessionCookie } from '../http/session.ts';
import type { Services } from '../http/services.ts';

export function peopleApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.signIn, async ({ body, reply, request }) => {
    const parts = { ...services, secondFactor: services.config.secondFactor };
    const before = sessionToken(services, request);
    const outcome = await signIn(parts, { ...body, before, agent: request.headers['user-agent'], from: request.ip });
    request.signing = outcome.ok
      ? { personId: outcome.value.person.id, factor: outcome.value.factor }
      : { account: accountOf(services, body.email) };
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
    clearSessionCookie(services, reply);
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
  mount(app, services, routes.list, ({ read, actor }) => readPeople(read, actor));
  mount(app, services, routes.one, ({ read, params, actor }) => readPerson(read, { id: params.id, actor }));
  mount(app, services, routes.add, ({ act, body }) => act(addPerson, body));
  mount(app, services, routes.ownPassword, async ({ act, body, request, reply }) => {
    const { personId, sessionId } = request.session!;
    const changed = await act(changeOwnPassword, { personId, sessionId, ...body });
    if (!changed.ok) return changed;
    renewSessionCookie(services, reply, request.session!, changed.value.token);
    return {};
  });
  mount(app, services, routes.setPassword, ({ act, body, params }) => act(givePassword, { personId: params.id, ...body }));
  mount(app, services, routes.change, ({ act, body: { password, ...edit }, params, version }) =>
    act(changePerson, { id: params.id, version, password, edit }),
  );
}

// One's own sessions and second factor, and what an owner does about those of others.
import type { FastifyInstance } from 'fastify';
import { securityRoutes as routes } from '@backsight/contract/people/security';
import {
  beginSecondFactor,
  confirmSecondFactor,
  removeSecondFactor,
  renewRecoveryCodes,
  resetSecondFactor,
} from '@backsight/usecases/people/secondFactor';
import { endOwnSessions, endSessionsOfPerson, readSecurity } from '@backsight/usecases/people/sessions';
import { firmName } from '@backsight/usecases/firm/readFirm';
import { mount } from '../http/mount.ts';
import { renewSessionCookie } from '../http/session.ts';
import type { Services } from '../http/services.ts';

export function securityApi(app: FastifyInstance, services: Services): void {
  const { secretKey } = services;
  const who = services.config.secondFactor;
  mount(app, services, routes.security, ({ read, now, request }) => readSecurity(read, { ...request.session!, now, who }));
  mount(app, services, routes.begin, async ({ act, body, read, request }) => {
    const issuer = (await firmName(read))?.name ?? 'Backsight';
    return act(beginSecondFactor, { personId: request.session!.personId, password: body.password, secretKey, issuer });
  });
  mount(app, services, routes.confirm, async ({ act, body, request, reply }) => {
    const { personId, sessionId } = request.session!;
    const confirmed = await act(confirmSecondFactor, { personId, sessionId, code: body.code, secretKey });
    if (!confirmed.ok) return confirmed;
    renewSessionCookie(services, reply, request.session!, confirmed.value.token);
    return { codes: confirmed.value.codes };
  });
  mount(app, services, routes.remove, ({ act, body, request }) =>
    act(removeSecondFactor, { ...ownOf(request.session!), ...body, secretKey, who }),
  );
  mount(app, services, routes.renewCodes, ({ act, body, request }) =>
    act(renewRecoveryCodes, { ...ownOf(request.session!), ...body, secretKey }),
  );
  mount(app, services, routes.endSessions, ({ act, body, request }) => act(endOwnSessions, { ...ownOf(request.session!), ...body }));
  mount(app, services, routes.endAll, ({ act, params, body }) => act(endSessionsOfPerson, { personId: params.id, ...body }));
  mount(app, services, routes.reset, ({ act, params, body }) => act(resetSecondFactor, { personId: params.id, ...body }));
}

const ownOf = ({ personId, sessionId }: { personId: string; sessionId: string }) => ({ personId, sessionId });

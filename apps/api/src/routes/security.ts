// One's own sessions and second factor.
import type { FastifyInstance } from 'fastify';
import { securityRoutes as routes } from '@backsight/contract/people/security';
import {
  beginSecondFactor,
  confirmSecondFactor,
  removeSecondFactor,
  renewRecoveryCodes,
  resetSecondFactor,
} from '@backsight/usecases/people/secondFactor';
import { endOtherSessions, endSessionElsewhere, readSecurity } from '@backsight/usecases/people/sessions';
import { firmName } from '@backsight/usecases/firm/readFirm';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function securityApi(app: FastifyInstance, services: Services): void {
  const { secretKey, config } = services;
  const { ownersMust } = config;
  mount(app, services, routes.security, ({ read, now, request }) => readSecurity(read, { ...request.session!, now, ownersMust }));
  mount(app, services, routes.begin, async ({ act, body, read, request }) => {
    const issuer = (await firmName(read))?.name ?? 'Backsight';
    return act(beginSecondFactor, { personId: request.session!.personId, password: body.password, secretKey, issuer });
  });
  mount(app, services, routes.confirm, ({ act, body, request }) => {
    const { personId, sessionId } = request.session!;
    return act(confirmSecondFactor, { personId, sessionId, code: body.code, secretKey });
  });
  mount(app, services, routes.remove, ({ act, body, request }) =>
    act(removeSecondFactor, { personId: request.session!.personId, password: body.password, ownersMust }),
  );
  mount(app, services, routes.renewCodes, ({ act, body, request }) =>
    act(renewRecoveryCodes, { personId: request.session!.personId, password: body.password }),
  );
  mount(app, services, routes.endSession, ({ act, params, request }) =>
    act(endSessionElsewhere, { personId: request.session!.personId, id: params.id }),
  );
  mount(app, services, routes.endOthers, ({ act, request }) => {
    const { personId, sessionId } = request.session!;
    return act(endOtherSessions, { personId, sessionId });
  });
  mount(app, services, routes.reset, ({ act, params }) => act(resetSecondFactor, { personId: params.id }));
}

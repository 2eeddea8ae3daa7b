// The home of whoever is signed in, and the go-to box.
import type { FastifyInstance } from 'fastify';
import { findRoutes } from '@backsight/contract/find';
import { homeRoutes as routes } from '@backsight/contract/home';
import { find } from '@backsight/usecases/firm/find';
import { leaveSteps } from '@backsight/usecases/firm/leaveSteps';
import { readHome } from '@backsight/usecases/firm/readHome';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function homeApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.home, ({ read, request, now, query }) =>
    readHome(read, { personId: request.session!.personId, roles: request.session!.roles, now, only: query.list }),
  );
  mount(app, services, routes.leaveSteps, ({ act, body }) => act(leaveSteps, body));
  mount(app, services, findRoutes.find, ({ read, actor, now, query }) => find(read, { text: query.q, actor, now }));
}

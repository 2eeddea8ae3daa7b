// The home of whoever is signed in.
import type { FastifyInstance } from 'fastify';
import { homeRoutes as routes } from '@backsight/contract/home';
import { readHome } from '@backsight/usecases/firm/readHome';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function homeApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.home, ({ read, request, now, query }) =>
    readHome(read, { personId: request.session!.personId, roles: request.session!.roles, now, only: query.list }),
  );
}

// The firm's kit.
import type { FastifyInstance } from 'fastify';
import { kitRoutes as routes } from '@backsight/contract/people/kit';
import { addKit, changeKit } from '@backsight/usecases/people/kit';
import { readKit } from '@backsight/usecases/people/readFile';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function kitApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.kit, ({ read }) => readKit(read));
  mount(app, services, routes.add, ({ act, body }) => act(addKit, body));
  mount(app, services, routes.change, ({ act, body, params }) => act(changeKit, { id: params.id, edit: body }));
}

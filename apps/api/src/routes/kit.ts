// The firm's kit.
import type { FastifyInstance } from 'fastify';
import { kitRoutes as routes } from '@backsight/contract/people/kit';
import { addKit, changeCheckNeeds, changeKit, changeSizes, failOnSite, noteCheck } from '@backsight/usecases/people/kit';
import { readKit } from '@backsight/usecases/people/readFile';
import { readSwaps } from '@backsight/usecases/people/readSwaps';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function kitApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.kit, ({ read }) => readKit(read));
  mount(app, services, routes.add, ({ act, body }) => act(addKit, body));
  mount(app, services, routes.change, ({ act, body, params }) => act(changeKit, { id: params.id, edit: body }));
  mount(app, services, routes.check, ({ act, body, params }) => act(noteCheck, { ...body, itemId: params.id }));
  mount(app, services, routes.fail, ({ act, body, params }) => act(failOnSite, { ...body, itemId: params.id }));
  mount(app, services, routes.swaps, ({ read, now, params, query, actor }) =>
    readSwaps(read, now, { itemId: params.id, visitId: query.visitId, actor }),
  );
  mount(app, services, routes.sizes, ({ act, body, params }) => act(changeSizes, { personId: params.id, sizes: body.sizes }));
  mount(app, services, routes.needs, ({ act, body, params }) => act(changeCheckNeeds, { kind: params.kind, checks: body.checks }));
}

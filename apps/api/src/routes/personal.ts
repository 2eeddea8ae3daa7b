// Personal data: retention, erasure and export.
import type { FastifyInstance } from 'fastify';
import { personalRoutes as routes } from '@backsight/contract/personal';
import { erasePerson, readErasure } from '@backsight/usecases/personal/erase';
import { exportPerson, searchPeople } from '@backsight/usecases/personal/exportPerson';
import { disposeDue, readRetention, setRetention } from '@backsight/usecases/personal/retention';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function personalApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.retention, ({ read, now }) => readRetention(read, now));
  mount(app, services, routes.setRetention, ({ act, body }) => act(setRetention, body));
  mount(app, services, routes.dispose, ({ act, body }) => act(disposeDue, body));
  mount(app, services, routes.people, ({ read, query }) => searchPeople(read, query.q));
  mount(app, services, routes.erasure, ({ read, params, now }) => readErasure(read, params, now));
  mount(app, services, routes.erase, ({ act, params, body: { id, ...body } }) => act(erasePerson, { ...params, ...body, erasureId: id }));
  mount(app, services, routes.export, async ({ act, params, reply }) => {
    const made = await act(exportPerson, { ...params, directory: services.config.dataDir });
    if (!made.ok) return made;
    reply.header('content-disposition', `attachment; filename="${made.value.name}"`).type('application/zip');
    return Buffer.from(made.value.bytes);
  });
}

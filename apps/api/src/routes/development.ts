// How callbacks and their cost develop by period of inspection.
import type { FastifyInstance } from 'fastify';
import { developmentRoutes as routes } from '@backsight/contract/liability/development';
import { exportDevelopment } from '@backsight/usecases/liability/development/exportDevelopment';
import { readDevelopment } from '@backsight/usecases/liability/development/readDevelopment';
import type { Actor } from '@backsight/usecases/run';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

const seeOwnerOnly = (actor: Actor): boolean => actor.kind === 'person' && actor.roles.includes('owner');

export function developmentApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.page, ({ read, query, now, actor }) =>
    readDevelopment(read, { ...query, now, seeOwnerOnly: seeOwnerOnly(actor) }),
  );
  mount(app, services, routes.table, async ({ read, query, now, actor, reply }) => {
    const table = await exportDevelopment(read, { ...query, now, seeOwnerOnly: seeOwnerOnly(actor) });
    if (table.ok)
      reply
        .type('text/csv; charset=utf-8; header=present')
        .header('content-disposition', `attachment; filename="development-of-${query.of}-by-${query.by}.csv"`);
    return table;
  });
}

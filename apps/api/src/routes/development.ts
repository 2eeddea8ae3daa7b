// How callbacks and their cost develop by period of inspection.
import type { FastifyInstance } from 'fastify';
import { developmentRoutes as routes } from '@backsight/contract/liability/development';
import { accept } from '@backsight/domain/shared/outcome';
import { exportDevelopment } from '@backsight/usecases/liability/development/exportDevelopment';
import { readDevelopment } from '@backsight/usecases/liability/development/readDevelopment';
import type { Actor } from '@backsight/usecases/run';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';
import { mountTable } from '../http/table.ts';

const seeOwnerOnly = (actor: Actor): boolean => actor.kind === 'person' && actor.roles.includes('owner');

export function developmentApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.page, ({ read, query, now, actor }) =>
    readDevelopment(read, { ...query, now, seeOwnerOnly: seeOwnerOnly(actor) }),
  );
  mountTable(app, services, routes.table, async ({ read, query, now, actor }) => {
    const table = await exportDevelopment(read, { ...query, now, seeOwnerOnly: seeOwnerOnly(actor) });
    return table.ok ? accept({ name: `development-of-${query.of}-by-${query.by}`, csv: table.value }) : table;
  });
}

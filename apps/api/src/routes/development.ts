// How callbacks and their cost develop by period of inspection.
import type { FastifyInstance } from 'fastify';
import { developmentTables as pages } from '@backsight/contract/liability/developmentTables';
import { readDevelopment } from '@backsight/usecases/liability/development/readDevelopment';
import type { Services } from '../http/services.ts';
import { mountPage } from '../http/table.ts';

export function developmentApi(app: FastifyInstance, services: Services): void {
  mountPage(app, services, pages.page, ({ read, query, now, actor }) =>
    readDevelopment(read, { ...query, now, seeOwnerOnly: actor.kind === 'person' && actor.roles.includes('owner') }),
  );
}

// Is the service well: version, schema, database, guards, and whether it is about to stop.
import type { FastifyInstance } from 'fastify';
import { healthRoutes as routes } from '@backsight/contract/health';
import { schemaVersion } from '@backsight/usecases/firm/readFirm';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function healthApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.health, async ({ read, reply }) => {
    const schema = await schemaVersion(read).catch(() => null);
    const stopping = services.stopping?.() ?? false;
    if (schema === null || stopping) reply.code(503);
    return {
      status: schema === null ? ('unwell' as const) : stopping ? ('stopping' as const) : ('well' as const),
      version: services.version,
      schema,
      database: schema === null ? ('not reachable' as const) : ('reachable' as const),
      guards: services.database.guards,
    };
  });
}

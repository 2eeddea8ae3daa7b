// Starts, visits and the week.
import type { FastifyInstance } from 'fastify';
import { scheduleRoutes as routes } from '@backsight/contract/schedule';
import { addVisit, moveVisit } from '@backsight/usecases/jobs/moveVisit';
import { findStarts } from '@backsight/usecases/schedule/findStarts';
import { readWeek } from '@backsight/usecases/schedule/readWeek';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function scheduleApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.starts, ({ read, now, body }) => findStarts(read, now, body));
  mount(app, services, routes.move, ({ act, params, version, body }) =>
    act(moveVisit, { id: params.id, version, start: body, publicUrl: services.config.publicUrl }),
  );
  mount(app, services, routes.addVisit, ({ act, params, body }) => act(addVisit, { jobId: params.id, ...body }));
  mount(app, services, routes.week, ({ read, now, query }) => readWeek(read, now, query.from));
}

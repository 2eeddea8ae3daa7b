// What the firm owes, and the figures of its steps.
import type { FastifyInstance } from 'fastify';
import { liabilityRoutes as routes } from '@backsight/contract/liability';
import { readLiability } from '@backsight/usecases/liability/readLiability';
import { readSteps } from '@backsight/usecases/liability/readSteps';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function liabilityApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.page, ({ read, actor, now }) =>
    readLiability(read, { now, seeOwnerOnly: actor.kind === 'person' && actor.roles.includes('owner') }),
  );
  mount(app, services, routes.steps, ({ read, now }) => readSteps(read, now));
}

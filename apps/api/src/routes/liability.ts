// The figures of the steps.
import type { FastifyInstance } from 'fastify';
import { liabilityRoutes as routes } from '@backsight/contract/liability';
import { readSteps } from '@backsight/usecases/liability/readSteps';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function liabilityApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.steps, ({ read, now }) => readSteps(read, now));
}

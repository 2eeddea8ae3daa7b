// Figures of the steps: all beside each other, and the page of one.
import type { FastifyInstance } from 'fastify';
import { stepTables as pages } from '@backsight/contract/liability/stepTables';
import { readStep } from '@backsight/usecases/liability/readStep';
import { readSteps } from '@backsight/usecases/liability/readSteps';
import type { Actor } from '@backsight/usecases/run';
import type { Services } from '../http/services.ts';
import { mountPage } from '../http/table.ts';

const isOwner = (actor: Actor): boolean => actor.kind === 'person' && actor.roles.includes('owner');

export function liabilityStepsApi(app: FastifyInstance, services: Services): void {
  mountPage(app, services, pages.list, ({ read, query }) => readSteps(read, query));
  mountPage(app, services, pages.one, ({ read, params: { key }, actor, now }, every) =>
    readStep(read, { key, now, every, seeOwnerOnly: isOwner(actor) }),
  );
}

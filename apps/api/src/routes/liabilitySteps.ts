// Figures of the steps: all beside each other, and the page of one.
import type { FastifyInstance } from 'fastify';
import { liabilityStepRoutes as routes } from '@backsight/contract/liability/steps';
import { accept } from '@backsight/domain/shared/outcome';
import { readStep } from '@backsight/usecases/liability/readStep';
import { readSteps } from '@backsight/usecases/liability/readSteps';
import { stepsTable, stepTable } from '@backsight/usecases/liability/stepTables';
import type { Actor } from '@backsight/usecases/run';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';
import { mountTable } from '../http/table.ts';

const isOwner = (actor: Actor): boolean => actor.kind === 'person' && actor.roles.includes('owner');

export function liabilityStepsApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.list, ({ read, query }) => readSteps(read, query));
  mountTable(app, services, routes.table, async ({ read, query }) => accept({ name: 'steps', csv: await stepsTable(read, query) }));
  mount(app, services, routes.one, ({ read, params: { key }, actor, now }) => readStep(read, { key, now, seeOwnerOnly: isOwner(actor) }));
  mountTable(app, services, routes.oneTable, async ({ read, params: { key }, query: { of }, actor, now }) => {
    const text = await stepTable(read, { key, of, now, seeOwnerOnly: isOwner(actor) });
    return text.ok ? accept({ name: `step-${of}`, csv: text.value }) : text;
  });
}

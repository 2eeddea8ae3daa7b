// Figures of the steps: all beside each other, and the page of one.
import type { FastifyInstance } from 'fastify';
import { liabilityStepRoutes as routes } from '@backsight/contract/liability/steps';
import { readStep } from '@backsight/usecases/liability/readStep';
import { readSteps } from '@backsight/usecases/liability/readSteps';
import { stepsTable, stepTable } from '@backsight/usecases/liability/stepTables';
import type { Actor } from '@backsight/usecases/run';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

const isOwner = (actor: Actor): boolean => actor.kind === 'person' && actor.roles.includes('owner');
const CSV = 'text/csv; charset=utf-8; header=present';

export function liabilityStepsApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.list, ({ read, query }) => readSteps(read, query));
  mount(app, services, routes.table, async ({ read, query, reply }) => {
    const text = await stepsTable(read, query);
    reply.type(CSV).header('content-disposition', 'attachment; filename="steps.csv"');
    return text;
  });
  mount(app, services, routes.one, ({ read, params: { key }, actor, now }) => readStep(read, { key, now, seeOwnerOnly: isOwner(actor) }));
  mount(app, services, routes.oneTable, async ({ read, params: { key }, query: { of }, actor, now, reply }) => {
    const text = await stepTable(read, { key, of, now, seeOwnerOnly: isOwner(actor) });
    if (text.ok) reply.type(CSV).header('content-disposition', `attachment; filename="step-${of}.csv"`);
    return text;
  });
}

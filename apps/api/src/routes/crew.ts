// Who comes besides the pair, holds that are extended, re-inspections.
import type { FastifyInstance } from 'fastify';
import { crewRoutes as routes } from '@backsight/contract/schedule/crew';
import { chooseProvider } from '@backsight/usecases/jobs/chooseProvider';
import { extendHold } from '@backsight/usecases/jobs/extendHold';
import { holdReinspection } from '@backsight/usecases/jobs/holdReinspection';
import { addObserver, removeObserver } from '@backsight/usecases/jobs/observers';
import { readCrew } from '@backsight/usecases/jobs/readCrew';
import { addProvider, changeProvider, readProviders } from '@backsight/usecases/schedule/providers';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

export function crewApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.providers, ({ read, now }) => readProviders(read, now));
  mount(app, services, routes.addProvider, ({ act, body }) => act(addProvider, body));
  mount(app, services, routes.changeProvider, ({ act, params, version, body }) =>
    act(changeProvider, { id: params.id, version, edit: body }),
  );
  mount(app, services, routes.crew, ({ read, now, params, actor }) => readCrew(read, { now, jobId: params.id, actor }));
  mount(app, services, routes.chooseProvider, ({ act, params, version, body }) =>
    act(chooseProvider, { jobId: params.id, service: params.service, version, ...body }),
  );
  mount(app, services, routes.addObserver, ({ act, params, body }) => act(addObserver, { visitId: params.id, ...body }));
  mount(app, services, routes.removeObserver, ({ act, params }) => act(removeObserver, { visitId: params.id, personId: params.personId }));
  mount(app, services, routes.extendHold, ({ act, params, version }) => act(extendHold, { id: params.id, version }));
  mount(app, services, routes.holdReinspection, ({ act, params, body }) => act(holdReinspection, { parentId: params.id, ...body }));
}

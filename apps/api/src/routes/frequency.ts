// How often callbacks come, and people and pairs against what was to be expected.
import type { FastifyInstance } from 'fastify';
import { frequencyRoutes } from '@backsight/contract/liability/frequency';
import { peopleFigureRoutes } from '@backsight/contract/liability/people';
import { accept } from '@backsight/domain/shared/outcome';
import { exportFrequency } from '@backsight/usecases/liability/frequency/exportFrequency';
import { readFrequency } from '@backsight/usecases/liability/frequency/readFrequency';
import { exportPeople } from '@backsight/usecases/liability/people/exportPeople';
import { readOwnFigures, readPeople } from '@backsight/usecases/liability/people/readPeople';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';
import { mountTable } from '../http/table.ts';

export function frequencyApi(app: FastifyInstance, services: Services): void {
  mount(app, services, frequencyRoutes.page, ({ read, query, now }) => readFrequency(read, { ...query, now }));
  mountTable(app, services, frequencyRoutes.table, async ({ read, query, now }) =>
    accept({ name: `callbacks-by-${query.by}`, csv: await exportFrequency(read, { ...query, now }) }),
  );
  mount(app, services, peopleFigureRoutes.page, ({ read, query, now }) => readPeople(read, { ...query, now }));
  mountTable(app, services, peopleFigureRoutes.table, async ({ read, query, now }) =>
    accept({ name: `callbacks-of-${query.of}`, csv: await exportPeople(read, { ...query, now }) }),
  );
  mount(app, services, peopleFigureRoutes.own, ({ read, query, now, request }) =>
    readOwnFigures(read, { ...query, now, personId: request.session!.personId }),
  );
}

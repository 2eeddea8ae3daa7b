// How often callbacks come, and people and pairs against what was to be expected.
import type { FastifyInstance } from 'fastify';
import { frequencyTables, peopleTables } from '@backsight/contract/liability/frequencyTables';
import { peopleFigureRoutes } from '@backsight/contract/liability/people';
import { readFrequency } from '@backsight/usecases/liability/frequency/readFrequency';
import { readOwnFigures, readPeople } from '@backsight/usecases/liability/people/readPeople';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';
import { mountPage } from '../http/table.ts';

export function frequencyApi(app: FastifyInstance, services: Services): void {
  // a table names its kind of group itself
  mountPage(app, services, frequencyTables.page, ({ read, query: { by, ...span }, now }, every) =>
    readFrequency(read, { ...span, now, by: every ? undefined : by }),
  );
  mountPage(app, services, peopleTables.page, ({ read, query, now }) => readPeople(read, { ...query, now }));
  mount(app, services, peopleFigureRoutes.own, ({ read, query, now, request }) =>
    readOwnFigures(read, { ...query, now, personId: request.session!.personId }),
  );
}

// How often callbacks come, and people and pairs against what was to be expected.
import type { FastifyInstance, FastifyReply } from 'fastify';
import { frequencyRoutes } from '@backsight/contract/liability/frequency';
import { peopleFigureRoutes } from '@backsight/contract/liability/people';
import { exportFrequency } from '@backsight/usecases/liability/frequency/exportFrequency';
import { readFrequency } from '@backsight/usecases/liability/frequency/readFrequency';
import { exportPeople } from '@backsight/usecases/liability/people/exportPeople';
import { readOwnFigures, readPeople } from '@backsight/usecases/liability/people/readPeople';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

const table = (reply: FastifyReply, name: string): FastifyReply =>
  reply.type('text/csv; charset=utf-8; header=present').header('content-disposition', `attachment; filename="${name}.csv"`);

export function frequencyApi(app: FastifyInstance, services: Services): void {
  mount(app, services, frequencyRoutes.page, ({ read, query, now }) => readFrequency(read, { ...query, now }));
  mount(app, services, frequencyRoutes.table, async ({ read, query, now, reply }) => {
    const text = await exportFrequency(read, { ...query, now });
    table(reply, `callbacks-by-${query.by}`);
    return text;
  });
  mount(app, services, peopleFigureRoutes.page, ({ read, query, now }) => readPeople(read, { ...query, now }));
  mount(app, services, peopleFigureRoutes.table, async ({ read, query, now, reply }) => {
    const text = await exportPeople(read, { ...query, now });
    table(reply, `callbacks-of-${query.of}`);
    return text;
  });
  mount(app, services, peopleFigureRoutes.own, ({ read, query, now, request }) =>
    readOwnFigures(read, { ...query, now, personId: request.session!.personId }),
  );
}

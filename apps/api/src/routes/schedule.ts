// Starts, visits and the week.
import type { FastifyInstance } from 'fastify';
import { scheduleRoutes as routes } from '@backsight/contract/schedule';
import { travelRoutes } from '@backsight/contract/schedule/travel';
import { accept } from '@backsight/domain/shared/outcome';
import { addVisit, moveVisit, previewMove } from '@backsight/usecases/jobs/moveVisit';
import { rehearseMove } from '@backsight/usecases/jobs/rehearseMove';
import { setPlace } from '@backsight/usecases/jobs/setPlace';
import { setState } from '@backsight/usecases/jobs/setState';
import { readPlace } from '@backsight/usecases/jobs/readQuote';
import { findStarts } from '@backsight/usecases/schedule/findStarts';
import { markDrive } from '@backsight/usecases/schedule/markDrive';
import { readTravel } from '@backsight/usecases/schedule/readTravel';
import { readWeek } from '@backsight/usecases/schedule/readWeek';
import { refitTravel, useFit } from '@backsight/usecases/schedule/refitTravel';
import { addTravelRule, endRule } from '@backsight/usecases/schedule/travelRules';
import { mount } from '../http/mount.ts';
import { problemOf } from '../http/problem.ts';
import { askAhead } from '../http/roadService.ts';
import type { Services } from '../http/services.ts';

export function scheduleApi(app: FastifyInstance, services: Services): void {
  mount(app, services, routes.starts, ({ read, now, body }) => {
    askAhead(services, body.place);
    return findStarts(read, now, body);
  });
  mount(app, services, routes.move, ({ act, params, version, body: { startsAt, first, second, ...wish } }) =>
    act(moveVisit, { id: params.id, version, start: { startsAt, first, second }, ...wish, publicUrl: services.config.publicUrl }),
  );
  mount(app, services, routes.rehearseMove, async ({ rehearse, params, version, body: { startsAt, first, second, ...wish } }) => {
    const input = { id: params.id, version, start: { startsAt, first, second }, ...wish, publicUrl: services.config.publicUrl };
    const answer = await rehearse(rehearseMove, input);
    if (!answer.ok) return answer;
    const { refused, ...rest } = answer.value;
    return accept({ ...rest, problem: refused && problemOf(refused) });
  });
  mount(app, services, routes.previewMove, ({ read, now, params, body }) => previewMove(read, now, { id: params.id, ...body }));
  mount(app, services, routes.addVisit, ({ act, params, body }) => act(addVisit, { jobId: params.id, ...body }));
  travelApi(app, services);
  mount(app, services, routes.week, ({ read, now, query, actor }) => readWeek(read, now, query.from, actor));
}

function travelApi(app: FastifyInstance, services: Services): void {
  mount(app, services, travelRoutes.travel, ({ read }) => readTravel(read));
  mount(app, services, travelRoutes.addRule, ({ act, body }) => act(addTravelRule, body));
  mount(app, services, travelRoutes.endRule, ({ act, params }) => act(endRule, { id: params.id }));
  mount(app, services, travelRoutes.refit, ({ act, body }) => act(refitTravel, body));
  mount(app, services, travelRoutes.use, ({ act, version, body }) => act(useFit, { version, ...body }));
  mount(app, services, travelRoutes.mark, ({ act, params, body }) => act(markDrive, { visitId: params.id, ...body }));
  mount(app, services, travelRoutes.placeOf, ({ read, query }) => readPlace(read, query));
  mount(app, services, travelRoutes.setPlace, ({ act, params, version, body }) => act(setPlace, { id: params.id, version, ...body }));
  mount(app, services, travelRoutes.setState, ({ act, params, version, body }) => act(setState, { id: params.id, version, ...body }));
}

// Plans: asked for, watched, stopped, accepted; and what they must keep.
import type { FastifyInstance } from 'fastify';
import { planRoutes as routes } from '@backsight/contract/plans';
import { closureRoutes } from '@backsight/contract/plans/closures';
import { keptRoutes } from '@backsight/contract/plans/kept';
import { whatIfRoutes } from '@backsight/contract/plans/whatIf';
import { acceptPlan } from '@backsight/usecases/schedule/acceptPlan';
import { askDayPlan, askSickCall } from '@backsight/usecases/schedule/askPlan';
import { askWeatherPlan, closeForWeather, liftClosure } from '@backsight/usecases/schedule/closures';
import { breakOffPlan } from '@backsight/usecases/schedule/endPlan';
import { lockVisit, promiseWindow, readKept } from '@backsight/usecases/schedule/keepVisit';
import { readClosures } from '@backsight/usecases/schedule/readClosures';
import { readPlan, readPlans } from '@backsight/usecases/schedule/readPlan';
import { tickCall } from '@backsight/usecases/schedule/tickCall';
import { askWhatIf, readWhatIf } from '@backsight/usecases/schedule/whatIf';
import { mount } from '../http/mount.ts';
import type { Services } from '../http/services.ts';

const STOPPED = 'It was stopped.';

export function plansApi(app: FastifyInstance, services: Services): void {
  const { planner } = services;
  mount(app, services, routes.list, ({ read, query }) => {
    planner.expect();
    return readPlans(read, [query.kind]);
  });
  mount(app, services, routes.askDays, async ({ act, body }) => {
    const asked = await act(askDayPlan, body);
    if (asked.ok) planner.make(asked.value.id);
    return asked;
  });
  mount(app, services, routes.askSick, async ({ act, body }) => {
    const asked = await act(askSickCall, body);
    if (asked.ok) planner.make(asked.value.id);
    return asked;
  });
  mount(app, services, routes.one, async ({ read, now, params }) => {
    const progress = planner.progress(params.id);
    const plan = await readPlan(read, now, params.id);
    return plan.ok ? { ...plan.value, progress: plan.value.state === 'asked' ? progress : null } : plan;
  });
  mount(app, services, routes.stop, async ({ act, params }) =>
    // Another service may be making it: what that one finds is then not kept.
    planner.stop(params.id) ? { id: params.id } : act(breakOffPlan, { id: params.id, state: 'stopped', note: STOPPED }),
  );
  mount(app, services, routes.accept, ({ act, params, body }) =>
    act(acceptPlan, { id: params.id, groups: body.groups, publicUrl: services.config.publicUrl }),
  );
  mount(app, services, routes.callDone, ({ act, params, body }) => act(tickCall, { id: params.id, done: body.done }));
  mount(app, services, closureRoutes.closures, ({ read, now }) => readClosures(read, now));
  mount(app, services, closureRoutes.close, ({ act, body }) => act(closeForWeather, body));
  mount(app, services, closureRoutes.lift, ({ act, params }) => act(liftClosure, { id: params.id }));
  mount(app, services, closureRoutes.askWeather, async ({ act, params, body }) => {
    const asked = await act(askWeatherPlan, { ...body, closureId: params.id });
    if (asked.ok) planner.make(asked.value.id);
    return asked;
  });
  mount(app, services, whatIfRoutes.askWhatIf, async ({ act, body }) => {
    const asked = await act(askWhatIf, body);
    if (asked.ok) planner.make(asked.value.id);
    return asked;
  });
  mount(app, services, whatIfRoutes.whatIf, async ({ read, params }) => {
    const progress = planner.progress(params.id);
    const plan = await readWhatIf(read, params.id);
    return plan.ok ? { ...plan.value, progress: plan.value.state === 'asked' ? progress : null } : plan;
  });
  mount(app, services, keptRoutes.kept, ({ read, params }) => readKept(read, params.id));
  mount(app, services, keptRoutes.promise, ({ act, params, version, body }) =>
    act(promiseWindow, { id: params.id, version, window: body.window }),
  );
  mount(app, services, keptRoutes.lock, ({ act, params, version, body }) =>
    act(lockVisit, { id: params.id, version, because: body.because }),
  );
}

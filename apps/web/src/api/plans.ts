// Calls about plans: asking, watching, stopping, accepting; calls to clients; what plans must keep of a visit.
import { queryOptions } from '@tanstack/react-query';
import { planRoutes as routes, type ShownPlan } from '@backsight/contract/plans';
import { closureRoutes } from '@backsight/contract/plans/closures';
import { keptRoutes } from '@backsight/contract/plans/kept';
import { whatIfRoutes } from '@backsight/contract/plans/whatIf';
import type { BodyOf } from '@backsight/contract/route';
import { call } from './call.ts';

type Keyed<T> = T & { key: string };
export type PlanKind = ShownPlan['kind'];

const WATCH_MS = 400;

export const plansQuery = (kind: PlanKind) =>
  queryOptions({ queryKey: ['plans', kind], queryFn: ({ signal }) => call(routes.list, { query: { kind }, signal }) });
/** While the plan is being made it is asked for again and again. */
export const planQuery = (id: string) =>
  queryOptions({
    queryKey: ['plan', id],
    queryFn: ({ signal }) => call(routes.one, { params: { id }, signal }),
    refetchInterval: ({ state }) => (state.data?.state === 'asked' ? WATCH_MS : false),
  });
export const askDayPlan = ({ key, ...body }: Keyed<BodyOf<typeof routes.askDays>>) => call(routes.askDays, { body, key });
export const askSickCall = ({ key, ...body }: Keyed<BodyOf<typeof routes.askSick>>) => call(routes.askSick, { body, key });
export const stopPlan = (id: string) => call(routes.stop, { params: { id } });
export const acceptPlan = ({ id, groups, key }: { id: string; groups: string[]; key: string }) =>
  call(routes.accept, { params: { id }, body: { groups }, key });
export const tickCall = ({ id, done }: { id: string; done: boolean }) => call(routes.callDone, { params: { id }, body: { done } });

export const closuresQuery = queryOptions({ queryKey: ['closures'], queryFn: ({ signal }) => call(closureRoutes.closures, { signal }) });
export const closeForWeather = ({ key, ...body }: Keyed<BodyOf<typeof closureRoutes.close>>) => call(closureRoutes.close, { body, key });
export const liftClosure = (id: string) => call(closureRoutes.lift, { params: { id } });
export const askWeatherPlan = ({ closureId, key, id }: { closureId: string; key: string; id: string }) =>
  call(closureRoutes.askWeather, { params: { id: closureId }, body: { id }, key });

export const askWhatIf = ({ key, ...body }: Keyed<BodyOf<typeof whatIfRoutes.askWhatIf>>) => call(whatIfRoutes.askWhatIf, { body, key });
export const whatIfQuery = (id: string) =>
  queryOptions({
    queryKey: ['plan', id],
    queryFn: ({ signal }) => call(whatIfRoutes.whatIf, { params: { id }, signal }),
    refetchInterval: ({ state }) => (state.data?.state === 'asked' ? WATCH_MS : false),
  });

export const keptQuery = (id: string) =>
  queryOptions({ queryKey: ['kept', id], queryFn: ({ signal }) => call(keptRoutes.kept, { params: { id }, signal }) });

type Visit = { id: string; version: number };
export const promiseWindow = ({ id, version, ...body }: Visit & BodyOf<typeof keptRoutes.promise>) =>
  call(keptRoutes.promise, { params: { id }, version, body });
export const lockVisit = ({ id, version, ...body }: Visit & BodyOf<typeof keptRoutes.lock>) =>
  call(keptRoutes.lock, { params: { id }, version, body });

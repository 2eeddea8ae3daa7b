// Calls about plans: asking, watching, stopping, accepting; calls to clients; what plans must keep of a visit.
import { queryOptions } from '@tanstack/react-query';
import { planRoutes as routes, type ShownPlan } from '@backsight/contract/plans';
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

export const closuresQuery = queryOptions({ queryKey: ['closures'], queryFn: ({ signal }) => call(routes.closures, { signal }) });
export const closeForWeather = ({ key, ...body }: Keyed<BodyOf<typeof routes.close>>) => call(routes.close, { body, key });
export const liftClosure = (id: string) => call(routes.lift, { params: { id } });
export const askWeatherPlan = ({ closureId, key, id }: { closureId: string; key: string; id: string }) =>
  call(routes.askWeather, { params: { id: closureId }, body: { id }, key });

export const askWhatIf = ({ key, ...body }: Keyed<BodyOf<typeof routes.askWhatIf>>) => call(routes.askWhatIf, { body, key });
export const whatIfQuery = (id: string) =>
  queryOptions({
    queryKey: ['plan', id],
    queryFn: ({ signal }) => call(routes.whatIf, { params: { id }, signal }),
    refetchInterval: ({ state }) => (state.data?.state === 'asked' ? WATCH_MS : false),
  });

export const keptQuery = (id: string) =>
  queryOptions({ queryKey: ['kept', id], queryFn: ({ signal }) => call(routes.kept, { params: { id }, signal }) });

type Visit = { id: string; version: number };
export const promiseWindow = ({ id, version, ...body }: Visit & BodyOf<typeof routes.promise>) =>
  call(routes.promise, { params: { id }, version, body });
export const lockVisit = ({ id, version, ...body }: Visit & BodyOf<typeof routes.lock>) =>
  call(routes.lock, { params: { id }, version, body });

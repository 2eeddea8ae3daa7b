// Calls about who comes besides the pair, holds that are extended, and re-inspections.
import { queryOptions } from '@tanstack/react-query';
import { crewRoutes as routes, type ObserverReason } from '@backsight/contract/schedule/crew';
import type { BodyOf } from '@backsight/contract/route';
import { call } from './call.ts';

export type NewProvider = BodyOf<typeof routes.addProvider>;
export type ProviderEdit = BodyOf<typeof routes.changeProvider>;
export type Reinspection = BodyOf<typeof routes.holdReinspection>;

export const providersQuery = queryOptions({ queryKey: ['providers'], queryFn: ({ signal }) => call(routes.providers, { signal }) });
export const crewQuery = (id: string) =>
  queryOptions({ queryKey: ['jobs', id, 'crew'], queryFn: ({ signal }) => call(routes.crew, { params: { id }, signal }) });

export const addProvider = ({ key, ...body }: NewProvider & { key: string }) => call(routes.addProvider, { body, key });
export const changeProvider = ({ id, version, ...body }: ProviderEdit & { id: string; version: number }) =>
  call(routes.changeProvider, { params: { id }, version, body });
export const chooseProvider = (sent: { id: string; version: number; service: string; providerId: string; agreedCents: number }) =>
  call(routes.chooseProvider, {
    params: { id: sent.id, service: sent.service },
    version: sent.version,
    body: { providerId: sent.providerId, agreedCents: sent.agreedCents },
  });
export const addObserver = (sent: { visitId: string; personId: string; reason: ObserverReason; key: string }) =>
  call(routes.addObserver, { params: { id: sent.visitId }, body: { personId: sent.personId, reason: sent.reason }, key: sent.key });
export const removeObserver = (sent: { visitId: string; personId: string }) =>
  call(routes.removeObserver, { params: { id: sent.visitId, personId: sent.personId } });
export const extendHold = (sent: { id: string; version: number }) =>
  call(routes.extendHold, { params: { id: sent.id }, version: sent.version });
export const holdReinspection = ({ parentId, key, ...body }: Reinspection & { parentId: string; key: string }) =>
  call(routes.holdReinspection, { params: { id: parentId }, body, key });

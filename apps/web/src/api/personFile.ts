// Calls about what is on file of people: licenses, qualifications, hours, absences, pairing rules, where they must not go, kit.
import { queryOptions } from '@tanstack/react-query';
import { personFileRoutes as routes } from '@backsight/contract/people/file';
import { kitRoutes } from '@backsight/contract/people/kit';
import type { BodyOf } from '@backsight/contract/route';
import { call } from './call.ts';

type Keyed = { key: string; personId: string };

export const fileQuery = (id: string) =>
  queryOptions({ queryKey: ['people', id, 'file'], queryFn: ({ signal }) => call(routes.file, { params: { id }, signal }) });
export const addLicense = ({ key, personId, ...body }: BodyOf<typeof routes.addLicense> & Keyed) =>
  call(routes.addLicense, { params: { id: personId }, body, key });
export const endLicense = ({ id, untilDay }: { id: string; untilDay: string }) =>
  call(routes.endLicense, { params: { id }, body: { untilDay } });
export const addQualification = ({ key, personId, ...body }: BodyOf<typeof routes.addQualification> & Keyed) =>
  call(routes.addQualification, { params: { id: personId }, body, key });
export const endQualification = ({ id, untilDay }: { id: string; untilDay: string }) =>
  call(routes.endQualification, { params: { id }, body: { untilDay } });
export const setHours = ({ personId, ...body }: BodyOf<typeof routes.setHours> & { personId: string }) =>
  call(routes.setHours, { params: { id: personId }, body });
export const addAbsence = ({ key, personId, ...body }: BodyOf<typeof routes.addAbsence> & Keyed) =>
  call(routes.addAbsence, { params: { id: personId }, body, key });
export const decideAbsence = ({ id, ...body }: BodyOf<typeof routes.decideAbsence> & { id: string }) =>
  call(routes.decideAbsence, { params: { id }, body });
export const addException = ({ key, personId, ...body }: BodyOf<typeof routes.addException> & Keyed) =>
  call(routes.addException, { params: { id: personId }, body, key });
export const withdrawException = (id: string) => call(routes.withdrawException, { params: { id } });
export const withdrawAbsence = (id: string) => call(routes.withdrawAbsence, { params: { id } });
export const addBar = ({ key, personId, ...body }: BodyOf<typeof routes.addBar> & Keyed) =>
  call(routes.addBar, { params: { id: personId }, body, key });
export const liftBar = (id: string) => call(routes.liftBar, { params: { id } });
export const barChoicesQuery = (kind: 'property' | 'party', text: string) =>
  queryOptions({
    queryKey: ['bar-choices', kind, text],
    queryFn: ({ signal }) => call(routes.barChoices, { query: { kind, text }, signal }),
    enabled: text.trim().length > 2,
  });

export const pairingQuery = queryOptions({ queryKey: ['pairing-rules'], queryFn: ({ signal }) => call(routes.pairing, { signal }) });
export const addPairing = ({ key, ...body }: BodyOf<typeof routes.addPairing> & { key: string }) => call(routes.addPairing, { body, key });
export const endPairing = (id: string) => call(routes.endPairing, { params: { id } });
export const lapsingQuery = (days: number) =>
  queryOptions({ queryKey: ['lapsing', days], queryFn: ({ signal }) => call(routes.lapsing, { query: { days }, signal }) });

export const kitQuery = queryOptions({ queryKey: ['kit'], queryFn: ({ signal }) => call(kitRoutes.kit, { signal }) });
export const addKit = ({ key, ...body }: BodyOf<typeof kitRoutes.add> & { key: string }) => call(kitRoutes.add, { body, key });
export const changeKit = ({ id, ...body }: BodyOf<typeof kitRoutes.change> & { id: string }) =>
  call(kitRoutes.change, { params: { id }, body });

type OfPiece = { key: string; itemId: string };
export const noteCheck = ({ key, itemId, ...body }: BodyOf<typeof kitRoutes.check> & OfPiece) =>
  call(kitRoutes.check, { params: { id: itemId }, body, key });
export const failKit = ({ key, itemId, ...body }: BodyOf<typeof kitRoutes.fail> & OfPiece) =>
  call(kitRoutes.fail, { params: { id: itemId }, body, key });
export const swapsQuery = (itemId: string, visitId: string | null) =>
  queryOptions({
    queryKey: ['kit', itemId, 'swaps', visitId],
    queryFn: ({ signal }) => call(kitRoutes.swaps, { params: { id: itemId }, query: { visitId: visitId! }, signal }),
    enabled: visitId !== null,
  });
export const setSizes = ({ personId, ...body }: BodyOf<typeof kitRoutes.sizes> & { personId: string }) =>
  call(kitRoutes.sizes, { params: { id: personId }, body });
export const setCheckNeeds = ({ kind, ...body }: BodyOf<typeof kitRoutes.needs> & { kind: string }) =>
  call(kitRoutes.needs, { params: { kind }, body });

// Driving times: recorded drives, what is said by hand, fits to the drives, the road service; and places of properties.
import { z } from 'zod';
import { lat, lon, OFFICE_ROLES } from '../jobs.ts';
import { usState } from '../jobs/shapes.ts';
import { day, id, idParams, instant, line, made, prose, route, warnings } from '../route.ts';

const text = z.string();
const area = 'schedule';
const km = z.number().min(0.05).max(100);
const where = z.strictObject({ name: line(80), lat, lon, radiusKm: km });
const place = z.strictObject({ name: text, lat, lon, radiusKm: z.number() });

const fit = z.strictObject({
  id,
  fromDay: day,
  untilDay: day,
  recordedAt: instant,
  bands: z.array(
    z.strictObject({
      upToKm: z.number().nullable(),
      drives: z.int(),
      ratio: z.number().nullable(),
      standardKmh: z.number(),
      kmh: z.number(),
      fitted: z.boolean(),
    }),
  ),
  factors: z.array(z.strictObject({ a: text, b: text, factor: z.number(), drives: z.int() })),
  used: z.int(),
  leftOut: z.int(),
  missBefore: z.number().nullable(),
  missAfter: z.number().nullable(),
});
export type TravelFit = z.output<typeof fit>;

const rule = z.strictObject({
  id,
  kind: z.enum(['between', 'within']),
  a: place,
  b: place.nullable(),
  minutes: z.int().nullable(),
  percent: z.int().nullable(),
  reason: text,
  by: text,
  recordedAt: instant,
});
export type TravelRule = z.output<typeof rule>;

const travel = z.strictObject({
  version: z.int(),
  follow: z.boolean(),
  inUse: fit.nullable(),
  fits: z.array(fit),
  rules: z.array(rule),
  towns: z.array(z.strictObject({ name: text, lat, lon })),
  standard: z.array(z.strictObject({ upToKm: z.number().nullable(), detour: z.number(), kmh: z.number() })),
  enough: z.strictObject({ inBand: z.int(), betweenTowns: z.int() }),
  service: z
    .strictObject({ name: text, answered: z.int(), noWay: z.int(), filledAt: instant.nullable(), lastError: text.nullable() })
    .nullable(),
});
export type TravelPage = z.output<typeof travel>;

export const travelRoutes = {
  travel: route({
    method: 'GET',
    path: '/api/travel',
    area,
    summary: 'Where driving times come from',
    who: OFFICE_ROLES,
    reply: travel,
  }),
  addRule: route({
    method: 'POST',
    path: '/api/travel/rules',
    area,
    summary: 'Say by hand how long a drive takes',
    who: OFFICE_ROLES,
    creates: true,
    reply: made,
    body: z.discriminatedUnion('kind', [
      z.strictObject({ id, kind: z.literal('between'), a: where, b: where, minutes: z.int().min(1).max(600), reason: prose(300) }),
      z.strictObject({
        id,
        kind: z.literal('within'),
        a: where,
        percent: z
          .int()
          .min(-50)
          .max(300)
          .refine((percent) => percent !== 0, 'Nothing would change.'),
        reason: prose(300),
      }),
    ]),
  }),
  endRule: route({
    method: 'DELETE',
    path: '/api/travel/rules/:id',
    area,
    summary: 'End what was said of a drive',
    who: OFFICE_ROLES,
    params: idParams,
    reply: made,
  }),
  refit: route({
    method: 'POST',
    path: '/api/travel/fits',
    area,
    summary: 'Fit speeds to the recorded drives of the last year',
    who: OFFICE_ROLES,
    creates: true,
    reply: z.strictObject({ id, used: z.int() }),
    body: made,
  }),
  use: route({
    method: 'PUT',
    path: '/api/travel/use',
    area,
    summary: 'Choose the fit that is used, or the standard speeds',
    who: ['owner', 'office_manager'],
    edits: true,
    reply: z.strictObject({ version: z.int() }),
    body: z.strictObject({ fitId: id.nullable(), follow: z.boolean() }),
  }),
  mark: route({
    method: 'POST',
    path: '/api/visits/:id/drives',
    area,
    summary: 'Record setting out to a visit or arriving there; a later record corrects an earlier one',
    who: 'signed_in',
    of: 'visit',
    creates: true,
    params: idParams,
    reply: made,
    body: z.strictObject({ id, personId: id, kind: z.enum(['set_out', 'arrived']), at: instant }),
  }),
  placeOf: route({
    method: 'GET',
    path: '/api/places',
    area,
    summary: 'The place of a town or a ZIP code, with its time zone',
    who: OFFICE_ROLES,
    query: z.strictObject({
      town: line(80),
      zip: z
        .string()
        .regex(/^\d{5}$/, 'A ZIP code has five digits.')
        .optional(),
    }),
    reply: z.strictObject({ lat, lon, zip: text, state: text, placeBy: z.enum(['town', 'zip', 'exact']), name: text }),
  }),
  setPlace: route({
    method: 'PUT',
    path: '/api/properties/:id/place',
    area,
    summary: 'Set the exact place of a property; visits that no longer fit are named',
    who: OFFICE_ROLES,
    edits: true,
    params: idParams,
    reply: z.strictObject({ id, version: z.int(), warnings }),
    body: z.strictObject({ lat, lon }),
  }),
  setState: route({
    method: 'PUT',
    path: '/api/properties/:id/state',
    area,
    summary: 'Say in which state a property lies; the rules of that state count for its papers',
    who: OFFICE_ROLES,
    edits: true,
    params: idParams,
    reply: z.strictObject({ id, version: z.int() }),
    body: z.strictObject({ state: usState }),
  }),
};

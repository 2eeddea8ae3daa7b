// The firm's kit.
import { z } from 'zod';
import { day, id, idParams, line, made, route } from '../route.ts';

const kind = z.strictObject({ key: z.string(), name: z.string(), calibrated: z.boolean(), carriedByAll: z.boolean() });
const item = z.strictObject({
  id,
  officeId: id,
  kind: z.string(),
  name: z.string(),
  serial: z.string(),
  calibratedUntil: day.nullable(),
  endedOn: day.nullable(),
  note: z.string(),
});
export type KitItem = z.output<typeof item>;
export type KitKind = z.output<typeof kind>;

const note = z
  .string()
  .trim()
  .max(400)
  .regex(/^[^\u0000]*$/, 'must not contain a zero character');

export const kitRoutes = {
  kit: route({
    method: 'GET',
    path: '/api/kit',
    area: 'people',
    summary: 'Kinds and pieces of kit',
    who: 'signed_in',
    reply: z.strictObject({ kinds: z.array(kind), items: z.array(item) }),
  }),
  add: route({
    method: 'POST',
    path: '/api/kit',
    area: 'people',
    summary: 'Add a piece of kit',
    who: ['owner', 'office_manager', 'lead_inspector'],
    creates: true,
    reply: made,
    body: z.strictObject({ id, officeId: id, kind: line(60), serial: line(80), calibratedUntil: day.nullable(), note }),
  }),
  change: route({
    method: 'PATCH',
    path: '/api/kit/:id',
    area: 'people',
    summary: 'Note a calibration, take a piece out of service or back',
    who: ['owner', 'office_manager', 'lead_inspector'],
    params: idParams,
    reply: made,
    body: z.strictObject({ calibratedUntil: day.nullable(), endedOn: day.nullable(), note }).partial(),
  }),
};

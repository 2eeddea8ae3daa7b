// The firm's kit.
import { z } from 'zod';
import { CHECK_KINDS, SIZES, type CheckKind, type Size } from '@backsight/domain/people/kit';
import { day, id, idParams, line, made, route } from '../route.ts';

const kind = z.strictObject({
  key: z.string(),
  name: z.string(),
  calibrated: z.boolean(),
  carriedByAll: z.boolean(),
  /** Each member of a crew wears a piece in his size. */
  worn: z.boolean(),
  /** Pieces of another kind that are at least so long. */
  ofKind: z.string().nullable(),
  minFeet: z.int().nullable(),
});
const checkKind = z.enum(Object.keys(CHECK_KINDS) as [CheckKind, ...CheckKind[]]);
const everyDays = z.int().min(1).max(1100);
const seats = z.int().min(1).max(15).nullable();
const ladderFeet = z.int().min(1).max(60).nullable();
const size = z.enum(SIZES).nullable();
const item = z.strictObject({
  id,
  officeId: id,
  kind: z.string(),
  name: z.string(),
  serial: z.string(),
  calibratedUntil: day.nullable(),
  endedOn: day.nullable(),
  note: z.string(),
  seats,
  ladderFeet,
  size: z.string().nullable(),
  /** Checks that a piece in service needs; never done and due: null. */
  checks: z.array(z.strictObject({ checkKind, everyDays, doneOn: day.nullable(), dueOn: day.nullable() })),
});
const swap = z.strictObject({
  people: z.array(z.strictObject({ id, name: z.string(), phone: z.string() })),
  from: z.enum(['spare', 'carried']),
  minutes: z.int(),
  sentence: z.string(),
});
export type KitSwap = z.output<typeof swap>;
export { CHECK_KINDS, SIZES, type CheckKind, type Size };
export type KitItem = z.output<typeof item>;
export type KitKind = z.output<typeof kind>;

const note = z
  .string()
  .trim()
  .max(400)
  .regex(/^[^\u0000]*$/, 'There is a character in it that cannot be kept: type it anew.');

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
    body: z.strictObject({
      id,
      officeId: id,
      kind: line(60),
      serial: line(80),
      calibratedUntil: day.nullable(),
      note,
      seats: seats.default(null),
      ladderFeet: ladderFeet.default(null),
      size: size.default(null),
    }),
  }),
  change: route({
    method: 'PATCH',
    path: '/api/kit/:id',
    area: 'people',
    summary: 'Note a calibration, take a piece out of service or back',
    who: ['owner', 'office_manager', 'lead_inspector'],
    params: idParams,
    reply: made,
    body: z.strictObject({ calibratedUntil: day.nullable(), endedOn: day.nullable(), note, seats, ladderFeet, size }).partial(),
  }),
  check: route({
    method: 'POST',
    path: '/api/kit/:id/checks',
    area: 'people',
    summary: 'Note a check of a piece; one that did not pass is out of service at once',
    who: 'signed_in',
    of: 'everybody',
    creates: true,
    params: idParams,
    reply: z.strictObject({ id, out: z.boolean() }),
    body: z.strictObject({ id, checkKind, onDay: day, passed: z.boolean(), note }),
  }),
  fail: route({
    method: 'POST',
    path: '/api/kit/:id/failure',
    area: 'people',
    summary: 'A piece failed on site: take it out of service at once',
    who: 'signed_in',
    of: 'everybody',
    creates: true,
    params: idParams,
    reply: made,
    body: z.strictObject({ id, note, visitId: id.nullable() }),
  }),
  swaps: route({
    method: 'GET',
    path: '/api/kit/:id/swaps',
    area: 'people',
    summary: 'Who could bring another piece to a visit of today, soonest there first',
    who: 'signed_in',
    of: 'everybody',
    params: idParams,
    query: z.strictObject({ visitId: id }),
    reply: z.array(swap),
  }),
  sizes: route({
    method: 'PUT',
    path: '/api/people/:id/sizes',
    area: 'people',
    summary: 'Set the sizes in which a person wears kit',
    who: ['owner', 'office_manager', 'lead_inspector'],
    params: idParams,
    reply: z.strictObject({ id }),
    body: z.strictObject({ sizes: z.array(z.strictObject({ kind: line(60), size })).max(20) }),
  }),
  needs: route({
    method: 'PUT',
    path: '/api/kit-kinds/:kind/checks',
    area: 'people',
    summary: 'Set which checks a kind of kit needs, and how often',
    who: ['owner', 'office_manager', 'lead_inspector'],
    params: z.strictObject({ kind: line(60) }),
    reply: z.strictObject({ kind: z.string() }),
    body: z.strictObject({ checks: z.array(z.strictObject({ checkKind, everyDays })).max(3) }),
  }),
};

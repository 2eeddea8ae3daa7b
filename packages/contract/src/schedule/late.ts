// Running late: the visits behind that no longer fit, and what their clients are told.
import { z } from 'zod';
import { id, idParams, instant, made, route } from '../route.ts';

const minutes = z.coerce.number().int().min(1).max(600);
const mail = z.strictObject({ partyId: id, name: z.string(), email: z.string(), subject: z.string(), body: z.string() });
export const late = z.strictObject({
  visitId: id,
  minutes: z.int(),
  address: z.string(),
  startsAt: instant,
  lines: z.array(
    z.strictObject({
      visitId: id,
      jobId: id,
      jobNumber: z.int(),
      address: z.string(),
      startsAt: instant,
      expectedAt: instant,
      lateMinutes: z.int(),
      mail: z.array(mail),
      call: z.array(z.string()),
      /** Who opens the house, with the phone number, to be called; null where nobody is noted. */
      opens: z.string().nullable(),
    }),
  ),
});
export type Late = z.output<typeof late>;

export const lateRoutes = {
  preview: route({
    method: 'GET',
    path: '/api/visits/:id/late',
    area: 'schedule',
    summary: 'What would no longer fit behind a visit that is late, and what clients would be told',
    who: 'signed_in',
    of: 'visit',
    params: idParams,
    query: z.strictObject({ minutes }),
    reply: late,
  }),
  say: route({
    method: 'POST',
    path: '/api/visits/:id/late',
    area: 'schedule',
    summary: 'Say that a visit is late: its clients and those behind it are told once',
    who: 'signed_in',
    of: 'visit',
    creates: true,
    params: idParams,
    body: z.strictObject({ id, minutes: z.int().min(1).max(600) }),
    reply: made.extend({ visits: z.int(), mails: z.int() }),
  }),
};

// What plans must keep of a visit.
import { z } from 'zod';
import { OFFICE_ROLES } from '../jobs.ts';
import { id, idParams, instant, line, route, wholeMinute } from '../route.ts';

const text = z.string();
const kept = z.strictObject({
  id,
  version: z.int(),
  state: text,
  jobId: id,
  jobNumber: z.int(),
  kindName: text,
  address: text,
  startsAt: instant,
  window: z.strictObject({ from: instant, until: instant }).nullable(),
  lock: z.strictObject({ at: instant, by: text, because: text }).nullable(),
});
export type KeptVisit = z.output<typeof kept>;

const area = 'schedule';
export const keptRoutes = {
  kept: route({
    method: 'GET',
    path: '/api/visits/:id/kept',
    area,
    summary: 'What plans must keep of a visit: the promised window, and whether it stays as it is',
    who: OFFICE_ROLES,
    params: idParams,
    reply: kept,
  }),
  promise: route({
    method: 'PUT',
    path: '/api/visits/:id/promise',
    area,
    summary: 'Say what the client was promised: a window of starts, or the very start',
    who: OFFICE_ROLES,
    edits: true,
    params: idParams,
    body: z.strictObject({ window: z.strictObject({ from: wholeMinute, until: wholeMinute }).nullable() }),
    reply: z.strictObject({ id, version: z.int() }),
  }),
  lock: route({
    method: 'PUT',
    path: '/api/visits/:id/lock',
    area,
    summary: 'Keep plans from changing a visit, with the reason, or let them again',
    who: OFFICE_ROLES,
    edits: true,
    params: idParams,
    body: z.strictObject({ because: line(200).nullable() }),
    reply: z.strictObject({ id, version: z.int() }),
  }),
};

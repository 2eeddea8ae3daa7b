// Charges that were waived.
import { z } from 'zod';
import { id, instant, route } from '../route.ts';

const text = z.string();
const waiver = z.strictObject({
  id,
  jobId: id,
  jobNumber: z.int(),
  address: text,
  what: text,
  cents: z.int(),
  reason: text,
  at: instant,
  by: text.nullable(),
});
export type WaiverLine = z.output<typeof waiver>;

/** What was waived. */
export const WAIVED: Record<string, string> = {
  moved_late: 'moved late',
  cancelled_late: 'cancelled late',
  fee_kept: 'a dearer time at the fee agreed before',
  refused_at_the_door: 'refused at the door',
  nobody_came: 'nobody came',
  stopped_for_safety: 'stopped for safety',
  stopped_by_client: 'stopped by the client',
};

export const waiverRoutes = {
  list: route({
    method: 'GET',
    path: '/api/waivers',
    area: 'jobs',
    summary: 'Charges for moves, cancellings and visits without access that were waived, with the reason',
    who: ['owner'],
    reply: z.strictObject({ items: z.array(waiver) }),
  }),
};

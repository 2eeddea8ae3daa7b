// Holds on the evidence of a job.
import { z } from 'zod';
import { id, idParams, instant, made, prose, route } from '../route.ts';
import { JUDGES } from './shapes.ts';

const DESK = ['owner', 'lead_inspector', 'office_manager'] as const;
const hold = z.strictObject({
  held: z.boolean(),
  /** Numbers of the open callbacks that hold it. */
  callbacks: z.array(z.int()),
  /** Set by hand, the newest first; reasons are for owner and lead inspector, for others absent. */
  holds: z.array(
    z.strictObject({
      id,
      by: z.string(),
      at: instant,
      liftedBy: z.string().nullable(),
      liftedAt: instant.nullable(),
      reason: z.string().optional(),
      liftReason: z.string().nullable().optional(),
    }),
  ),
});
export type EvidenceHold = z.output<typeof hold>;

export const holdRoutes = {
  ofJob: route({
    method: 'GET',
    path: '/api/jobs/:id/hold',
    area: 'callbacks',
    summary: 'Whether the evidence of a job is held, and why',
    who: DESK,
    params: idParams,
    reply: hold,
  }),
  hold: route({
    method: 'POST',
    path: '/api/jobs/:id/holds',
    area: 'callbacks',
    summary: 'Hold the evidence of a job by hand: nothing of it is erased or taken away',
    who: JUDGES,
    params: idParams,
    creates: true,
    reply: made,
    body: z.strictObject({ holdId: id, words: prose(2000) }),
  }),
  lift: route({
    method: 'POST',
    path: '/api/holds/:id/lift',
    area: 'callbacks',
    summary: 'Lift a hold that was set by hand, with the reason',
    who: ['owner'],
    params: idParams,
    creates: true,
    reply: made,
    body: z.strictObject({ words: prose(2000) }),
  }),
};

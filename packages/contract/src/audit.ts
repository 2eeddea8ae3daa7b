// The audit trail: what was done, by whom, on which thing; and the proof that nothing was changed or cut out.
import { z } from 'zod';
import { id, instant, line, page, route } from './route.ts';

const entry = z.strictObject({
  id,
  at: instant,
  actorKind: z.enum(['person', 'client', 'service']),
  actorName: z.string().nullable(),
  operation: z.string(),
  /** What was done, in words. */
  done: z.string(),
  thingKind: z.string(),
  thingId: z.string(),
  /** What people call it, such as job 1044; null where its kind says enough. */
  thingName: z.string().nullable(),
  details: z.record(z.string(), z.unknown()),
  sealNo: z.int().nullable(),
});
export type AuditEntry = z.output<typeof entry>;

export const auditRoutes = {
  list: route({
    method: 'GET',
    path: '/api/audit',
    area: 'audit',
    summary: 'The audit trail, newest first',
    who: ['owner'],
    query: z.strictObject({ before: id.optional(), thingKind: line(60).optional(), thingId: id.optional() }),
    reply: page(entry),
  }),
  check: route({
    method: 'GET',
    path: '/api/audit/check',
    area: 'audit',
    summary: 'Walk the whole chain of seals',
    who: ['owner'],
    reply: z.strictObject({ sealed: z.int(), unsealed: z.int(), brokenAt: z.int().nullable(), newest: z.string().nullable() }),
  }),
};

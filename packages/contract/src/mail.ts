// The outbox.
import { z } from 'zod';
import { id, idParams, instant, made, page, route } from './route.ts';

const OFFICE = ['owner', 'office_manager'] as const;
export const mail = z.strictObject({
  id,
  toAddress: z.string(),
  toName: z.string(),
  subject: z.string(),
  body: z.string(),
  state: z.enum(['waiting', 'sent', 'kept', 'given_up']),
  attempts: z.int(),
  lastError: z.string().nullable(),
  nextTryAt: instant,
  sentAt: instant.nullable(),
  aboutKind: z.string(),
  aboutId: id,
  recordedAt: instant,
});
export type MailShown = z.output<typeof mail>;

export const mailRoutes = {
  list: route({
    method: 'GET',
    path: '/api/mail',
    area: 'mail',
    summary: 'Outgoing mail, newest first',
    who: OFFICE,
    query: z.strictObject({ before: id.optional(), limit: z.coerce.number().int().min(1).max(100).default(30) }),
    reply: page(mail),
  }),
  again: route({
    method: 'POST',
    path: '/api/mail/:id/try',
    area: 'mail',
    summary: 'Try a stuck mail again now',
    who: OFFICE,
    creates: true,
    params: idParams,
    body: z.strictObject({}),
    reply: made,
  }),
};

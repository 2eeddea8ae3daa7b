// The outbox: its mails, how they went, and how it runs.
import { z } from 'zod';
import { id, idParams, instant, line, made, page, route } from './route.ts';

const OFFICE = ['owner', 'office_manager'] as const;
const state = z.enum(['waiting', 'sent', 'kept', 'given_up', 'refused', 'bounced']);
export const mail = z.strictObject({
  id,
  /** Which wording it was written from; note: one of the firm's own; test: the test of the mail server. */
  kind: z.string(),
  toAddress: z.string(),
  toName: z.string(),
  subject: z.string(),
  body: z.string(),
  state,
  urgent: z.boolean(),
  attempts: z.int(),
  /** How often a server may have accepted it without our knowing, because the service died just then. */
  maybeTwice: z.int(),
  lastError: z.string().nullable(),
  nextTryAt: instant,
  sentAt: instant.nullable(),
  resendOf: id.nullable(),
  invitation: z.boolean(),
  attachments: z.array(z.string()),
  aboutKind: z.string(),
  aboutId: id,
  recordedAt: instant,
});
export type MailShown = z.output<typeof mail>;

const EVENING = 'A time from 18:00 to 23:59 is needed.';
const MORNING = 'A time from 4:00 to 12:00 is needed.';
const edit = z.strictObject({
  quietFromMinute: z.int().min(1080, EVENING).max(1439, EVENING),
  quietUntilMinute: z.int().min(240, MORNING).max(720, MORNING),
  signAfterDays: z.int().min(0).max(30),
  payBeforeDays: z.int().min(0).max(30),
  payOverdueDays: z.int().min(0).max(90),
  dayBefore: z.boolean(),
});
const settings = edit.extend({
  version: z.int(),
  pausedAt: instant.nullable(),
  pausedBy: z.string().nullable(),
  pauseReason: z.string().nullable(),
  /** Quiet hours right now. */
  quiet: z.boolean(),
  /** How SMTP_URL says that the server is reached; null: mail is only filed. */
  server: z
    .strictObject({
      host: z.string(),
      port: z.int(),
      tls: z.enum(['from the start', 'always', 'when offered']),
      user: z.string().nullable(),
    })
    .nullable(),
  badAddresses: z.array(z.strictObject({ address: z.string(), reason: z.string(), recordedAt: instant, people: z.array(z.string()) })),
});
export type MailSettings = z.output<typeof settings>;
export type MailSettingsEdit = z.output<typeof edit>;

const area = 'mail';
const act = { method: 'POST', area, who: OFFICE, creates: true } as const;
const nothing = z.strictObject({});
const paused = z.strictObject({ paused: z.boolean() });

export const mailRoutes = {
  list: route({
    method: 'GET',
    path: '/api/mail',
    area,
    summary: 'Outgoing mail, newest first',
    who: OFFICE,
    query: z.strictObject({ before: id.optional(), state: state.optional(), limit: z.coerce.number().int().min(1).max(100).default(30) }),
    reply: page(mail),
  }),
  again: route({ ...act, path: '/api/mail/:id/try', summary: 'Try a stuck mail again now', params: idParams, body: nothing, reply: made }),
  bounce: route({
    ...act,
    path: '/api/mail/:id/bounce',
    summary: 'Note that an accepted mail came back; its address is marked',
    params: idParams,
    body: z.strictObject({ reason: line(200) }),
    reply: made,
  }),
  anew: route({
    ...act,
    path: '/api/mail/:id/anew',
    summary: 'Send the same words as a new mail, to the same address or another',
    params: idParams,
    body: z.strictObject({ toAddress: z.email().max(200).nullable() }),
    reply: made,
  }),
  test: route({ ...act, path: '/api/mail/test', summary: 'Send a test mail to oneself', body: nothing, reply: made }),
  clearAddress: route({
    ...act,
    path: '/api/mail/clear-address',
    summary: 'An address from which mail came back is right after all',
    body: z.strictObject({ address: z.email().max(200) }),
    reply: z.strictObject({ cleared: z.boolean() }),
  }),
  pause: route({
    ...act,
    path: '/api/mail/pause',
    summary: 'Let no mail leave until it is resumed',
    body: z.strictObject({ reason: line(200) }),
    reply: paused,
  }),
  resume: route({ ...act, path: '/api/mail/resume', summary: 'Let mail leave again', body: nothing, reply: paused }),
  settings: route({
    method: 'GET',
    path: '/api/mail/settings',
    area,
    summary: 'Mail server, pause, quiet hours, reminders, and addresses from which mail came back',
    who: OFFICE,
    reply: settings,
  }),
  change: route({
    method: 'PUT',
    path: '/api/mail/settings',
    area,
    summary: 'Change quiet hours and reminders; 0 days switches a reminder off',
    who: OFFICE,
    edits: true,
    body: edit,
    reply: z.strictObject({ version: z.int() }),
  }),
};

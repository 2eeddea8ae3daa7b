// Contacts with people on a job, and the insurer's certificate that is sent to them.
import { z } from 'zod';
import { ASSISTANCE, CHANNELS, OUTCOMES } from '@backsight/domain/mail/contact';
import { PARTY_ROLES } from '@backsight/domain/jobs/words';
import { id, idParams, instant, line, made, route } from '../route.ts';

export { ASSISTANCE, CHANNELS, OUTCOMES };
export type { Assistance, Channel, ContactOutcome } from '@backsight/domain/mail/contact';

const DESK = ['owner', 'office_manager', 'lead_inspector'] as const;
const OFFICE = ['owner', 'office_manager'] as const;
const area = 'mail';
const keysOf = <T extends string>(words: Record<T, string>) => z.enum(Object.keys(words) as [T, ...T[]]);
const text = z.string();
/** Base64 of 8 MB and the rest of the request. */
const UPLOAD = 12 * 1024 * 1024;
const channel = keysOf(CHANNELS);
const outcome = keysOf(OUTCOMES);

const person = z.strictObject({
  jobId: id,
  jobNumber: z.int(),
  address: text,
  startsAt: instant.nullable(),
  partyId: id,
  name: text,
  role: keysOf(PARTY_ROLES),
  phone: text.nullable(),
  email: text.nullable(),
  badAddress: z.boolean(),
  /** Empty: the language of the firm. */
  language: text,
  assistance: keysOf(ASSISTANCE),
  largePrint: z.boolean(),
  last: z.strictObject({ channel, outcome, at: instant }).nullable(),
  /** A short text to send from a phone. */
  text,
});
export type PersonToReach = z.output<typeof person>;
const contact = z.strictObject({
  id,
  channel: z.enum([...channel.options, 'mail']),
  who: text,
  /** The outcome, or the state of the mail. */
  state: text,
  words: text.nullable(),
  by: text.nullable(),
  callbackNumber: z.int().nullable(),
  at: instant,
});
export type ContactShown = z.output<typeof contact>;

export const contactRoutes = {
  ofJob: route({
    method: 'GET',
    path: '/api/jobs/:id/contacts',
    area,
    summary: 'Calls, texts, talks at the door and mails of a job, and how its people are reached',
    who: DESK,
    params: idParams,
    reply: z.strictObject({ people: z.array(person), contacts: z.array(contact) }),
  }),
  toCall: route({
    method: 'GET',
    path: '/api/contacts',
    area,
    summary: 'People with a visit in the next days, and how they were reached last',
    who: DESK,
    query: z.strictObject({ days: z.coerce.number().int().min(1).max(31).default(7) }),
    reply: z.array(person),
  }),
  log: route({
    method: 'POST',
    path: '/api/jobs/:id/contacts',
    area,
    summary: 'Log a call, a text or a talk at the door',
    who: DESK,
    creates: true,
    params: idParams,
    body: z.strictObject({
      id,
      callbackId: id.nullable(),
      partyId: id,
      channel,
      outcome,
      words: line(300).nullable(),
      happenedAt: instant.nullable(),
    }),
    reply: made,
  }),
};

const certificate = z.strictObject({ id, policyId: id, policy: text, endsOn: z.iso.date(), name: text, recordedAt: instant });
export type CertificateShown = z.output<typeof certificate>;

/** What tells one policy from another, without its amounts and terms. */
const insured = z.strictObject({ id, kind: z.enum(['professional', 'general']), insurer: z.string(), number: z.string() });
export type InsuredBy = z.output<typeof insured>;

export const certificateRoutes = {
  policies: route({
    method: 'GET',
    path: '/api/certificates/policies',
    area,
    summary: 'Insurer, number and kind of the policies whose certificate may be put on file',
    who: OFFICE,
    reply: z.array(insured),
  }),
  list: route({
    method: 'GET',
    path: '/api/certificates',
    area,
    summary: "The insurer's newest certificate of each policy",
    who: DESK,
    reply: z.array(certificate),
  }),
  add: route({
    method: 'POST',
    path: '/api/certificates',
    area,
    summary: "Put an insurer's certificate on file",
    who: OFFICE,
    creates: true,
    bodyLimit: UPLOAD,
    body: z.strictObject({
      id,
      policyId: id,
      file: z.strictObject({
        name: line(120),
        base64: text.max(UPLOAD).regex(/^[A-Za-z0-9+/]+={0,2}$/, 'Choose the file once more: it did not arrive whole.'),
      }),
    }),
    reply: made,
  }),
  file: route({
    method: 'GET',
    path: '/api/certificates/:id/file',
    area,
    summary: 'The file of a certificate',
    who: DESK,
    params: idParams,
    reply: z.unknown(),
  }),
  send: route({
    method: 'POST',
    path: '/api/jobs/:id/certificate',
    area,
    summary: 'Send the certificates in force to somebody on a job',
    who: DESK,
    creates: true,
    params: idParams,
    body: z.strictObject({ partyId: id }),
    reply: z.strictObject({ sent: z.int() }),
  }),
};

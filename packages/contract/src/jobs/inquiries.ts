// Prices that were asked and not booked.
import { z } from 'zod';
import { propertyFactsSchema } from '@backsight/domain/shared/stored';
import { cents, day, id, idParams, instant, line, route } from '../route.ts';
import { discountTyped, OFFICE_ROLES, place, services } from './shapes.ts';

/** What became of an inquiry. */
export const INQUIRY_OUTCOMES = {
  booked: 'booked with us',
  price: 'not booked: the price',
  date: 'not booked: the date',
  other: 'not booked: another reason',
  unknown: 'not booked: we do not know why',
} as const;
export type InquiryOutcome = keyof typeof INQUIRY_OUTCOMES;
const outcome = z.enum(Object.keys(INQUIRY_OUTCOMES) as [InquiryOutcome, ...InquiryOutcome[]]);

const text = z.string();
const head = {
  id,
  caller: text,
  phone: text,
  email: text,
  address: text,
  scheduleNumber: z.int(),
  totalCents: cents,
  followUpOn: day.nullable(),
  note: text,
  outcome: outcome.nullable(),
  outcomeNote: text,
  jobId: id.nullable(),
  closedAt: instant.nullable(),
  version: z.int(),
  recordedAt: instant,
  by: text,
};
const inquiry = z.strictObject(head);
export type InquiryLine = z.output<typeof inquiry>;
const draft = z
  .record(z.string().max(60), z.unknown())
  .refine((kept) => JSON.stringify(kept).length <= 20_000, 'The booking is too long to keep.');
const soft = (max: number) =>
  z
    .string()
    .trim()
    .max(max)
    .regex(/^[^\u0000]*$/, 'There is a character in it that cannot be kept: type it anew.')
    .default('');
const who = OFFICE_ROLES;
const changed = z.strictObject({ id, version: z.int() });

export const inquiryRoutes = {
  list: route({
    method: 'GET',
    path: '/api/inquiries',
    area: 'jobs',
    summary: 'Prices asked and not booked: open ones by their day, and what became of the others',
    who,
    reply: z.strictObject({
      today: day,
      items: z.array(inquiry),
      outcomes: z.array(z.strictObject({ outcome: outcome.nullable(), count: z.int(), cents: z.int() })),
    }),
  }),
  one: route({
    method: 'GET',
    path: '/api/inquiries/:id',
    area: 'jobs',
    summary: 'One inquiry with its booking as it was typed, and its lines',
    who,
    params: idParams,
    reply: z.strictObject({
      ...head,
      draft: z.record(text, z.unknown()),
      lines: z.array(z.strictObject({ rule: text, label: text, reason: text, cents, assumption: text.optional() })),
    }),
  }),
  save: route({
    method: 'POST',
    path: '/api/inquiries',
    area: 'jobs',
    summary: 'Keep a price that was asked, with a day to ask again',
    who,
    creates: true,
    body: z.strictObject({
      id,
      caller: line(120),
      phone: soft(40),
      email: soft(200),
      address: soft(200),
      facts: propertyFactsSchema,
      services: services.min(1),
      day,
      place: place.nullable(),
      discount: discountTyped.nullable().default(null),
      draft,
      followUpOn: day.nullable(),
      note: soft(500),
    }),
    reply: z.strictObject({ id, totalCents: cents }),
  }),
  followUp: route({
    method: 'PUT',
    path: '/api/inquiries/:id/follow-up',
    area: 'jobs',
    summary: 'Set another day to ask again',
    who,
    edits: true,
    params: idParams,
    body: z.strictObject({ followUpOn: day.nullable(), note: soft(500) }),
    reply: changed,
  }),
  close: route({
    method: 'PUT',
    path: '/api/inquiries/:id/outcome',
    area: 'jobs',
    summary: 'Say what became of an inquiry; a booking names its job',
    who,
    edits: true,
    params: idParams,
    body: z.strictObject({ outcome, outcomeNote: soft(300), jobId: id.nullable().default(null) }),
    reply: changed,
  }),
};

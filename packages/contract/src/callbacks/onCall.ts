// The on-call list, and a danger as whoever is alerted sees it.
import { z } from 'zod';
import { day, id, idParams, instant, made, route } from '../route.ts';
import { speaker, state } from './shapes.ts';

const KEEPERS = ['owner', 'office_manager'] as const;
const minute = z.int().min(0).max(1440);
const duty = {
  personId: id,
  /** No: as an exception this person is not on call then. */
  on: z.boolean(),
  position: z.int().min(1).max(99),
  weekdays: z.array(z.int().min(1).max(7)).max(7),
  startMinute: minute.max(1439),
  endMinute: minute.min(1),
  fromDay: day,
  untilDay: day.nullable(),
};
const list = z.strictObject({
  /** In the order in which they would be alerted now; those not on call are owners or lead inspectors. */
  now: z.array(z.strictObject({ id, name: z.string(), phone: z.string(), onCall: z.boolean() })),
  /** Spans of the coming 24 hours in which nobody is on call. */
  uncovered: z.array(z.strictObject({ from: instant, to: instant })),
  minutes: z.int(),
  duties: z.array(z.strictObject({ ...duty, id, name: z.string(), recordedAt: instant, by: z.string().nullable() })),
  people: z.array(z.strictObject({ id, name: z.string() })),
});
export type OnCallList = z.output<typeof list>;

const chain = z.strictObject({
  id,
  startedAt: instant,
  answeredAt: instant.nullable(),
  answeredBy: z.string().nullable(),
  /** The mark was lifted before anybody answered. */
  endedAt: instant.nullable(),
  alerts: z.array(z.strictObject({ n: z.int(), name: z.string(), at: instant })),
});
const danger = z.strictObject({
  id,
  number: z.int(),
  state,
  safety: z.boolean(),
  speaker,
  system: z.string(),
  place: z.string(),
  address: z.string(),
  town: z.string(),
  words: z.string(),
  party: z.strictObject({ name: z.string(), phone: z.string().nullable() }).nullable(),
  chains: z.array(chain),
  next: z.strictObject({ name: z.string(), at: instant }).nullable(),
});
export type Danger = z.output<typeof danger>;

export const onCallRoutes = {
  list: route({
    method: 'GET',
    path: '/api/on-call',
    area: 'callbacks',
    summary: 'Who is on call, in which order people are alerted now, and when nobody is on call in the coming day',
    who: 'signed_in',
    reply: list,
  }),
  add: route({
    method: 'POST',
    path: '/api/on-call',
    area: 'callbacks',
    summary: 'Put somebody on the on-call list, or as an exception take somebody off it for some days',
    who: KEEPERS,
    creates: true,
    reply: made,
    body: z.strictObject({ id, ...duty }),
  }),
  remove: route({
    method: 'DELETE',
    path: '/api/on-call/:id',
    area: 'callbacks',
    summary: 'Take back a line of the on-call list',
    who: KEEPERS,
    params: idParams,
    reply: made,
  }),
  danger: route({
    method: 'GET',
    path: '/api/callbacks/:id/danger',
    area: 'callbacks',
    summary: 'A danger: who spoke, how to reach them, who was alerted when, and who has it',
    who: 'signed_in',
    of: 'asked',
    params: idParams,
    reply: danger,
  }),
  answer: route({
    method: 'POST',
    path: '/api/callbacks/:id/danger/answer',
    area: 'callbacks',
    summary: 'I have it: nobody else is alerted',
    who: 'signed_in',
    of: 'asked',
    params: idParams,
    creates: true,
    body: z.strictObject({}),
    reply: z.strictObject({ id, answeredBy: z.string(), answeredAt: instant, mine: z.boolean() }),
  }),
};

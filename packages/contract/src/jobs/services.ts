// What clients can order, as the owner sets it up.
import { z } from 'zod';
import { applicabilitySchema } from '@backsight/domain/shared/stored';
import { day, line, route } from '../route.ts';

const key = z.string().regex(/^[a-z][a-z0-9_]{0,59}$/, 'A short name is lower-case letters, digits and _.');
const fields = {
  name: line(80),
  searchWords: z.array(line(40)).max(20),
  providerOnly: z.boolean(),
  offeredWhen: applicabilitySchema,
  extraVisit: key.nullable(),
};
const service = z.strictObject({
  key: z.string(),
  name: z.string(),
  searchWords: z.array(z.string()),
  position: z.int(),
  base: z.boolean(),
  providerOnly: z.boolean(),
  offeredWhen: z.unknown(),
  extraVisit: z.string().nullable(),
  endedOn: day.nullable(),
  version: z.int(),
  /** How many jobs ordered it. */
  jobs: z.int(),
});
export type ServiceLine = z.output<typeof service>;
const params = z.strictObject({ key: line(100) });
const changed = z.strictObject({ key: z.string(), version: z.int() });

const minutes = z.int().min(0).max(720);
const minutesRow = z.strictObject({
  key: z.string(),
  label: z.string(),
  when: z.string(),
  minutes: z.int(),
  /** What the minutes are for, where they are not for the whole visit. */
  each: z.string().nullable(),
  of: z.enum(['visit', 'report', 'walk_through']),
});
export type MinutesRow = z.output<typeof minutesRow>;
const visitKind = z.strictObject({
  key: z.string(),
  name: z.string(),
  crewSize: z.int(),
  minutes,
  reportMinutes: minutes,
  version: z.int(),
});
export type VisitKindLine = z.output<typeof visitKind>;

export const serviceRoutes = {
  minutes: route({
    method: 'GET',
    path: '/api/minutes',
    area: 'jobs',
    summary: 'How long an inspection is planned to take, rule by rule, and the other kinds of visits',
    who: 'signed_in',
    reply: z.strictObject({ version: z.int(), rules: z.array(minutesRow), kinds: z.array(visitKind) }),
  }),
  changeMinutes: route({
    method: 'PUT',
    path: '/api/minutes',
    area: 'jobs',
    summary: 'Change minutes by the key of their rule, for jobs that are booked from now on',
    who: ['owner'],
    edits: true,
    body: z.strictObject({ minutes: z.record(z.string().max(80), minutes) }),
    reply: z.strictObject({ version: z.int() }),
  }),
  changeKind: route({
    method: 'PUT',
    path: '/api/visit-kinds/:key',
    area: 'jobs',
    summary: 'Change how long a kind of visit takes; visits that are booked keep their length',
    who: ['owner'],
    edits: true,
    params,
    body: z.strictObject({ minutes: minutes.min(5), reportMinutes: minutes }),
    reply: changed,
  }),
  list: route({
    method: 'GET',
    path: '/api/services',
    area: 'jobs',
    summary: 'What clients can order, and what is no longer offered',
    who: 'signed_in',
    reply: z.strictObject({ items: z.array(service) }),
  }),
  add: route({
    method: 'POST',
    path: '/api/services',
    area: 'jobs',
    summary: 'Add a service',
    who: ['owner'],
    creates: true,
    body: z.strictObject({ key, ...fields }),
    reply: changed,
  }),
  change: route({
    method: 'PUT',
    path: '/api/services/:key',
    area: 'jobs',
    summary: 'Change a service, or offer it no longer',
    who: ['owner'],
    edits: true,
    params,
    body: z.strictObject({ ...fields, offered: z.boolean() }),
    reply: changed,
  }),
};

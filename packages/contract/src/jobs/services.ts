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
const params = z.strictObject({ key: z.string().min(1).max(100) });
const changed = z.strictObject({ key: z.string(), version: z.int() });

export const serviceRoutes = {
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

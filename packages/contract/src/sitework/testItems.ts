// Devices left at a house and samples drawn there, until the result has been told.
import { z } from 'zod';
import { TEST_KINDS, TEST_STEPS, type TestKind, type TestStep } from '@backsight/domain/sitework/testItems';
import { id, idParams, instant, line, made, route, warnings, wholeMinute } from '../route.ts';

export { TEST_KINDS, TEST_STEPS };
const kind = z.enum(Object.keys(TEST_KINDS) as [TestKind, ...TestKind[]]);
const step = z.enum(Object.keys(TEST_STEPS) as [TestStep, ...TestStep[]]);

const item = z.strictObject({
  id,
  kind,
  serial: z.string(),
  what: z.string(),
  awaited: z.boolean(),
  shortestHours: z.int(),
  holdingHours: z.int().nullable(),
  testFrom: instant.nullable(),
  collectFrom: instant.nullable(),
  laboratoryBy: instant.nullable(),
  next: z.array(step),
  steps: z.array(
    z.strictObject({
      step,
      happenedAt: instant,
      by: z.string(),
      words: z.string().nullable(),
      closedSince: instant.nullable(),
      occupantTold: z.boolean(),
      moved: z.boolean(),
    }),
  ),
});
export type TestItem = z.output<typeof item>;
export const testItems = z.strictObject({
  jobId: id,
  jobNumber: z.int(),
  mayChange: z.boolean(),
  open: z.boolean(),
  limits: z.strictObject({ shortestHours: z.int(), closedHouseHours: z.int(), holdingHours: z.int() }),
  items: z.array(item),
});
export type TestItems = z.output<typeof testItems>;
const area = 'sitework';

export const testItemRoutes = {
  list: route({
    method: 'GET',
    path: '/api/jobs/:id/test-items',
    area,
    summary: 'Devices and samples of a job, and what is awaited',
    who: 'signed_in',
    of: 'job',
    params: idParams,
    reply: testItems,
  }),
  place: route({
    method: 'POST',
    path: '/api/jobs/:id/test-items',
    area,
    summary: 'Place a device or note a sample as drawn',
    who: 'signed_in',
    of: 'job',
    creates: true,
    params: idParams,
    reply: made.extend({ collectFrom: instant.nullable() }),
    body: z.strictObject({
      id,
      kind,
      serial: line(60),
      what: line(120),
      happenedAt: wholeMinute,
      closedSince: wholeMinute.nullable().default(null),
      occupantTold: z.boolean().default(false),
    }),
  }),
  step: route({
    method: 'POST',
    path: '/api/test-items/:id/steps',
    area,
    summary: 'Collected, sent, received, result told, or given up',
    who: 'signed_in',
    of: 'test_item',
    creates: true,
    params: idParams,
    reply: made.extend({ awaited: z.int(), warnings }),
    body: z.strictObject({
      step,
      happenedAt: wholeMinute,
      moved: z.boolean().nullable().default(null),
      words: z.string().trim().max(1000).default(''),
    }),
  }),
};

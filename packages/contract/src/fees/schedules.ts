// Fee schedules: drafts, comparison, what-if, in force from a day.
import { z } from 'zod';
import { feeScheduleSchema } from '@backsight/domain/fees/stored';
import { propertyFactsSchema } from '@backsight/domain/shared/stored';
import { FEE_KINDS } from '@backsight/domain/fees/ruleWords';
import { OUTSIDE_DAYS } from '@backsight/domain/fees/schedule';
import type { FeeRule } from '@backsight/domain/fees/schedule';
import { cents, day, id, idParams, instant, line, route } from '../route.ts';

export { FEE_KINDS, OUTSIDE_DAYS };
export type { FeeRule };

const OFFICE = ['owner', 'office_manager', 'lead_inspector'] as const;
const text = z.string();
const area = 'fees';
const head = {
  id,
  number: z.int(),
  name: text,
  state: z.enum(['draft', 'in_force', 'withdrawn']),
  inForceFrom: instant.nullable(),
  recordedAt: instant,
  version: z.int(),
};
const words = z.array(z.strictObject({ key: text, text }));
const line_ = z.strictObject({ rule: text, label: text, reason: text, cents, assumption: text.optional() });
const quoted = z.strictObject({ lines: z.array(line_), totalCents: cents, assumptions: z.array(text), asks: z.array(text) });
const kind = z.enum(Object.keys(FEE_KINDS) as [keyof typeof FEE_KINDS, ...(keyof typeof FEE_KINDS)[]]);
const scheduleLine = z.strictObject({ ...head, rules: z.int(), jobs: z.int(), now: z.boolean() });
export type ScheduleLine = z.output<typeof scheduleLine>;
const schedulePage = z.strictObject({
  ...head,
  /** As they are edited; the same shape is sent back. */
  rules: z.array(z.unknown()),
  words,
  beside: z.strictObject({ id, number: z.int(), name: text }),
  differences: z.array(
    z.strictObject({
      key: text,
      what: z.enum(['added', 'removed', 'changed', 'moved']),
      label: text,
      before: text.nullable(),
      after: text.nullable(),
    }),
  ),
  /** Names of the firm's services by key. */
  services: z.record(text, text),
});
export type SchedulePage = z.output<typeof schedulePage>;
const whatIf = z.strictObject({ tried: quoted, now: quoted, words });
export type WhatIfAnswer = z.output<typeof whatIf>;
const revenue = z.strictObject({
  jobs: z.int(),
  beforeCents: z.int(),
  afterCents: z.int(),
  higher: z.int(),
  lower: z.int(),
  lines: z.array(z.strictObject({ key: text, label: text, kind, beforeCents: z.int(), afterCents: z.int() })),
});
export type Revenue = z.output<typeof revenue>;
const changed = z.strictObject({ id, version: z.int() });

export const scheduleRoutes = {
  list: route({
    method: 'GET',
    path: '/api/fee-schedules',
    area,
    summary: 'Fee schedules, newest first',
    who: OFFICE,
    reply: z.strictObject({ items: z.array(scheduleLine) }),
  }),
  one: route({
    method: 'GET',
    path: '/api/fee-schedules/:id',
    area,
    summary: 'One fee schedule, in words, beside another or the one in force',
    who: OFFICE,
    params: idParams,
    query: z.strictObject({ beside: id.optional() }),
    reply: schedulePage,
  }),
  draft: route({
    method: 'POST',
    path: '/api/fee-schedules',
    area,
    summary: 'Begin a draft as a copy of a schedule',
    who: ['owner'],
    creates: true,
    body: z.strictObject({ id, name: line(80), copyOf: id }),
    reply: changed,
  }),
  change: route({
    method: 'PUT',
    path: '/api/fee-schedules/:id',
    area,
    summary: 'Change a draft',
    who: ['owner'],
    edits: true,
    params: idParams,
    body: feeScheduleSchema.extend({ name: line(80) }),
    reply: changed,
  }),
  putInForce: route({
    method: 'PUT',
    path: '/api/fee-schedules/:id/in-force',
    area,
    summary: 'Put a draft in force from a day; jobs keep the schedule of their booking',
    who: ['owner'],
    edits: true,
    params: idParams,
    body: z.strictObject({ fromDay: day }),
    reply: z.strictObject({ id, version: z.int(), inForceFrom: instant }),
  }),
  drop: route({
    method: 'PUT',
    path: '/api/fee-schedules/:id/dropped',
    area,
    summary: 'Throw a draft away, or take back a schedule before it begins',
    who: ['owner'],
    edits: true,
    params: idParams,
    body: z.strictObject({}),
    reply: z.strictObject({ id }),
  }),
  whatIf: route({
    method: 'POST',
    path: '/api/fee-schedules/what-if',
    area,
    summary: 'Price one house by rules that need not be saved, beside the schedule in force; writes nothing',
    who: OFFICE,
    body: feeScheduleSchema.extend({
      facts: propertyFactsSchema,
      services: z.array(z.string().min(1).max(100)).max(30),
      day,
      travelMinutes: z.int().min(0).max(600).nullable(),
      startMinute: z.int().min(0).max(1439).nullable(),
    }),
    reply: whatIf,
  }),
  overJobs: route({
    method: 'GET',
    path: '/api/fee-schedules/:id/over-jobs',
    area,
    summary: 'What a schedule would have brought over the jobs of a period, beside another',
    who: OFFICE,
    params: idParams,
    query: z.strictObject({ beside: id, from: day, until: day }),
    reply: revenue,
  }),
};

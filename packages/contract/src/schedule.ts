// When the firm can come, moving and adding visits, and the week of its people.
import { z } from 'zod';
import { propertyFactsSchema } from '@backsight/domain/shared/stored';
import { OFFICE_ROLES, place, services, start } from './jobs.ts';
import { cents, day, id, idParams, instant, route, warnings, wholeMinute } from './route.ts';
import { moveChange, rehearsal } from './schedule/rehearsal.ts';
import { week } from './schedule/week.ts';

export type { MoveChange, Rehearsal } from './schedule/rehearsal.ts';
export type { Week } from './schedule/week.ts';

const text = z.string();
const parts = z.strictObject({
  addedDriving: z.tuple([z.number(), z.number()]),
  idleGap: z.number(),
  overtime: z.number(),
  fairness: z.number(),
  rotation: z.number(),
  wish: z.number(),
});
export const startOption = z.strictObject({
  day,
  startsAt: instant,
  endsAt: instant,
  first: id,
  second: id.nullable(),
  firstName: text,
  secondName: text.nullable(),
  score: z.number(),
  parts,
  sentence: text,
  marks: z.array(text),
  tightest: z.strictObject({ kind: text, slack: z.number() }),
  travelSource: z.enum(['estimate', 'engine', 'manual']).nullable(),
});
export type StartOption = z.output<typeof startOption>;
const blockedDays = z.array(z.strictObject({ day, reasons: z.array(text) }));
const minuteOfDay = z.int().min(0).max(1440);
export const starts = z.strictObject({
  minutes: z.int(),
  /** The last minutes of the visit are the client's walk-through. */
  walkThroughMinutes: z.int(),
  zone: text,
  roadService: z.boolean(),
  /** Zone of the place where its clocks differ from the firm's. */
  zoneBeyond: text.nullable(),
  options: z.array(startOption),
  blockedDays,
  heldBack: z.array(text),
  /** The two people that were asked about: their starts, minutes that their best costs more than the best of all, and why not on other days. */
  wanted: z.strictObject({ options: z.array(startOption), costsMore: z.number().nullable(), blockedDays }).nullable(),
});
export type Starts = z.output<typeof starts>;

const moveBody = start.extend({
  waive: z.boolean().default(false),
  waiver: z.string().trim().max(500).default(''),
  /** The fee stays as it was agreed although the new time has another; with the reason. */
  keepFee: z.boolean().default(false),
  keptBecause: z.string().trim().max(500).default(''),
  /** The fee at the new time as it was shown; another one is refused. */
  toldCents: cents.nullable().default(null),
  /** Why it is moved, for the firm's own history of the job. */
  why: z.string().trim().max(500).default(''),
});

const area = 'schedule';
export const scheduleRoutes = {
  starts: route({
    method: 'POST',
    path: '/api/starts',
    area,
    summary: 'Ranked starts with their pairs, and why other days are not possible',
    who: OFFICE_ROLES,
    reply: starts,
    body: z.strictObject({
      place,
      facts: propertyFactsSchema,
      services,
      visitKind: z.string().max(60).default('inspection'),
      fromDay: day,
      days: z.int().min(1).max(56),
      limit: z.int().min(1).max(100).default(12),
      perDay: z.int().min(1).max(20).optional(),
      earliest: minuteOfDay.optional(),
      latestEnd: minuteOfDay.optional(),
      providers: z
        .array(z.strictObject({ service: z.string().min(1).max(100), providerId: id }))
        .max(30)
        .default([]),
      sameDayAs: id.optional(),
      pair: z.tuple([id, id]).optional(),
      wishes: z.strictObject({ personId: id.optional(), half: z.enum(['morning', 'afternoon']).optional() }).optional(),
      objectionOn: day.nullable().default(null),
      propertyId: id.nullable().default(null),
      parties: z.array(id).max(12).default([]),
      withoutVisit: id.nullable().default(null),
    }),
  }),
  move: route({
    method: 'PUT',
    path: '/api/visits/:id/start',
    area,
    summary: 'Move a visit to another start',
    who: OFFICE_ROLES,
    edits: true,
    params: idParams,
    reply: z.strictObject({ id, version: z.int(), startsAt: instant, endsAt: instant, warnings }),
    body: moveBody,
  }),
  rehearseMove: route({
    method: 'POST',
    path: '/api/visits/:id/start/rehearsal',
    area,
    summary: 'What a move would come to: its refusal or its consequences; changes nothing',
    who: OFFICE_ROLES,
    edits: true,
    params: idParams,
    reply: rehearsal,
    body: moveBody,
  }),
  previewMove: route({
    method: 'POST',
    path: '/api/visits/:id/start/preview',
    area,
    summary: 'What a move to another start would make of the fee, and what moving late costs besides',
    who: OFFICE_ROLES,
    params: idParams,
    reply: moveChange,
    body: z.strictObject({ startsAt: wholeMinute }),
  }),
  addVisit: route({
    method: 'POST',
    path: '/api/jobs/:id/visits',
    area,
    summary: 'Add a further visit to a job',
    who: OFFICE_ROLES,
    creates: true,
    params: idParams,
    reply: z.strictObject({ id, startsAt: instant, endsAt: instant }),
    body: z.strictObject({ kind: z.string().min(1).max(60), start }),
  }),
  week: route({
    method: 'GET',
    path: '/api/week',
    area,
    summary: 'The week of the people',
    who: 'signed_in',
    reply: week,
    query: z.strictObject({ from: day }),
  }),
};

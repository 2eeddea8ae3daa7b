// Looking through callbacks: narrowed, grouped, and as a table.
import { z } from 'zod';
import { CAUSES, SPEAKERS, STATES } from '@backsight/domain/callbacks/words';
import { GROUPS } from '@backsight/domain/callbacks/find';
import { id, line, route } from '../route.ts';
import { callbackLine, kindSchema, money, oneOf, whichSchema } from './shapes.ts';

export { GROUPS } from '@backsight/domain/callbacks/find';

const DESK = ['owner', 'lead_inspector', 'office_manager'] as const;
const month = z.string().regex(/^\d{4}-(?:0[1-9]|1[0-2])$/, 'must be a month like 2026-05');
const yes = z.literal('yes').optional();

/** Every part narrows. `step`, `revision` and `cause` are of the newest conclusion: only owner and lead inspector may use them. A step stands for all of its line of descent. */
const find = {
  which: whichSchema.default('open'),
  kind: kindSchema.optional(),
  state: oneOf(STATES).optional(),
  speaker: oneOf(SPEAKERS).optional(),
  /** A system of the intake, or that of a procedure. */
  system: line(60).optional(),
  safety: yes,
  overdue: yes,
  step: line(100).optional(),
  revision: id.optional(),
  cause: oneOf(CAUSES).optional(),
  /** Somebody who was on the job. */
  person: id.optional(),
  /** Everybody who was on the job: ids with commas between, as a group of pairs names them. */
  pair: z
    .string()
    .max(400)
    .regex(/^[0-9a-f-]{36}(?:,[0-9a-f-]{36})*$/, 'must be ids with commas between')
    .optional(),
  /** Months, where the office is. */
  received: month.optional(),
  inspected: month.optional(),
  /** Words of what was said, a number of a callback or job, a place, an address, a town or a name. */
  q: line(200).optional(),
};
export type CallbackFind = z.input<z.ZodObject<typeof find>>;

const group = z.strictObject({
  /** What the group is narrowed by: a key of the list asked for, ids of persons with commas between; empty: there is none. */
  key: z.string(),
  label: z.string(),
  /** Where the group is a step. */
  procedureId: id.nullable(),
  callbacks: z.int(),
  open: z.int(),
  money: money.optional(),
});
export type CallbackGroup = z.output<typeof group>;

export const callbackListRoutes = {
  list: route({
    method: 'GET',
    path: '/api/callbacks',
    area: 'callbacks',
    summary: 'Callbacks that fit: open ones by danger and due time, others by number',
    who: DESK,
    query: z.strictObject({ ...find, before: z.coerce.number().int().min(1).max(2_000_000_000).optional() }),
    reply: z.strictObject({ items: z.array(callbackLine), next: z.string().nullable() }),
  }),
  groups: route({
    method: 'GET',
    path: '/api/callbacks/groups',
    area: 'callbacks',
    summary: 'How many callbacks fit in each group; sums of money only for owner and lead inspector',
    who: DESK,
    query: z.strictObject({ ...find, by: oneOf(GROUPS) }),
    reply: z.array(group),
  }),
  table: route({
    method: 'GET',
    path: '/api/callbacks/table.csv',
    area: 'callbacks',
    summary: 'Callbacks that fit as comma-separated text; opinions and money only for owner and lead inspector who ask for them',
    who: DESK,
    query: z.strictObject({ ...find, opinions: yes, money: yes }),
    reply: z.unknown(),
  }),
};

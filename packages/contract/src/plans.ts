// Plans of days: the day plan, the sick call, the bad-weather day.
import { z } from 'zod';
import { PLAN_KINDS, PLAN_STATES, PLAN_VARIANTS } from '@backsight/domain/schedule/plans';
import { OFFICE_ROLES } from './jobs.ts';
import { day, id, idParams, instant, line, made, route } from './route.ts';

const text = z.string();
const minutes = z.number();
/** Worth how many minutes of one person's time; whole twentieths, so that the proof is exact. */
const weight = z
  .number()
  .min(0)
  .max(5000)
  .refine((value) => Math.abs(value * 20 - Math.round(value * 20)) < 1e-6, 'must be a multiple of 0.05');
const WEIGHTS = {
  travel: weight,
  wait: weight,
  overtime: weight,
  overTarget: weight,
  underTarget: weight,
  rotation: weight,
  unannounced: weight,
  movedStart: weight,
  movedMinute: weight,
  brokenPromise: weight,
  leftOut: weight,
};
export const someWeights = z.strictObject(WEIGHTS).partial();
export const planWeights = z.strictObject(WEIGHTS);
export type PlanWeights = z.output<typeof planWeights>;

const spot = z.strictObject({ day, start: z.int(), first: id, second: id.nullable() }).nullable();
const group = z.strictObject({
  key: text,
  moves: z.array(z.strictObject({ visitId: id, version: z.int(), jobId: id, label: text, before: spot, after: spot, sentence: text })),
  savingMinutes: minutes,
  drivingSavedMinutes: minutes,
  away: z.array(text).optional(),
});
const parts = z.strictObject({
  travel: minutes,
  wait: minutes,
  overtime: minutes,
  fairness: minutes,
  pairing: minutes,
  change: minutes,
  promises: minutes,
  leftOut: minutes,
});
const dayAnswer = z.strictObject({
  day,
  toDay: day.optional(),
  partnersSaveMinutes: minutes.optional(),
  cost: minutes,
  bound: minutes,
  proven: z.boolean(),
  gapPercent: z.number(),
  within: text,
  stopped: z.boolean(),
  parts,
  visits: z.int(),
  groups: z.array(group),
  savingMinutes: minutes,
  drivingSavedMinutes: minutes,
  leftOut: z.array(z.strictObject({ visitId: id, jobId: id, label: text, reasons: z.array(text) })),
});
export type DayAnswer = z.output<typeof dayAnswer>;
export type PlanGroup = z.output<typeof group>;
const variant = z.strictObject({ key: z.enum(PLAN_VARIANTS), days: z.array(dayAnswer) });
export type PlanVariantAnswer = z.output<typeof variant>;

const callee = z.strictObject({
  id,
  visitId: id,
  jobId: id,
  jobNumber: z.int(),
  because: z.enum(['left_out', 'moved', 'crew']),
  address: text,
  objectionOn: day.nullable(),
  clients: z.array(z.strictObject({ name: text, phone: text.nullable() })),
  wasAt: instant,
  willBeAt: instant.nullable(),
  doneAt: instant.nullable(),
  words: text,
});
export type PlanCall = z.output<typeof callee>;

/** What every list and page says of a plan. */
export const HEAD = {
  id,
  kind: z.enum(PLAN_KINDS),
  fromDay: day,
  toDay: day,
  state: z.enum(PLAN_STATES),
  note: text.nullable(),
  accepted: z.array(text),
  askedBy: text,
  askedAt: instant,
  endedAt: instant.nullable(),
};
const planHead = z.strictObject(HEAD);
export type PlanHead = z.output<typeof planHead>;

/** How far a plan is: days done of all, and of the day under way the best cost so far and the least that is possible. */
export const planProgress = z.strictObject({
  waiting: z.int(),
  done: z.int(),
  of: z.int(),
  day: day.nullable(),
  phase: z.enum(['routes', 'first plan', 'bound', 'cuts', 'proof']).nullable(),
  cost: minutes.nullable(),
  bound: minutes.nullable(),
  stopping: z.boolean(),
});
export type PlanProgress = z.output<typeof planProgress>;

const plan = z.strictObject({
  ...HEAD,
  weights: planWeights,
  changedSince: z.boolean(),
  outName: text.nullable(),
  names: z.record(z.string(), text),
  progress: planProgress.nullable(),
  answer: z.strictObject({ variants: z.array(variant) }).nullable(),
  calls: z.array(callee),
});
export type ShownPlan = z.output<typeof plan>;

const area = 'schedule';
export const planRoutes = {
  list: route({
    method: 'GET',
    path: '/api/plans',
    area,
    summary: 'The newest plans of a kind, and the weights to begin with',
    who: OFFICE_ROLES,
    query: z.strictObject({ kind: z.enum(PLAN_KINDS).default('day_plan') }),
    reply: z.strictObject({ items: z.array(planHead), weights: planWeights }),
  }),
  askDays: route({
    method: 'POST',
    path: '/api/plans',
    area,
    summary: 'Ask for a better plan of some days; it is made in the background',
    who: OFFICE_ROLES,
    creates: true,
    body: z.strictObject({
      id,
      from: day,
      to: day,
      weights: someWeights.default({}),
      acrossDays: z.boolean().default(false),
      changingPartners: z.boolean().default(false),
    }),
    reply: made,
  }),
  askSick: route({
    method: 'POST',
    path: '/api/sick-calls',
    area,
    summary: 'Ask for three plans of the days on which somebody is absent',
    who: OFFICE_ROLES,
    creates: true,
    body: z.strictObject({ id, absenceId: id, weights: someWeights.default({}) }),
    reply: made,
  }),
  one: route({
    method: 'GET',
    path: '/api/plans/:id',
    area,
    summary: 'A plan: progress while it is made, then the answer as groups of moves',
    who: OFFICE_ROLES,
    params: idParams,
    reply: plan,
  }),
  stop: route({
    method: 'PUT',
    path: '/api/plans/:id/stop',
    area,
    summary: 'Stop making a plan: the best so far becomes the answer',
    who: OFFICE_ROLES,
    params: idParams,
    reply: made,
  }),
  accept: route({
    method: 'POST',
    path: '/api/plans/:id/acceptance',
    area,
    summary: 'Accept groups of moves; those that no longer fit are refused by name',
    who: OFFICE_ROLES,
    creates: true,
    params: idParams,
    body: z.strictObject({ groups: z.array(line(80)).min(1).max(500) }),
    reply: z.strictObject({
      id,
      accepted: z.array(text),
      refused: z.array(z.strictObject({ key: text, sentences: z.array(text) })),
      calls: z.int(),
    }),
  }),
  callDone: route({
    method: 'PUT',
    path: '/api/plan-calls/:id',
    area,
    summary: 'Tick a call off, or on again',
    who: OFFICE_ROLES,
    params: idParams,
    body: z.strictObject({ done: z.boolean() }),
    reply: made,
  }),
};

// Plans of days: the day plan, the sick call, the bad-weather day.
import { z } from 'zod';
import { PLAN_KINDS, PLAN_STATES, PLAN_VARIANTS } from '@backsight/domain/schedule/plans';
import { OFFICE_ROLES } from './jobs.ts';
import { day, id, idParams, instant, line, made, route, wholeMinute } from './route.ts';

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
const someWeights = z.strictObject(WEIGHTS).partial();
export const planWeights = z.strictObject(WEIGHTS);
export type PlanWeights = z.output<typeof planWeights>;

const spot = z.strictObject({ day, start: z.int(), first: id, second: id.nullable() }).nullable();
const group = z.strictObject({
  key: text,
  moves: z.array(z.strictObject({ visitId: id, version: z.int(), jobId: id, label: text, before: spot, after: spot, sentence: text })),
  savingMinutes: minutes,
  drivingSavedMinutes: minutes,
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

const HEAD = {
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

const closure = z.strictObject({
  id,
  startsAt: instant,
  endsAt: instant,
  outdoorOnly: z.boolean(),
  towns: z.array(text),
  reason: text,
  recordedBy: text,
  visits: z.array(z.strictObject({ id, jobId: id, label: text, startsAt: instant, objectionOn: day.nullable() })),
});
export type Closure = z.output<typeof closure>;

const whatIfChange = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('one_more'), likeId: id, town: line(100).nullable() }),
  z.strictObject({ kind: z.literal('base'), personId: id, town: line(100) }),
  z.strictObject({ kind: z.literal('speed'), percent: z.int().min(50).max(200) }),
]);
const whatIfSide = z.strictObject({ placed: z.int(), driving: z.int(), fit: z.int(), unproven: z.int() });
const whatIfWeek = z.strictObject({ monday: day, visits: z.int(), now: whatIfSide, then: whatIfSide });
const whatIf = z.strictObject({
  ...HEAD,
  change: whatIfChange,
  inWords: text,
  progress: planProgress.nullable(),
  answer: z.strictObject({ weeks: z.array(whatIfWeek) }).nullable(),
});
export type WhatIf = z.output<typeof whatIf>;
export type WhatIfChange = z.output<typeof whatIfChange>;

const kept = z.strictObject({
  id,
  version: z.int(),
  state: text,
  jobId: id,
  jobNumber: z.int(),
  kindName: text,
  address: text,
  startsAt: instant,
  window: z.strictObject({ from: instant, until: instant }).nullable(),
  lock: z.strictObject({ at: instant, by: text, because: text }).nullable(),
});
export type KeptVisit = z.output<typeof kept>;

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
    body: z.strictObject({ id, from: day, to: day, weights: someWeights.default({}) }),
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
  kept: route({
    method: 'GET',
    path: '/api/visits/:id/kept',
    area,
    summary: 'What plans must keep of a visit: the promised window, and whether it stays as it is',
    who: OFFICE_ROLES,
    params: idParams,
    reply: kept,
  }),
  promise: route({
    method: 'PUT',
    path: '/api/visits/:id/promise',
    area,
    summary: 'Say what the client was promised: a window of starts, or the very start',
    who: OFFICE_ROLES,
    edits: true,
    params: idParams,
    body: z.strictObject({ window: z.strictObject({ from: wholeMinute, until: wholeMinute }).nullable() }),
    reply: z.strictObject({ id, version: z.int() }),
  }),
  lock: route({
    method: 'PUT',
    path: '/api/visits/:id/lock',
    area,
    summary: 'Keep plans from changing a visit, with the reason, or let them again',
    who: OFFICE_ROLES,
    edits: true,
    params: idParams,
    body: z.strictObject({ because: line(200).nullable() }),
    reply: z.strictObject({ id, version: z.int() }),
  }),
  closures: route({
    method: 'GET',
    path: '/api/weather-closures',
    area,
    summary: 'Times closed for weather that are not over, with the booked visits that each hits',
    who: OFFICE_ROLES,
    reply: z.strictObject({ items: z.array(closure), towns: z.array(text), mail: text }),
  }),
  close: route({
    method: 'POST',
    path: '/api/weather-closures',
    area,
    summary: 'Close a part of the county, or outdoor work, for weather: nothing is booked into it any more',
    who: OFFICE_ROLES,
    creates: true,
    body: z.strictObject({
      id,
      startsAt: wholeMinute,
      endsAt: wholeMinute,
      outdoorOnly: z.boolean(),
      towns: z.array(line(100)).max(100),
      reason: line(120),
    }),
    reply: made,
  }),
  lift: route({
    method: 'PUT',
    path: '/api/weather-closures/:id/end',
    area,
    summary: 'Lift a closed time',
    who: OFFICE_ROLES,
    params: idParams,
    reply: made,
  }),
  askWeather: route({
    method: 'POST',
    path: '/api/weather-closures/:id/plans',
    area,
    summary: 'Ask for three plans that move the visits of a closed time together, that day or the days after',
    who: OFFICE_ROLES,
    creates: true,
    params: idParams,
    body: z.strictObject({ id, weights: someWeights.default({}) }),
    reply: made,
  }),
  askWhatIf: route({
    method: 'POST',
    path: '/api/what-ifs',
    area,
    summary: 'Plan the visits of the same weeks of last year with the firm as it is and as it would be',
    who: ['owner', 'office_manager'],
    creates: true,
    body: z.strictObject({ id, from: day, weeks: z.int().min(1).max(12), change: whatIfChange }),
    reply: made,
  }),
  whatIf: route({
    method: 'GET',
    path: '/api/what-ifs/:id',
    area,
    summary: 'A what-if: progress, then visits that fit and driving, week by week',
    who: ['owner', 'office_manager'],
    params: idParams,
    reply: whatIf,
  }),
};

// Clocks of callbacks: how long they run, those of one callback, pauses; a legal paper's days and list; injuries of the firm's own people.
import { z } from 'zod';
import { CLOCKS, FIRM_TIMES, UNITS } from '@backsight/domain/callbacks/clocks';
import { SAME_DAY } from '@backsight/domain/callbacks/legal';
import { INJURIES } from '@backsight/domain/callbacks/workInjury';
import { day, id, idParams, instant, line, made, prose, route, warnings } from '../route.ts';
import { kindSchema, oneOf, state } from './shapes.ts';

export { CLOCKS, FIRM_TIMES, UNITS } from '@backsight/domain/callbacks/clocks';
export { SAME_DAY } from '@backsight/domain/callbacks/legal';
export { INJURIES } from '@backsight/domain/callbacks/workInjury';

const DESK = ['owner', 'lead_inspector', 'office_manager'] as const;
const OWNER = ['owner'] as const;
const done = z.strictObject({ id, state, version: z.int(), warnings });
const said = prose(2000);
const act = { method: 'POST', area: 'callbacks', params: idParams, creates: true, reply: done } as const;

const clockName = oneOf(CLOCKS);
const anyClock = z.enum([...Object.keys(CLOCKS), ...Object.keys(FIRM_TIMES)] as [
  keyof typeof CLOCKS | keyof typeof FIRM_TIMES,
  ...(keyof typeof CLOCKS | keyof typeof FIRM_TIMES)[],
]);
/** Empty: for all kinds. */
const anyKind = z.union([kindSchema, z.literal('')]);
const term = z.strictObject({ amount: z.int(), unit: oneOf(UNITS), source: z.string() });
const termOfKind = z.strictObject({
  kind: anyKind,
  clock: anyClock,
  now: term,
  customary: term,
  set: z.array(term.extend({ id, fromAt: instant, by: z.string() })),
});
export type ClockTerm = z.output<typeof termOfKind>;

const clock = z.strictObject({
  clock: clockName,
  amount: z.int(),
  unit: oneOf(UNITS),
  source: z.string(),
  startedAt: instant,
  dueAt: instant,
  metAt: instant.nullable(),
  metBy: z.string().nullable(),
  /** No longer asked for. */
  droppedAt: instant.nullable(),
  standsStill: z.boolean(),
  /** Minutes of office hours; null while it is not overdue. */
  overdueMinutes: z.int().nullable(),
  /** Minutes of office hours until it is due; null when it ended or is overdue. */
  leftMinutes: z.int().nullable(),
});
const tick = z.strictObject({ day, words: z.string().nullable(), by: z.string().nullable(), at: instant });
const paper = z.strictObject({
  servedOn: day.nullable(),
  serviceWay: z.string().nullable(),
  deadlineOn: day.nullable(),
  sameDay: z.array(z.strictObject({ item: oneOf(SAME_DAY), done: tick.nullable() })),
  answered: tick.omit({ at: true }).nullable(),
});
const times = { what: oneOf(INJURIES), happenedAt: instant, outcomeAt: instant, learnedAt: instant };
const injury = z.strictObject({
  injuryId: id,
  ...times,
  words: z.string().nullable(),
  /** Null: it came too long after the accident to be reported. */
  dueAt: instant.nullable(),
  reportedAt: instant.nullable(),
});
/** The optional keys are the owner's; for others they are absent. */
const clocksOfCallback = z.strictObject({
  clocks: z.array(clock),
  mayPause: z.boolean(),
  paused: z.boolean(),
  pauses: z.array(
    z.strictObject({
      id,
      fromAt: instant,
      from: z.string().nullable(),
      untilAt: instant.nullable(),
      until: z.string().nullable(),
      words: z.string().nullable(),
      officeMinutes: z.int(),
    }),
  ),
  paper: paper.optional(),
  injuries: z.array(injury).optional(),
  injurySource: z.string().optional(),
});
export type CallbackClocks = z.output<typeof clocksOfCallback>;

export const clockRoutes = {
  terms: route({
    method: 'GET',
    path: '/api/callback-clocks',
    area: 'callbacks',
    summary: 'How long each clock of each kind of callback runs, with its source and everything that was set before',
    who: DESK,
    reply: z.array(termOfKind),
  }),
  setTerm: route({
    method: 'POST',
    path: '/api/callback-clocks',
    area: 'callbacks',
    summary: 'Set how long a clock runs for callbacks that are received from now on',
    who: OWNER,
    creates: true,
    reply: made,
    body: z.strictObject({ id, kind: anyKind, clock: anyClock, amount: z.int(), unit: oneOf(UNITS), source: line(300) }),
  }),
  ofCallback: route({
    method: 'GET',
    path: '/api/callbacks/:id/clocks',
    area: 'callbacks',
    summary: 'Every clock of a callback: due, met, overdue, standing still; for the owner its paper and injuries of own people',
    who: DESK,
    params: idParams,
    reply: clocksOfCallback,
  }),
  pause: route({
    ...act,
    path: '/api/callbacks/:id/pause',
    summary: 'Wait for the client: the clocks of visit and decision stand still',
    who: DESK,
    body: z.strictObject({ words: said }),
  }),
  resume: route({
    ...act,
    path: '/api/callbacks/:id/resume',
    summary: 'The clocks go on, due later by the office time that passed',
    who: DESK,
    body: z.strictObject({ words: said.optional() }),
  }),
  safety: route({
    ...act,
    path: '/api/callbacks/:id/safety',
    summary: 'Mark as a danger to people, which alerts who is on call, or lift the mark',
    who: DESK,
    body: z.strictObject({ safety: z.boolean(), words: said }),
  }),
  tick: route({
    ...act,
    path: '/api/callbacks/:id/same-day',
    summary: 'Tick what is done on the day on which a legal paper comes',
    who: OWNER,
    body: z.strictObject({ item: oneOf(SAME_DAY), day, words: said }),
  }),
  setPaper: route({
    ...act,
    path: '/api/callbacks/:id/paper',
    summary: 'Set day and way of service and the deadline anew, by hand, from the paper',
    who: OWNER,
    body: z.strictObject({ servedOn: day, serviceWay: line(100), deadlineOn: day, words: said }),
  }),
  answerPaper: route({
    ...act,
    path: '/api/callbacks/:id/paper/answer',
    summary: 'The paper was answered',
    who: OWNER,
    body: z.strictObject({ day, words: said }),
  }),
  injury: route({
    ...act,
    path: '/api/callbacks/:id/injuries',
    summary: 'Somebody of the firm was hurt: by when that is reported, in real hours',
    who: OWNER,
    body: z.strictObject({ injuryId: id, ...times, words: said }),
  }),
  reportInjury: route({
    ...act,
    path: '/api/callbacks/:id/injuries/report',
    summary: 'The injury was reported to the federal office',
    who: OWNER,
    body: z.strictObject({ injuryId: id, at: instant, words: said }),
  }),
};

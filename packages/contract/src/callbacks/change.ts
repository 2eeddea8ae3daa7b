// One corrective action to its end: its page, its effect, its review, and the same gap on other jobs.
import { z } from 'zod';
import { GAPS, REVIEW_RESULTS, VERDICTS } from '@backsight/domain/callbacks/words';
import { day, id, idParams, instant, line, prose, route } from '../route.ts';
import { action, said } from './actions.ts';
import { JUDGES, oneOf } from './shapes.ts';
export { GAPS, REVIEW_RESULTS, VERDICTS } from '@backsight/domain/callbacks/words';

const n = z.number();
const figures = z.strictObject({
  followUpDays: z.int(),
  changedAt: instant.nullable(),
  steps: z.array(
    z.strictObject({
      stepKey: z.string(),
      title: z.string(),
      before: z.strictObject({ jobs: z.int(), failures: z.int() }),
      after: z.strictObject({ jobs: z.int(), failures: z.int() }),
      young: z.int(),
      verdict: z.string(),
      ratio: n.nullable(),
      lower: n.nullable(),
      upper: n.nullable(),
      p: n.nullable(),
      metBefore: z.strictObject({ count: z.int(), total: z.int() }).nullable(),
      metAfter: z.strictObject({ count: z.int(), total: z.int() }).nullable(),
      shareCheck: z.string(),
      failureCheck: z.string(),
    }),
  ),
});
const event = z.strictObject({
  kind: z.enum(['decided', 'replanned', 'linked', 'done', 'dropped', 'recurred', 'reviewed']),
  by: z.string().nullable(),
  happenedAt: instant,
  words: z.string().nullable(),
  /** Of a recurrence; absent for those who do not see callbacks. */
  callback: z.strictObject({ id, number: z.int() }).nullable().optional(),
  dueOn: day.nullable().optional(),
  reviewOn: day.nullable().optional(),
  doneOn: day.optional(),
  attendees: z.array(z.string()).optional(),
  kit: z.string().optional(),
  result: oneOf(REVIEW_RESULTS).optional(),
  nextOn: day.nullable().optional(),
  figures: figures.optional(),
});
/** The optional keys are for owner and lead inspectors; whoever else sees to the action gets what is to be done. */
const one = action
  .omit({ callbacks: true, why: true })
  .extend({ why: z.string().optional(), callbacks: action.shape.callbacks.optional(), events: z.array(event) });
export type ActionPage = z.output<typeof one>;

const rate = z.strictObject({ rate: n, lower: n, upper: n }).nullable();
const span = z.strictObject({ jobs: z.int(), failures: z.int(), nearMisses: z.int(), rate });
const share = z.strictObject({ count: z.int(), total: z.int() });
const check = { decision: z.enum(['better', 'not_better', 'worse', 'go_on', 'cannot', 'ended']), sentence: z.string() };
const working = z.strictObject({
  before: share.extend({ lower: n, upper: n }).nullable(),
  after: share.extend({ lower: n, upper: n }).nullable(),
  difference: z.strictObject({ difference: n, lower: n, upper: n }).nullable(),
  p: n.nullable(),
  likeAge: z.strictObject({ oddsRatio: n.nullable(), lower: n.nullable(), upper: n.nullable(), p: n }).nullable(),
  parts: z.array(z.strictObject({ key: z.string(), label: z.string(), before: share, after: share })),
  weeks: z.array(z.strictObject({ week: day, met: z.int(), total: z.int(), after: z.boolean() })),
  sentence: z.string(),
});
const stepEffect = z.strictObject({
  stepKey: z.string(),
  title: z.string(),
  before: span,
  after: span,
  young: z.strictObject({ jobs: z.int(), failures: z.int() }),
  jobsPerYear: n.nullable(),
  rates: z.strictObject({
    verdict: z.enum(['fewer', 'more', 'no_difference', 'too_early', 'not_yet']),
    comparison: z.strictObject({ ratio: n.nullable(), lower: n, upper: n.nullable(), pMinimumLikelihood: n, pDoubling: n }).nullable(),
    neededJobs: z.int().nullable(),
    neededEach: z.int().nullable(),
    years: n.nullable(),
    sentence: z.string(),
  }),
  pAdjusted: n.nullable(),
  working,
  shareCheck: z.strictObject({ ...check, looked: z.int(), decidedAt: z.int().nullable(), usual: n.nullable(), hoped: n.nullable() }),
  failureCheck: z.strictObject({ ...check, observed: z.int(), expected: n.nullable(), statistic: n.nullable(), critical: n.nullable() }),
});
export type StepEffect = z.output<typeof stepEffect>;
const effect = z.strictObject({
  followUpDays: z.int(),
  followUp: z.strictObject({ within: z.int(), total: z.int() }),
  changedAt: instant.nullable(),
  /** How many records are counted on each side of the change at most, the nearest to it; where there are more, the days between which they were opened. */
  counted: z.strictObject({ most: z.int(), after: day.nullable(), before: day.nullable() }),
  steps: z.array(stepEffect),
});

const recorded = z.strictObject({ answer: z.string(), match: z.string(), by: z.string() });
const elsewhereJob = z.strictObject({
  jobId: id,
  jobNumber: z.int(),
  inspectedAt: instant,
  places: z.array(z.strictObject({ item: z.string().nullable(), hasGap: z.boolean(), recorded: z.array(recorded) })),
  look: z
    .strictObject({ gap: oneOf(GAPS), verdict: oneOf(VERDICTS), words: z.string().nullable(), by: z.string(), happenedAt: instant })
    .nullable(),
  decision: z
    .strictObject({
      decision: z.enum(['tell', 'not_tell']),
      danger: z.boolean(),
      insurerWord: z.string(),
      attorneyWord: z.string(),
      told: z.array(z.strictObject({ name: z.string(), way: z.enum(['mail', 'call']) })),
      words: z.string().nullable(),
      by: z.string(),
      happenedAt: instant,
    })
    .nullable(),
});
export type ElsewhereJob = z.output<typeof elsewhereJob>;
const elsewhere = z.strictObject({
  steps: z.array(z.strictObject({ name: z.string(), title: z.string(), revisionNumber: z.int(), procedureTitle: z.string() })),
  step: z.string().nullable(),
  /** Gaps that the failed entries show. */
  shown: z.array(oneOf(GAPS)),
  gap: oneOf(GAPS).nullable(),
  jobs: z.array(elsewhereJob),
  next: z.int().nullable(),
});

const act = { method: 'POST', area: 'callbacks', params: idParams, creates: true } as const;
const acted = z.strictObject({ id });

const concluded = z.strictObject({
  id,
  number: z.int(),
  cause: z.string(),
  step: z.string().nullable(),
  stepKey: z.string().nullable(),
  actions: z.int(),
});
export type ConcludedCallback = z.output<typeof concluded>;

export const changeRoutes = {
  concluded: route({
    method: 'GET',
    path: '/api/concluded-callbacks',
    area: 'callbacks',
    summary: 'Callbacks with a conclusion, newest first: what a corrective action may come from',
    who: JUDGES,
    reply: z.array(concluded),
  }),
  one: route({
    method: 'GET',
    path: '/api/corrective-actions/:id',
    area: 'callbacks',
    summary: 'One corrective action with its history; for whoever sees to it too, without the callbacks',
    who: 'signed_in',
    of: 'asked',
    params: idParams,
    reply: one,
  }),
  plan: route({
    ...act,
    path: '/api/corrective-actions/:id/plan',
    summary: 'Who sees to it, until when, and when it is reviewed by whom',
    who: JUDGES,
    body: z.strictObject({ ownerId: id, dueOn: day, reviewOn: day.nullable(), reviewerId: id.nullable() }),
    reply: acted,
  }),
  effect: route({
    method: 'GET',
    path: '/api/corrective-actions/:id/effect',
    area: 'callbacks',
    summary: 'Jobs and failures before and after the change, the evidence of the records, and checks that may be read every week',
    who: JUDGES,
    params: idParams,
    query: z.strictObject({ days: z.coerce.number().int().min(7).max(1100).optional() }),
    reply: effect,
  }),
  review: route({
    ...act,
    path: '/api/corrective-actions/:id/review',
    summary: 'Worked, did not work, or too early; the figures of that moment are kept',
    who: JUDGES,
    body: z.strictObject({ result: oneOf(REVIEW_RESULTS), words: prose(2000), nextOn: day.nullable() }),
    reply: acted,
  }),
  elsewhere: route({
    method: 'GET',
    path: '/api/corrective-actions/:id/elsewhere',
    area: 'callbacks',
    summary: 'Other jobs done by the same step and revision whose record shows the same gap',
    who: JUDGES,
    params: idParams,
    query: z.strictObject({
      step: line(200).optional(),
      gap: oneOf(GAPS).optional(),
      before: z.coerce.number().int().min(1).optional(),
    }),
    reply: elsewhere,
  }),
  look: route({
    ...act,
    path: '/api/corrective-actions/:id/elsewhere/looks',
    summary: 'What a look at the record of another job found',
    who: JUDGES,
    body: z.strictObject({ jobId: id, lookId: id, gap: oneOf(GAPS), verdict: oneOf(VERDICTS), words: prose(2000) }),
    reply: acted,
  }),
  tell: route({
    ...act,
    path: '/api/corrective-actions/:id/elsewhere/decisions',
    summary: "Whether the client of another job is told: the owner's decision; a danger at once, also by whoever is on call",
    who: JUDGES,
    body: z.strictObject({
      jobId: id,
      decisionId: id,
      decision: z.enum(['tell', 'not_tell']),
      danger: z.boolean(),
      insurerWord: said(500),
      attorneyWord: said(500),
      reason: prose(2000),
      words: said(4000),
    }),
    reply: z.strictObject({ id, told: z.array(z.strictObject({ name: z.string(), way: z.enum(['mail', 'call']) })) }),
  }),
};

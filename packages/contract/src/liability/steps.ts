// What the firm learns from its steps: for owner and lead inspector alone.
import { z } from 'zod';
import { CAUSES, KINDS } from '@backsight/domain/callbacks/words';
import { id, instant, line, route } from '../route.ts';
import { oneOf } from '../callbacks/shapes.ts';

export { CAUSES, KINDS };
const JUDGES = ['owner', 'lead_inspector'] as const;
const n = z.number();
const rate = z.strictObject({ rate: n, lower: n, upper: n }).nullable();
const share = z.strictObject({ count: z.int(), total: z.int(), lower: n, upper: n }).nullable();
const counted = { times: z.int(), jobs: z.int(), failures: z.int(), nearMisses: z.int(), rate };
const shares = { skipped: share, couldNot: share, differed: share };
const money = { paidCents: z.int(), reservedCents: z.int(), recoveredCents: z.int(), incurredCents: z.int() };
const named = { stepKey: z.string(), title: z.string(), procedureId: id, procedureTitle: z.string(), system: z.string() };

const step = z.strictObject({ ...named, ...counted, ...money, ...shares });
export type StepFigures = z.output<typeof step>;
const list = z.strictObject({
  from: z.string().nullable(),
  until: z.string().nullable(),
  system: z.string().nullable(),
  /** First month in which a step applied; null before. */
  firstMonth: z.string().nullable(),
  systems: z.array(z.string()),
  failuresSentence: z.string(),
  costSentence: z.string(),
  /** Most failures first. */
  steps: z.array(step),
});
export type StepsPage = z.output<typeof list>;

const change = z.strictObject({
  actionId: id,
  actionNumber: z.int(),
  revisionId: id,
  revisionNumber: z.int(),
  inForceFrom: instant,
  before: z.strictObject(counted),
  after: z.strictObject(counted),
  comparison: z.strictObject({
    verdict: z.enum(['fewer', 'more', 'too_early']),
    ratio: n.nullable(),
    lower: n.nullable(),
    upper: n.nullable(),
    p: n.nullable(),
    neededFailures: z.int(),
    yearsToGo: n.nullable(),
    sentence: z.string(),
  }),
  evidence: z.strictObject({ met: z.int(), total: z.int(), lower: n, upper: n }).nullable(),
});

const mark = z.strictObject({ mark: z.enum(['same', 'added', 'removed']), text: z.string() });
const callback = z.strictObject({ id, number: z.int() });
const textChange = z.strictObject({
  revisionId: id,
  procedureId: id,
  number: z.int(),
  inForceFrom: instant,
  author: z.string(),
  approver: z.string().nullable(),
  reason: z.string(),
  sentences: z.array(z.string()),
  reworded: z.array(z.strictObject({ field: z.string(), title: z.string(), marks: z.array(mark) })),
  actions: z.array(z.strictObject({ id, number: z.int(), callbacks: z.array(callback) })),
});

const signal = z.strictObject({
  rule: z.enum(['beyond_limits', 'run', 'sum_beyond_limit']),
  side: z.enum(['above', 'below']),
  sentence: z.string(),
});
const point = z.strictObject({
  label: z.string(),
  of: z.string(),
  value: n.nullable(),
  center: n,
  lower: n.nullable(),
  upper: n.nullable(),
  signals: z.array(signal),
});
const chart = z.discriminatedUnion('ok', [
  z.strictObject({ ok: z.literal(false), sentence: z.string() }),
  z.strictObject({
    ok: z.literal(true),
    kind: z.enum(['months', 'quarters', 'between']),
    choice: z.string(),
    summary: z.string(),
    goodSide: z.enum(['above', 'below']),
    points: z.array(point),
    marks: z.array(z.strictObject({ at: z.int(), label: z.string() })),
    since: z.int(),
  }),
]);

const traced = callback.extend({
  kind: oneOf(KINDS),
  place: z.string(),
  cause: z.string(),
  receivedOn: z.string(),
  inspectedOn: z.string(),
  revision: z.int().nullable(),
  incurredCents: z.int(),
});
const one = z.strictObject({
  ...named,
  sentence: z.string(),
  ...counted,
  ...money,
  ...shares,
  /** Times on sealed records whose evidence meets the step. */
  met: share,
  /** Failures of all steps together. */
  allFailures: z.int(),
  /** Conclusions that wait for their confirmation and so are not counted. */
  waiting: z.int(),
  text: z.strictObject({
    now: z.array(
      z.strictObject({ key: z.string(), title: z.string(), instruction: z.string(), why: z.string(), caution: z.string().nullable() }),
    ),
    unchanged: z.int(),
    changes: z.array(textChange),
  }),
  revisions: z.array(z.strictObject({ revisionId: id, procedureId: id, number: z.int(), inForceFrom: instant, ...counted, ...shares })),
  months: z.array(
    z.strictObject({
      ...{ month: z.string(), times: z.int(), jobs: z.int(), failures: z.int(), nearMisses: z.int() },
      ...{ judged: z.int(), skipped: z.int(), couldNot: z.int(), differed: z.int() },
      revisions: z.array(z.strictObject({ revisionId: id, times: z.int() })),
    }),
  ),
  chart,
  changes: z.array(change),
  /** Newest first, 50 at most. */
  callbacks: z.array(traced),
  nearMissCallbacks: z.array(traced),
  /** Counted above, but for the owner alone. */
  unnamed: z.int(),
});
export type StepPage = z.output<typeof one>;

const month = z.string().regex(/^20\d\d-(0[1-9]|1[0-2])$/, 'Give a month of this century as YYYY-MM.');
const wanted = z
  .strictObject({ from: month.optional(), until: month.optional(), system: line(60).optional() })
  .refine(({ from, until }) => from === undefined || until === undefined || from <= until, {
    message: 'The first month must not come after the last.',
    path: ['until'],
  });
const params = z.strictObject({ key: line(120) });

const read = { method: 'GET', area: 'liability', who: JUDGES } as const;
export const liabilityStepRoutes = {
  list: route({
    ...read,
    path: '/api/liability/steps',
    summary: 'Times each step applied, failures, near-misses, cost and what was left out, by months of inspection and system',
    query: wanted,
    reply: list,
  }),
  one: route({
    ...read,
    path: '/api/liability/steps/:key',
    summary: 'One step: its text by revision, exposure, failures, control chart, whether changes helped, and its callbacks',
    params,
    reply: one,
  }),
};

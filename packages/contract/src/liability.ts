// What the firm owes, and what it learns from its steps: for owner and lead inspector alone.
import { z } from 'zod';
import { money } from './callbacks.ts';
import { day, id, instant, route } from './route.ts';

const JUDGES = ['owner', 'lead_inspector'] as const;
const liability = z.strictObject({
  today: day,
  money: z.strictObject({ month: money, year: money, ever: money }),
  months: z.array(money.extend({ month: z.string(), jobs: z.int(), callbacks: z.int() })),
  open: z.array(z.strictObject({ state: z.string(), upTo7: z.int(), upTo30: z.int(), upTo90: z.int(), older: z.int() })),
  waiting: z.array(
    z.strictObject({
      remedyId: id,
      callbackId: id,
      number: z.int(),
      kind: z.string(),
      cents: z.int(),
      proposer: z.string(),
      recordedAt: instant,
    }),
  ),
  despite: z.strictObject({ overrides: z.int(), unsignedStarts: z.int() }),
  windows: z.strictObject({ shortOpen: z.int(), longOpen: z.int(), unknown: z.int(), sources: z.array(z.string()) }),
});
export type Liability = z.output<typeof liability>;

const rate = z.strictObject({ rate: z.number(), lower: z.number(), upper: z.number() }).nullable();
const counted = { times: z.int(), jobs: z.int(), failures: z.int(), nearMisses: z.int(), rate };
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
    ratio: z.number().nullable(),
    lower: z.number().nullable(),
    upper: z.number().nullable(),
    p: z.number().nullable(),
    neededFailures: z.int(),
    yearsToGo: z.number().nullable(),
    sentence: z.string(),
  }),
  evidence: z.strictObject({ met: z.int(), total: z.int(), lower: z.number(), upper: z.number() }).nullable(),
});
const step = z.strictObject({
  stepKey: z.string(),
  title: z.string(),
  procedureId: id,
  procedureTitle: z.string(),
  system: z.string(),
  ...counted,
  changes: z.array(change),
});
export type StepFigures = z.output<typeof step>;

export const liabilityRoutes = {
  page: route({
    method: 'GET',
    path: '/api/liability',
    area: 'liability',
    summary: 'Paid, set aside, recovered; what is open and for how long',
    who: JUDGES,
    reply: liability,
  }),
  steps: route({
    method: 'GET',
    path: '/api/liability/steps',
    area: 'liability',
    summary: 'Times each step applied, failures, and before and after a change',
    who: JUDGES,
    reply: z.strictObject({ steps: z.array(step) }),
  }),
};

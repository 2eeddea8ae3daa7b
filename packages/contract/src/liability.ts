// What the firm learns from its steps: for owner and lead inspector alone.
import { z } from 'zod';
import { id, instant, route } from './route.ts';

const JUDGES = ['owner', 'lead_inspector'] as const;
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
  steps: route({
    method: 'GET',
    path: '/api/liability/steps',
    area: 'liability',
    summary: 'Times each step applied, failures, and before and after a change',
    who: JUDGES,
    reply: z.strictObject({ steps: z.array(step) }),
  }),
};

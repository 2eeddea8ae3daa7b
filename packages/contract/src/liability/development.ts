// How callbacks and their cost develop by month, quarter or year of inspection: for owner and lead inspector alone.
import { z } from 'zod';
import { METHOD_NAMES, METHODS } from '@backsight/domain/liability/development/choice';
import { GRAINS, type Grain } from '@backsight/domain/liability/development/periods';
import { MEASURED, type Measured } from '@backsight/domain/liability/development/triangle';
import { day, route } from '../route.ts';

export { GRAINS, MEASURED, METHOD_NAMES, METHODS, type Grain, type Measured };
const JUDGES = ['owner', 'lead_inspector'] as const;
/** One method for all periods, or the one that fits each. */
export const CHOICES = ['each', ...METHODS] as const;

/** `expected`: callbacks, or cents, that somebody expects of 100 jobs; young periods then follow it. */
export const developmentAsked = z.strictObject({
  by: z.enum(GRAINS).default('quarter'),
  of: z.enum(MEASURED).default('incurred'),
  asOf: day.optional(),
  method: z.enum(CHOICES).default('each'),
  expected: z.coerce.number().min(0).max(1_000_000_000).optional(),
});

const range = z.strictObject({ lower: z.number(), upper: z.number() }).nullable();
const cannot = { ok: z.literal(false), code: z.string(), sentence: z.string() };
const longer = z.strictObject({ to: z.enum(GRAINS), sentence: z.string() }).nullable();

const outlook = z.strictObject({
  method: z.enum(METHODS),
  why: z.string(),
  shareKnown: z.number(),
  ultimate: z.number(),
  unreported: z.number(),
  standardError: z.number().nullable(),
  projected: z.array(z.number()),
});
const origin = z.strictObject({
  name: z.string(),
  jobs: z.int(),
  callbacks: z.int(),
  cells: z.array(z.int()),
  whole: z.int(),
  latest: z.int(),
  outlook: outlook.nullable(),
});
export type DevelopmentOrigin = z.output<typeof origin>;

const factor = z.strictObject({
  from: z.int(),
  to: z.int(),
  factor: z.number(),
  rows: z.int(),
  standardError: z.number().nullable(),
  shareKnown: z.number(),
});
export type DevelopmentFactor = z.output<typeof factor>;

const estimated = z.strictObject({
  ok: z.literal(true),
  factors: z.array(factor),
  factorErrors: z.string().nullable(),
  expectedPer100: z.number().nullable(),
  totals: z.strictObject({ latest: z.int(), ultimate: z.number(), unreported: z.number(), standardError: z.number().nullable(), range }),
  because: z.array(z.string()),
  longer,
});
const outstanding = z.strictObject({
  ok: z.literal(true),
  method: z.enum(['amounts', 'callbacks_by_cost']),
  amountCents: z.int(),
  standardErrorCents: z.int().nullable(),
  rangeCents: range,
  callbacksToCome: z.number().nullable(),
  reservedCents: z.int(),
  sentence: z.string(),
});

const development = z.strictObject({
  today: day,
  asOf: day,
  by: z.enum(GRAINS),
  of: z.enum(MEASURED),
  method: z.enum(CHOICES),
  expected: z.number().nullable(),
  wholeUntil: day,
  folded: z.strictObject({ name: z.string(), periods: z.int(), jobs: z.int(), callbacks: z.int(), latest: z.int() }).nullable(),
  notInspected: z.int(),
  origins: z.array(origin),
  estimate: z.discriminatedUnion('ok', [estimated, z.strictObject({ ...cannot, longer })]),
  outstanding: z.discriminatedUnion('ok', [outstanding, z.strictObject(cannot)]),
});
export type Development = z.output<typeof development>;

export const developmentRoutes = {
  page: route({
    method: 'GET',
    path: '/api/liability/development',
    area: 'liability',
    summary:
      'Triangle by period of inspection and age, factors, ultimate and unreported part with their errors, as known at the end of a day',
    who: JUDGES,
    query: developmentAsked,
    reply: development,
  }),
};

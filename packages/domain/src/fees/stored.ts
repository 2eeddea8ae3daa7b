// Shapes of a fee schedule and of a pay rule in the database and in the editor.
import { z } from 'zod';
import { FACTS } from '../shared/facts.ts';
import type { NumericFactKey } from '../shared/phrases.ts';
import { applicabilitySchema } from '../shared/stored.ts';
import { OUTSIDE_DAYS, type FeeRule } from './schedule.ts';

const numericFacts = Object.entries(FACTS)
  .filter(([, { type }]) => type === 'number')
  .map(([key]) => key);
const numericFactSchema = z.enum(numericFacts as [NumericFactKey, ...NumericFactKey[]]);

/** Up to $1,000,000: more is a slip of the keyboard. */
const cents = z.int().min(0).max(100_000_000);
/** Of the local day. */
const minute = z.int().min(0).max(1440);
const key = z.string().regex(/^[a-z][a-z0-9_-]{0,59}$/, 'A key is lower-case letters, digits, - and _.');
const label = z.string().trim().min(1).max(120);

/** Limits rise, and only the last band has none: every value finds its band. */
const complete = (limits: readonly (number | null)[]): boolean =>
  limits.at(-1) === null && limits.slice(0, -1).every((limit, at) => limit !== null && limit > (at === 0 ? 0 : limits[at - 1]!));

const BANDS = 'Limits of bands must rise, and only the last band is without a limit.';
const sizeBands = z
  .array(z.strictObject({ upToSqFt: z.int().positive().nullable(), cents }))
  .min(1)
  .max(40)
  .refine((bands) => complete(bands.map(({ upToSqFt }) => upToSqFt)), BANDS);
const travelBands = z
  .array(z.strictObject({ upToMinutes: z.int().positive().nullable(), cents }))
  .min(1)
  .max(40)
  .refine((bands) => complete(bands.map(({ upToMinutes }) => upToMinutes)), BANDS);

const { min, max } = FACTS.livingArea;
const head = { key, label, applies: applicabilitySchema };

const oneAmount = (rule: { percent?: number | undefined; cents?: number | undefined }): boolean =>
  (rule.percent === undefined) !== (rule.cents === undefined);

const anyRuleSchema = z.discriminatedUnion('kind', [
  z.strictObject({ ...head, kind: z.literal('base'), bands: sizeBands, assume: z.int().min(min).max(max) }),
  z.strictObject({
    ...head,
    kind: z.literal('perUnitOver'),
    fact: numericFactSchema,
    over: z.number().min(0),
    step: z.number().positive(),
    cents,
    assume: z.number().min(0).optional(),
  }),
  z.strictObject({ ...head, kind: z.literal('surcharge'), cents }),
  z.strictObject({ ...head, kind: z.literal('addOn'), service: z.string().min(1).max(100), cents }),
  z.strictObject({ ...head, kind: z.literal('travelBand'), bands: travelBands }),
  z
    .strictObject({
      ...head,
      kind: z.literal('discount'),
      reason: label,
      cents: cents.optional(),
      percent: z.number().positive().max(100).multipleOf(0.01).optional(),
    })
    .refine(oneAmount, { error: 'A discount is either a percentage or an amount.' }),
  z.strictObject({ ...head, kind: z.literal('minimum'), cents }),
  z
    .strictObject({
      ...head,
      kind: z.literal('outsideHours'),
      before: minute,
      after: minute,
      days: z.array(z.enum(OUTSIDE_DAYS)).max(OUTSIDE_DAYS.length),
      cents,
    })
    .refine(({ before, after }) => before < after, { path: ['after'], error: 'Hours end later than they begin.' }),
]);

/** One rule. The refinement above proves that a discount has exactly one of its two amounts, which the type demands. */
export const feeRuleSchema = anyRuleSchema as unknown as z.ZodType<FeeRule>;

const keysOnce = (rules: readonly FeeRule[]): boolean => new Set(rules.map((rule) => rule.key)).size === rules.length;

/** A whole schedule: at least one base fee, and keys that name one rule each. */
export const feeScheduleSchema = z.strictObject({
  rules: z
    .array(feeRuleSchema)
    .min(1)
    .max(200)
    .refine((rules) => rules.some(({ kind }) => kind === 'base'), 'A schedule needs a base fee.')
    .refine(keysOnce, 'Two rules have the same key.'),
});

const percent = z.number().min(0).max(100).multipleOf(0.01);
/** Up to $100,000: more is a slip of the keyboard. */
const payCents = z.int().min(0).max(10_000_000);

/** A pay rule: strict, so that no further figure can be written into it. */
export const payRuleSchema = z.strictObject({
  basis: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('share'), firstPercent: percent, secondPercent: percent }),
    z.strictObject({ kind: z.literal('job'), firstCents: payCents, secondCents: payCents }),
    z.strictObject({ kind: z.literal('hours'), firstCents: payCents, secondCents: payCents }),
  ]),
  writer: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('none') }),
    z.strictObject({ kind: z.literal('percent'), percent }),
    z.strictObject({ kind: z.literal('amount'), cents: payCents }),
  ]),
});

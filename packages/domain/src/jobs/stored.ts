// Shape of the booking rules in the database: durations, what a visit demands, and what the desk charges and waits for.
import { z } from 'zod';
import { FACTS } from '../shared/facts.ts';
import type { NumericFactKey } from '../shared/phrases.ts';
import { applicabilitySchema } from '../shared/stored.ts';
import type { RequirementRule } from '../schedule/requirements.ts';
import type { DeskRules } from './deskRules.ts';
import type { DurationRule } from './duration.ts';

export type StoredBookingRules = { durations: DurationRule[]; requirements: RequirementRule[]; desk?: DeskRules };

const numericFacts = Object.entries(FACTS)
  .filter(([, { type }]) => type === 'number')
  .map(([key]) => key);
const key = z.string().regex(/^[a-z][a-z0-9_-]{0,59}$/, 'A key is lower-case letters, digits, - and _.');
const head = { key, label: z.string().trim().min(1).max(120), applies: applicabilitySchema };
/** A working day at most: more is a slip of the keyboard. */
const minutes = z.int().min(0).max(720);

const duration = z.strictObject({
  ...head,
  minutes: z.union([
    minutes,
    z.strictObject({
      fact: z.enum(numericFacts as [NumericFactKey, ...NumericFactKey[]]),
      per: z.number().positive(),
      minutes,
      roundUp: z.boolean(),
      assume: z.number().min(0).optional(),
    }),
  ]),
  report: z.boolean().optional(),
  walkThrough: z.boolean().optional(),
});

const requirement = z.strictObject({
  ...head,
  need: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('license'), license: key }),
    z.strictObject({ kind: z.literal('qualification'), key, who: z.enum(['each', 'any']) }),
    z.strictObject({ kind: z.literal('kit'), kit: key }),
    z.strictObject({ kind: z.literal('daylight'), offsetMinutes: minutes }),
  ]),
});

const percent = z.number().min(0).max(100).multipleOf(0.01);
const hours = z.int().min(0).max(2000);

export const deskRulesSchema = z.strictObject({
  endings: z.strictObject({ refused_at_the_door: percent, nobody_came: percent, stopped_for_safety: percent, stopped_by_client: percent }),
  late: z
    .strictObject({
      hours,
      movePercent: percent,
      cancelPercent: percent,
      fullHours: hours.optional(),
      moveCents: z.int().min(0).max(10_000_000).optional(),
      cancelCents: z.int().min(0).max(10_000_000).optional(),
    })
    .refine((late) => (late.fullHours ?? 0) <= late.hours, {
      path: ['fullHours'],
      error: 'The whole fee counts from a time no earlier than the part of it.',
    }),
  radon: z.strictObject({ shortestHours: hours, closedHouseHours: hours }),
  holdingHours: z.int().min(1).max(2000),
  laterLooks: z
    .array(
      z.strictObject({
        key: z.string().regex(/^[a-z][a-z0-9_]{0,59}$/),
        label: z.string().min(1).max(120),
        reason: z.string().min(1).max(300),
        applies: applicabilitySchema,
        visitKind: z.string().min(1).max(60),
        cents: z.int().min(0).max(2_000_000_000),
        remindOn: z.string().regex(/^(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/),
      }),
    )
    .max(20),
});

/** Each key once: a rule is known by it for life. */
const once = (rules: readonly { key: string }[]): boolean => new Set(rules.map((rule) => rule.key)).size === rules.length;
const ONCE = 'Two rules have the same key.';

export const bookingRulesSchema = z.strictObject({
  durations: z.array(duration).max(200).refine(once, ONCE),
  requirements: z.array(requirement).max(200).refine(once, ONCE),
  desk: deskRulesSchema.optional(),
});

// Shape of a step in the database and in the editor.
import { z } from 'zod';
import { ITEM_KINDS, type ItemKind } from '../shared/facts.ts';
import { STEP_PLACES, type StepPlace } from '../shared/places.ts';
import { applicabilitySchema } from '../shared/stored.ts';
import { MOST_QUESTIONS, type Question } from './questions.ts';
import type { Step } from './step.ts';

const line = (max: number) =>
  z
    .string()
    .trim()
    .min(1)
    .max(max)
    .regex(/^[^\u0000-\u001f]*$/, 'Write this in one line.');
const prose = (max: number) =>
  z
    .string()
    .trim()
    .min(1)
    .max(max)
    .regex(/^[^\u0000]*$/, 'There is a character in it that cannot be kept: type it anew.');
const number = z.number().min(-1_000_000).max(1_000_000);

/** Keys of steps: lower-case words joined by hyphens. */
const stepKeySchema = z
  .string()
  .min(1)
  .max(80)
  .regex(/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/, 'A key is lower-case words joined by hyphens.');
/** Keys of kit, qualifications and published rows. */
const key = z.string().regex(/^[\w-]{1,80}$/, 'A key is letters, digits, - and _.');

const range = { unit: line(30), expectedFrom: number.optional(), expectedTo: number.optional(), hint: line(200).optional() };
const evidence = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('confirm') }),
  z.strictObject({ kind: z.literal('reading'), ...range }),
  z.strictObject({ kind: z.literal('difference'), ...range, firstLabel: line(80), secondLabel: line(80) }),
  z.strictObject({ kind: z.literal('count'), of: line(120), mustMatch: stepKeySchema.optional() }),
  z.strictObject({ kind: z.literal('choice'), options: z.array(z.strictObject({ key, label: line(120) })).max(20) }),
  z.strictObject({ kind: z.literal('note'), prompt: line(200) }),
  z.strictObject({ kind: z.literal('photo'), of: line(200) }),
]);

const basis = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('duty'), rows: z.array(key).max(20) }),
  z.strictObject({ kind: z.literal('own_extra') }),
]);

const reference = z.strictObject({
  title: line(200),
  section: line(200),
  edition: line(120),
  status: z.enum(['found', 'from memory', 'common practice']),
});
const itemKinds = Object.keys(ITEM_KINDS) as [ItemKind, ...ItemKind[]];

const places = Object.keys(STEP_PLACES) as [StepPlace, ...StepPlace[]];

/** Bounded and well-formed; whether it may be approved is asked of `checkRevision`. */
const stepSchema = z.strictObject({
  key: stepKeySchema,
  derivedFrom: stepKeySchema.optional(),
  title: line(120),
  instruction: prose(2000),
  why: prose(1000),
  caution: prose(1000).optional(),
  evidence,
  applies: applicabilitySchema,
  per: z.enum(['property', ...itemKinds]),
  place: z.enum(places).optional(),
  basis,
  who: z.enum(['either', 'first', 'partner_check']),
  onePersonOnly: z.boolean().optional(),
  style: z.enum(['read_then_do', 'do_then_confirm']),
  minutes: z.number().min(0).max(240),
  kit: z.array(key).max(20),
  qualification: key.optional(),
  after: z.array(stepKeySchema).max(30),
  sequence: stepKeySchema.optional(),
  references: z.array(reference).max(20),
  alsoMeets: z.array(key).max(40).optional(),
});

/** Absent members stay absent, which the type says by `?:` and zod by `| undefined`. */
export const stepsSchema = z.array(stepSchema).max(200) as unknown as z.ZodType<Step[], Step[]>;

const question = z.strictObject({
  key: stepKeySchema,
  stepKey: stepKeySchema,
  text: prose(300),
  options: z.array(z.strictObject({ key, label: line(160) })).max(6),
  right: key,
});
export const questionsSchema: z.ZodType<Question[], Question[]> = z.array(question).max(MOST_QUESTIONS);

type ReadStep = { ok: true; step: Step } | { ok: false; issues: { path: PropertyKey[]; message: string }[] };

/** A step out of what was typed elsewhere, or everything that is wrong with its shape. */
export function readStep(raw: unknown): ReadStep {
  const read = stepSchema.safeParse(raw);
  if (read.success) return { ok: true, step: read.data as unknown as Step };
  return { ok: false, issues: read.error.issues.map(({ path, message }) => ({ path: [...path], message })) };
}

// A step as it was handed out for a record, and the evidence that it takes.
import { z } from 'zod';
import { STEP_PLACES, type StepPlace } from '@backsight/domain/shared/places';
import { WITHOUT_PHOTO, type WithoutPhoto } from '@backsight/domain/sitework/value';
import { id } from '../route.ts';

const number = z.number().min(-1_000_000).max(1_000_000);
const unit = z.string().max(40);
export const entryEvidence = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('confirm') }),
  z.strictObject({ kind: z.literal('reading'), value: number, unit }),
  z.strictObject({ kind: z.literal('difference'), first: number, second: number, unit }),
  z.strictObject({ kind: z.literal('count'), count: z.int().min(0).max(10_000) }),
  z.strictObject({ kind: z.literal('choice'), option: z.string().max(60) }),
  z.strictObject({ kind: z.literal('note') }),
  z.strictObject({ kind: z.literal('photo'), without: z.enum(Object.keys(WITHOUT_PHOTO) as [WithoutPhoto, ...WithoutPhoto[]]).optional() }),
]);

const range = { unit: z.string(), expectedFrom: z.number().optional(), expectedTo: z.number().optional(), hint: z.string().optional() };
const asked = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('confirm') }),
  z.strictObject({ kind: z.literal('reading'), ...range }),
  z.strictObject({ kind: z.literal('difference'), firstLabel: z.string(), secondLabel: z.string(), ...range }),
  z.strictObject({ kind: z.literal('count'), of: z.string(), mustMatch: z.string().optional() }),
  z.strictObject({ kind: z.literal('choice'), options: z.array(z.strictObject({ key: z.string(), label: z.string() })).readonly() }),
  z.strictObject({ kind: z.literal('note'), prompt: z.string() }),
  z.strictObject({ kind: z.literal('photo'), of: z.string() }),
]);

export const siteStep = z.strictObject({
  stepKey: z.string(),
  packageId: id,
  itemId: id.nullable(),
  title: z.string(),
  instruction: z.string(),
  why: z.string(),
  caution: z.string().nullable(),
  evidence: asked,
  per: z.string(),
  place: z.enum(Object.keys(STEP_PLACES) as StepPlace[]).nullable(),
  basis: z.union([
    z.strictObject({ kind: z.literal('duty'), rows: z.array(z.string()).readonly() }),
    z.strictObject({ kind: z.literal('own_extra') }),
  ]),
  who: z.enum(['either', 'first', 'partner_check']),
  onePersonOnly: z.boolean(),
  style: z.enum(['read_then_do', 'do_then_confirm']),
  minutes: z.number(),
  kit: z.array(z.string()).readonly(),
  after: z.array(z.string()).readonly(),
  sequence: z.string().nullable(),
  references: z.array(z.strictObject({ title: z.string(), section: z.string(), edition: z.string(), status: z.string() })).readonly(),
  revisionId: id,
  revisionNumber: z.int(),
  procedureTitle: z.string(),
  system: z.string(),
  position: z.int(),
  partnerCheck: z.boolean(),
  because: z.string(),
});
export type SiteStep = z.output<typeof siteStep>;

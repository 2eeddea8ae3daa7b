// Shape of a pay rule in the database and over the API: strict, so that no further figure can be written into it.
import { z } from 'zod';

const percent = z.number().min(0).max(100).multipleOf(0.01);
/** Up to $100,000: more is a slip of the keyboard. */
const cents = z.int().min(0).max(10_000_000);

export const payRuleSchema = z.strictObject({
  basis: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('share'), firstPercent: percent, secondPercent: percent }),
    z.strictObject({ kind: z.literal('job'), firstCents: cents, secondCents: cents }),
    z.strictObject({ kind: z.literal('hours'), firstCents: cents, secondCents: cents }),
  ]),
  writer: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('none') }),
    z.strictObject({ kind: z.literal('percent'), percent }),
    z.strictObject({ kind: z.literal('amount'), cents }),
  ]),
});

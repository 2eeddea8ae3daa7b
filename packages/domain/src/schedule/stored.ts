// Shape of what a rule pack says of people in training.
import { z } from 'zod';

/** `withoutLicenses`: licenses that the second of a pair need not hold while in training; `source`: where it was read. */
export const traineeRuleSchema = z.strictObject({
  withoutLicenses: z.array(z.string().min(1).max(60)).min(1).max(10),
  source: z.string().min(1),
});

/** The licenses that somebody in training may lack as the second; null when the rule pack says nothing of it. @throws ZodError for another shape */
export const traineeRuleOf = (stored: unknown): readonly string[] | null =>
  stored === null || stored === undefined ? null : traineeRuleSchema.parse(stored).withoutLicenses;

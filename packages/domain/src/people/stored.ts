// Shape of the rule pack as it is stored: the part that continuing education needs.
import { z } from 'zod';
import type { EducationRule } from './education.ts';

const rule = z.object({
  education: z.object({
    hours: z.number().positive().max(1000),
    everyYears: z.int().min(1).max(10),
    renewal: z.object({ month: z.int().min(1).max(12), day: z.int().min(1).max(31), years: z.enum(['even', 'odd', 'every']) }),
    supervised: z.int().positive().nullable(),
    sources: z.array(z.string()),
  }),
});

/** The rule of a stored pack, or null when the pack names no need. */
export const readEducationRule = (body: unknown): EducationRule | null => {
  const parsed = rule.safeParse(body);
  return parsed.success ? parsed.data.education : null;
};

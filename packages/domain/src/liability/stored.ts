// Shape of the rule pack as it is stored: the part that claim windows need.
import { z } from 'zod';
import type { ClaimWindowRule } from './claimWindow.ts';

const claimRule = z.object({
  claimWindow: z.object({
    shortYears: z.number().min(0).max(50),
    longYears: z.number().min(0).max(50),
    from: z.enum(['inspected', 'completed', 'delivered', 'discovered']),
    sources: z.array(z.string()),
  }),
});

/** The rule of a stored pack, or null when the pack has none. */
export const readClaimRule = (body: unknown): ClaimWindowRule | null => {
  const parsed = claimRule.safeParse(body);
  return parsed.success ? parsed.data.claimWindow : null;
};

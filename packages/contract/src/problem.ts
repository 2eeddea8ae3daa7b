// How the API says no: RFC 9457 problem details, one shape for every refusal.
import { z } from 'zod';
import { refusals, type RefusalCode } from '@backsight/domain/refusals';

export { refusals, type RefusalCode };

export const problem = z.object({
  type: z.string(),
  title: z.string(),
  status: z.int(),
  detail: z.string().optional(),
  code: z.string(),
  /** Path of the input at fault. */
  field: z.string().optional(),
  /** Every input at fault, when the request did not fit its schema. */
  errors: z.array(z.object({ field: z.string(), message: z.string() })).optional(),
  about: z.record(z.string(), z.unknown()).optional(),
  /** Number of the log line of an error inside the service. */
  reference: z.string().optional(),
});
export type Problem = z.output<typeof problem>;

// A second blind look at a sample, and what follows from it on average.
import { z } from 'zod';
import { route } from '../route.ts';

const rules = z.strictObject({
  /** One job in so many; 0 = none. */
  doubleLookOneIn: z.int().min(0).max(100),
  /** Whether agreement and estimate are shown at all. */
  showAgreement: z.boolean(),
});
const interval = z.strictObject({ lower: z.number(), upper: z.number() }).nullable();
const figures = {
  pairs: z.int(),
  kappa: z.number().nullable(),
  observed: z.number().nullable(),
  kappaInterval: interval,
  looks: z.strictObject({ first: z.int(), second: z.int(), both: z.int() }),
  estimate: z.strictObject({ total: z.number(), missed: z.number(), lower: z.number(), upper: z.number() }).nullable(),
};
const LEADS = ['owner', 'lead_inspector'] as const;
const area = 'sitework';

export const doubleLookRoutes = {
  read: route({
    method: 'GET',
    path: '/api/double-looks',
    area,
    summary: 'Agreement of blind double looks and what both may have missed, by system and quarter; never for a job or a person',
    who: LEADS,
    reply: z.strictObject({
      rules: rules.extend({ version: z.int() }),
      fewest: z.int(),
      lines: z.array(z.strictObject({ system: z.string(), quarter: z.string(), ...figures })).nullable(),
      all: z.strictObject(figures).nullable(),
    }),
  }),
  change: route({
    method: 'PUT',
    path: '/api/double-looks/rules',
    area,
    summary: 'How often a system is looked at twice, and whether what follows from it is shown',
    who: ['owner'],
    edits: true,
    body: rules,
    reply: z.strictObject({ version: z.int() }),
  }),
};
export type DoubleLooks = z.output<typeof doubleLookRoutes.read.reply>;

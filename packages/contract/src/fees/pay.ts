// Pay rules and pay statements: for the owner, and each for himself.
import { z } from 'zod';
import { PAY_PARTS, type PayPart } from '@backsight/domain/fees/pay';
import { payRuleSchema } from '@backsight/domain/fees/stored';
import { day, id, instant, route } from '../route.ts';

export { PAY_PARTS };
export type PayRuleBody = z.output<typeof payRuleSchema>;

const text = z.string();
const area = 'fees';
const rule = z.strictObject({ id, personId: id, person: text, fromDay: day, body: payRuleSchema, recordedAt: instant, by: text });
export type PayRuleLine = z.output<typeof rule>;
const payLine = z.strictObject({
  visitId: id,
  personId: id,
  person: text,
  part: z.enum(Object.keys(PAY_PARTS) as [PayPart, ...PayPart[]]),
  ruleId: id.nullable(),
  feeCents: z.int(),
  minutes: z.int(),
  cents: z.int(),
  reason: text,
  happenedOn: day,
  jobId: id,
  jobNumber: z.int(),
  address: text,
  visitKind: text,
});
export type PayLineShown = z.output<typeof payLine>;
const period = z.strictObject({ from: day, until: day, personId: id.optional() });

export const payRoutes = {
  rules: route({
    method: 'GET',
    path: '/api/pay-rules',
    area,
    summary: 'How each person is paid, and from which day on',
    who: ['owner'],
    reply: z.strictObject({ items: z.array(rule) }),
  }),
  set: route({
    method: 'POST',
    path: '/api/pay-rules',
    area,
    summary: 'Set how a person is paid from a day on; no rule can use callbacks',
    who: ['owner'],
    creates: true,
    body: z.strictObject({ id, personId: id, fromDay: day, rule: payRuleSchema }),
    reply: z.strictObject({ id }),
  }),
  statement: route({
    method: 'GET',
    path: '/api/pay',
    area,
    summary: 'Pay statement of a period, by person: of everybody for the owner, of oneself for others',
    who: 'signed_in',
    query: period,
    reply: z.strictObject({
      lines: z.array(payLine),
      totals: z.array(z.strictObject({ personId: id, person: text, cents: z.int(), visits: z.int() })),
      totalCents: z.int(),
    }),
  }),
  csv: route({
    method: 'GET',
    path: '/api/pay.csv',
    area,
    summary: 'The same statement as CSV (RFC 4180)',
    who: 'signed_in',
    query: period,
    reply: z.unknown(),
  }),
};

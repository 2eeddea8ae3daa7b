// What if the firm were otherwise: weeks planned again.
import { z } from 'zod';
import { WHAT_IF_VISITS } from '@backsight/domain/schedule/plans';
import { HEAD, planProgress } from '../plans.ts';
import { day, id, idParams, line, made, route } from '../route.ts';

const text = z.string();
const whatIfChange = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('one_more'), likeId: id, town: line(100).nullable() }),
  z.strictObject({ kind: z.literal('base'), personId: id, town: line(100) }),
  z.strictObject({ kind: z.literal('speed'), percent: z.int().min(50).max(200) }),
]);
const whatIfSide = z.strictObject({ placed: z.int(), driving: z.int(), fit: z.int(), unproven: z.int() });
const whatIfWeek = z.strictObject({ monday: day, visits: z.int(), now: whatIfSide, then: whatIfSide });
const whatIf = z.strictObject({
  ...HEAD,
  change: whatIfChange,
  inWords: text,
  progress: planProgress.nullable(),
  answer: z.strictObject({ weeks: z.array(whatIfWeek), of: z.enum(['last_year', 'these_weeks']).optional() }).nullable(),
});
export type WhatIf = z.output<typeof whatIf>;
export type WhatIfChange = z.output<typeof whatIfChange>;

const area = 'schedule';
export const whatIfRoutes = {
  askWhatIf: route({
    method: 'POST',
    path: '/api/what-ifs',
    area,
    summary: 'Plan the visits of some weeks, or of the same weeks of last year, with the firm as it is and as it would be',
    who: ['owner', 'office_manager'],
    creates: true,
    body: z.strictObject({
      id,
      from: day,
      weeks: z.int().min(1).max(12),
      change: whatIfChange,
      visits: z.enum(WHAT_IF_VISITS).default('either'),
    }),
    reply: made,
  }),
  whatIf: route({
    method: 'GET',
    path: '/api/what-ifs/:id',
    area,
    summary: 'A what-if: progress, then visits that fit and driving, week by week',
    who: ['owner', 'office_manager'],
    params: idParams,
    reply: whatIf,
  }),
};

// How a visit ended when it was not done to the end.
import { z } from 'zod';
import { EARLY_ENDINGS } from '@backsight/domain/jobs/deskRules';
import { REPORT_OWED, type ReportOwed } from '@backsight/domain/sitework/ending';
import { cents, id, idParams, instant, line, route, wholeMinute } from '../route.ts';

export { EARLY_ENDINGS, REPORT_OWED };
export const earlyEnding = z.enum(EARLY_ENDINGS);
export const reportOwed = z.enum(Object.keys(REPORT_OWED) as [ReportOwed, ...ReportOwed[]]);
/** Base64 of 8 MB and the rest of the request. */
const UPLOAD = 12 * 1024 * 1024;

export const endingRoutes = {
  end: route({
    method: 'POST',
    path: '/api/visits/:id/ending',
    area: 'sitework',
    summary: 'Say that a visit was refused, that nobody came, or that it was stopped',
    who: 'signed_in',
    of: 'visit',
    creates: true,
    bodyLimit: UPLOAD,
    params: idParams,
    reply: z.strictObject({ id, jobId: id, notReached: z.int() }),
    body: z.strictObject({
      kind: earlyEnding,
      endedAt: wholeMinute,
      waitedMinutes: z.int().min(0).max(600).nullable().default(null),
      callsMade: z.int().min(0).max(100).nullable().default(null),
      note: z.string().trim().max(1000).default(''),
      photo: z
        .strictObject({ name: line(200), base64: z.base64().min(1) })
        .nullable()
        .default(null),
      reportOwed,
    }),
  }),
  about: route({
    method: 'GET',
    path: '/api/visits/:id/ending',
    area: 'sitework',
    summary: 'What is known before the ending of a visit is recorded, and its ending once it is',
    who: 'signed_in',
    of: 'visit',
    params: idParams,
    reply: z.strictObject({
      id,
      jobId: id,
      jobNumber: z.int(),
      address: z.string(),
      town: z.string(),
      state: z.string(),
      startsAt: instant,
      endsAt: instant,
      recordOpen: z.boolean(),
      endedAs: earlyEnding.nullable(),
      /** What the rule charges for each way of ending: percent and amount, of the fee of the visit. The office decides afterwards. */
      feeCents: cents,
      charges: z.array(z.strictObject({ kind: earlyEnding, percent: z.number(), cents })),
    }),
  }),
  photo: route({
    method: 'GET',
    path: '/api/visits/:id/ending/photo',
    area: 'sitework',
    summary: 'The photo that was taken when a visit ended early',
    who: 'signed_in',
    of: 'visit',
    params: idParams,
    reply: z.unknown(),
  }),
};

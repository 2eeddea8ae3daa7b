// What the desk does with a job besides booking it: what a visit that ended early costs, whether a report is owed, booking again.
import { z } from 'zod';
import { earlyEnding, reportOwed } from '../sitework/endings.ts';
import { cents, id, idParams, instant, route, warnings } from '../route.ts';
import { OFFICE_ROLES, start } from './shapes.ts';

const text = z.string();
const area = 'jobs';
const who = OFFICE_ROLES;
const changed = z.strictObject({ id, version: z.int() });
const waiver = { waive: z.boolean(), reason: z.string().trim().max(500).default('') };
const charge = z.strictObject({ percent: z.number(), feeCents: cents, cents });

export const jobDesk = z.strictObject({
  endings: z.array(
    z.strictObject({
      visitId: id,
      kind: earlyEnding,
      waitedMinutes: z.int().nullable(),
      callsMade: z.int().nullable(),
      note: text.nullable(),
      hasPhoto: z.boolean(),
      hasRecord: z.boolean(),
      reportOwed,
      startsAt: instant,
      endedAt: instant,
      by: text,
    }),
  ),
  /** What the rule charges for the newest ending; null when nothing is to decide. */
  endingFee: charge.nullable(),
  reportOwedOpen: z.boolean(),
  mayBookAgain: z.boolean(),
  /** Visits that the services bring besides the inspection, and from when each may begin. */
  laterVisits: z.array(z.strictObject({ kind: text, name: text, from: instant.nullable(), booked: z.boolean() })),
  /** Devices and samples without a result yet. */
  awaited: z.array(text),
});
export type JobDesk = z.output<typeof jobDesk>;

export const deskRoutes = {
  desk: route({
    method: 'GET',
    path: '/api/jobs/:id/desk',
    area,
    summary: 'What is to decide about a job whose visit did not go as booked',
    who: 'signed_in',
    params: idParams,
    reply: jobDesk,
  }),
  chargeEnding: route({
    method: 'PUT',
    path: '/api/jobs/:id/ending-fee',
    area,
    summary: 'Charge for a visit that ended early by the rule, or waive it with the reason',
    who,
    edits: true,
    params: idParams,
    reply: changed.extend({ cents, toGiveBackCents: cents }),
    body: z.strictObject(waiver),
  }),
  reportOwed: route({
    method: 'PUT',
    path: '/api/jobs/:id/report-owed',
    area,
    summary: 'Say whether a report is owed after a visit that ended early',
    who,
    edits: true,
    params: idParams,
    reply: changed,
    body: z.strictObject({ owed: z.boolean() }),
  }),
  bookAgain: route({
    method: 'PUT',
    path: '/api/jobs/:id/new-visit',
    area,
    summary: 'Book a job again whose visit ended early',
    who,
    edits: true,
    params: idParams,
    reply: z.strictObject({ id, version: z.int(), visitId: id, startsAt: instant, totalCents: cents, warnings }),
    body: z.strictObject({ start, feeAgain: z.boolean() }),
  }),
};

// What the desk does with a job besides booking it: what a visit that ended early costs, whether a report is owed, booking again.
import { z } from 'zod';
import { ARRIVES, type Arrives } from '@backsight/domain/jobs/words';
import { deskRulesSchema } from '@backsight/domain/jobs/stored';
import { earlyEnding, reportOwed } from '../sitework/endings.ts';
import { cents, day, id, idParams, instant, line, route, warnings, wholeMinute } from '../route.ts';
import { needState, OFFICE_ROLES, start } from './shapes.ts';

export { ARRIVES };
const arrives = z.enum(Object.keys(ARRIVES) as [Arrives, ...Arrives[]]);
const text = z.string();
const area = 'jobs';
const who = OFFICE_ROLES;
const changed = z.strictObject({ id, version: z.int() });
const waiver = { waive: z.boolean(), reason: z.string().trim().max(500).default('') };
/** `paidCents` is what came in for the job so far. */
const charge = z.strictObject({ percent: z.number(), feeCents: cents, cents, paidCents: cents });
const lateCharge = charge.extend({ hours: z.int(), because: z.string() });

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
  /** What the job costs once it is booked again, with the fee due again or once for both visits; null where it cannot be. */
  bookAgain: z.strictObject({ chargedCents: cents, againCents: cents, onceCents: cents }).nullable(),
  /** Visits that the services bring besides the inspection, and from when each may begin. */
  laterVisits: z.array(z.strictObject({ kind: text, name: text, from: instant.nullable(), booked: z.boolean() })),
  attendance: z.strictObject({ attendees: text, arrives, arriveAt: instant.nullable() }),
  /** What a move and a cancelling cost now; null where they cost nothing. */
  lateMove: lateCharge.nullable(),
  lateCancel: lateCharge.nullable(),
  laterLooks: z.array(
    z.strictObject({
      id,
      label: text,
      reason: text,
      visitKind: text,
      cents,
      remindOn: day,
      state: z.enum(['offered', 'declined', 'booked']),
    }),
  ),
  access: z
    .strictObject({ opener: text, phone: text, opensAt: instant.nullable(), pets: text, hasKeyBox: z.boolean(), hasAlarm: z.boolean() })
    .nullable(),
  /** Devices and samples without a result yet. */
  awaited: z.array(text),
});
export type JobDesk = z.output<typeof jobDesk>;

const look = z.strictObject({ key: text, label: text, reason: text, applies: z.unknown(), visitKind: text, cents, remindOn: text });
export const deskRules = z.strictObject({ version: z.int(), rules: deskRulesSchema.extend({ laterLooks: z.array(look) }) });
export type DeskRulesPage = z.output<typeof deskRules>;

export const deskRoutes = {
  rules: route({
    method: 'GET',
    path: '/api/desk-rules',
    area,
    summary: 'What visits that do not go as booked cost, and what the season puts off',
    who: 'signed_in',
    reply: deskRules,
  }),
  changeRules: route({
    method: 'PUT',
    path: '/api/desk-rules',
    area,
    summary: 'Change those rules for jobs that are booked from now on',
    who: ['owner'],
    edits: true,
    reply: z.strictObject({ version: z.int() }),
    body: deskRulesSchema,
  }),
  desk: route({
    method: 'GET',
    path: '/api/jobs/:id/desk',
    area,
    summary: 'What is to decide about a job whose visit did not go as booked',
    who: 'signed_in',
    of: 'job',
    params: idParams,
    reply: jobDesk,
  }),
  attendance: route({
    method: 'PUT',
    path: '/api/jobs/:id/attendance',
    area,
    summary: 'Note who attends the visit and when they are to arrive',
    who,
    edits: true,
    params: idParams,
    reply: changed,
    body: z.strictObject({ attendees: z.string().trim().max(200).default(''), arrives }),
  }),
  access: route({
    method: 'PUT',
    path: '/api/jobs/:id/access',
    area,
    summary: 'Note who agreed to the access and how one gets in; a code left out stays as it is',
    who,
    edits: true,
    params: idParams,
    reply: changed,
    body: z.strictObject({
      state: needState,
      who: z.string().trim().max(120).default(''),
      how: z.string().trim().max(500).default(''),
      opener: z.string().trim().max(120).default(''),
      phone: z.string().trim().max(40).default(''),
      opensAt: wholeMinute.nullable().default(null),
      pets: z.string().trim().max(200).default(''),
      keyBox: line(40).nullable().optional(),
      alarm: line(80).nullable().optional(),
      tenantTold: z.boolean().default(false),
    }),
  }),
  wayIn: route({
    method: 'GET',
    path: '/api/visits/:id/way-in',
    area,
    summary: 'How the people of a visit get in, codes included, around its time',
    who: 'signed_in',
    of: 'visit',
    params: idParams,
    reply: z.strictObject({
      opener: text,
      phone: text,
      opensAt: instant.nullable(),
      pets: text,
      keyBox: text.nullable(),
      alarm: text.nullable(),
    }),
  }),
  bookLook: route({
    method: 'POST',
    path: '/api/later-looks/:id/visit',
    area,
    summary: 'Book a later look with its price, in one act',
    who,
    creates: true,
    params: idParams,
    reply: z.strictObject({ id, visitId: id, startsAt: instant, cents }),
    body: z.strictObject({ start }),
  }),
  declineLook: route({
    method: 'POST',
    path: '/api/later-looks/:id/declined',
    area,
    summary: 'Note that the client does not want a later look',
    who,
    creates: true,
    params: idParams,
    reply: z.strictObject({ id }),
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

// Callbacks: taking in, looking into, concluding, putting right.
import { evidence } from './callbacks/evidence.ts';
import { z } from 'zod';
import { CIRCUMSTANCES, ERROR_KINDS } from '@backsight/domain/callbacks/causes';
import { CAUSES, CLEARANCES, REMEDIES } from '@backsight/domain/callbacks/words';
import { amount, callback, foundJob, JUDGES, kindSchema, oneOf, speaker, state } from './callbacks/shapes.ts';
import { cameIn } from './callbacks/intake.ts';
import { METHODS, SOURCES } from './callbacks/remedies.ts';
import { OFFICE_ROLES, start } from './jobs.ts';
import { starts } from './schedule.ts';
import { day, id, idParams, instant, line, prose, route, warnings } from './route.ts';

export * from './callbacks/evidence.ts';
export * from './callbacks/shapes.ts';

const done = z.strictObject({ id, state, version: z.int(), warnings });
const said = prose(4000);
const maybeSaid = z.strictObject({ words: said.optional() });
const DESK = ['owner', 'lead_inspector', 'office_manager'] as const;
const act = { method: 'POST', area: 'callbacks', params: idParams, creates: true, reply: done } as const;

export const callbackRoutes = {
  jobs: route({
    method: 'GET',
    path: '/api/callbacks/jobs',
    area: 'callbacks',
    summary: 'Jobs by number, address, town or name, for the intake',
    who: 'signed_in',
    query: z.strictObject({ q: line(100) }),
    reply: z.array(foundJob),
  }),
  receive: route({
    method: 'POST',
    path: '/api/callbacks',
    area: 'callbacks',
    summary: 'Take in a callback, a question or a near-miss',
    who: 'signed_in',
    creates: true,
    reply: z.strictObject({ id, number: z.int(), warnings }),
    body: z.strictObject({
      id,
      jobId: id,
      partyId: id.optional(),
      newParty: z.strictObject({ id, name: line(120), email: z.email().max(200).nullable(), phone: line(40).nullable() }).optional(),
      speaker,
      kind: kindSchema,
      safety: z.boolean(),
      system: line(60),
      place: line(200),
      remedySought: z.string().trim().max(400),
      words: said,
      discoveredOn: day.optional(),
      servedOn: day.optional(),
      serviceWay: line(100).optional(),
      deadlineOn: day.optional(),
      ownerOnly: z.boolean().optional(),
      ...cameIn,
    }),
  }),
  one: route({
    method: 'GET',
    path: '/api/callbacks/:id',
    area: 'callbacks',
    summary: 'One callback; opinions and money only for owner and lead inspector',
    who: DESK,
    params: idParams,
    reply: callback,
  }),
  evidence: route({
    method: 'GET',
    path: '/api/callbacks/:id/evidence',
    area: 'callbacks',
    summary: 'What was recorded beside what the report said',
    who: JUDGES,
    params: idParams,
    reply: evidence,
  }),
  acknowledge: route({
    ...act,
    path: '/api/callbacks/:id/acknowledge',
    summary: 'Somebody spoke with the one who called',
    who: DESK,
    body: maybeSaid,
  }),
  note: route({
    ...act,
    path: '/api/callbacks/:id/notes',
    summary: 'Add a note to the facts',
    who: DESK,
    body: z.strictObject({ words: said }),
  }),
  become: route({
    ...act,
    path: '/api/callbacks/:id/kind',
    summary: 'A question turns out to be a callback',
    who: DESK,
    body: z.strictObject({ kind: z.enum(['missed', 'damage_or_injury', 'conduct', 'fee']), words: said }),
  }),
  conclude: route({
    ...act,
    path: '/api/callbacks/:id/conclusion',
    summary: 'Conclude what it is traced to',
    who: JUDGES,
    body: z.strictObject({
      conclusionId: id,
      cause: oneOf(CAUSES),
      stepKey: line(100).optional(),
      entryId: id.optional(),
      errorKind: oneOf(ERROR_KINDS).optional(),
      circumstances: z.array(oneOf(CIRCUMSTANCES)).max(7).optional(),
      words: said.optional(),
    }),
  }),
  reserve: route({
    ...act,
    path: '/api/callbacks/:id/reserve',
    summary: 'Set money aside, raise, lower or release it',
    who: JUDGES,
    body: z.strictObject({ cents: amount, words: said }),
  }),
  clear: route({
    ...act,
    path: '/api/callbacks/:id/clearance',
    summary: "Record the insurer's consent, or the owner's reason why none is needed",
    who: JUDGES,
    body: z.strictObject({ kind: oneOf(CLEARANCES), words: said }),
  }),
  recover: route({
    ...act,
    path: '/api/callbacks/:id/recoveries',
    summary: 'Record money that came back',
    who: JUDGES,
    body: z.strictObject({
      cents: amount.min(1),
      receivedOn: day,
      words: said,
      source: oneOf(SOURCES).default('other'),
      /** The insurer paid the other side itself: none of the firm's money. */
      direct: z.boolean().default(false),
    }),
  }),
  propose: route({
    ...act,
    path: '/api/callbacks/:id/remedies',
    summary: 'Propose a remedy',
    who: DESK,
    body: z.strictObject({
      remedyId: id,
      kind: z.enum(Object.keys(REMEDIES) as [keyof typeof REMEDIES, ...(keyof typeof REMEDIES)[]]),
      cents: amount,
      payee: z.string().trim().max(160),
      words: said.optional(),
      /** Why an owner goes on with a repair by the firm itself. */
      reason: said.optional(),
      /** Why owner or lead inspector go on although something speaks against it. */
      goOn: said.optional(),
      /** The estimate by which a contractor is paid; `words` then say why this one. */
      estimateId: id.optional(),
      /** Nothing is paid before the settlement release is signed. */
      waitsForRelease: z.boolean().optional(),
    }),
  }),
  decide: route({
    ...act,
    path: '/api/remedies/:id/decision',
    summary: 'Approve or refuse a remedy',
    who: DESK,
    body: z.strictObject({
      decision: z.enum(['approved', 'refused']),
      words: said.optional(),
      goOn: said.optional(),
      /** Somebody outside the firm who decided, in a firm with one lead inspector; `words` are theirs. */
      reviewer: line(120).optional(),
    }),
  }),
  pay: route({
    ...act,
    path: '/api/remedies/:id/payment',
    summary: 'Pay an approved and cleared remedy',
    who: JUDGES,
    body: z.strictObject({
      paidOn: day,
      method: oneOf(METHODS).optional(),
      reference: z.string().trim().max(80).optional(),
      /** Against which invoice a fee goes back, where several were paid. */
      invoiceId: id.optional(),
    }),
  }),
  finish: route({
    ...act,
    path: '/api/remedies/:id/done',
    summary: 'An approved remedy without payment was carried out',
    who: DESK,
    body: maybeSaid,
  }),
  visitStarts: route({
    method: 'GET',
    path: '/api/remedies/:id/starts',
    area: 'callbacks',
    summary: 'When a pair can come again: never the original pair alone',
    who: OFFICE_ROLES,
    params: idParams,
    query: z.strictObject({ fromDay: day }),
    reply: z.strictObject({ starts, originalPair: z.array(z.string()) }),
  }),
  bookVisit: route({
    method: 'POST',
    path: '/api/remedies/:id/visit',
    area: 'callbacks',
    summary: 'Book the visit of an approved re-visit',
    who: OFFICE_ROLES,
    params: idParams,
    creates: true,
    body: z.strictObject({ jobId: id, start }),
    reply: z.strictObject({ id, jobId: id, number: z.int(), startsAt: instant, warnings }),
  }),
  close: route({
    ...act,
    path: '/api/callbacks/:id/close',
    summary: 'Close: nothing set aside, no remedy open',
    who: DESK,
    body: maybeSaid,
  }),
  reopen: route({
    ...act,
    path: '/api/callbacks/:id/reopen',
    summary: 'Open again, with the reason',
    who: DESK,
    body: z.strictObject({ words: said }),
  }),
};

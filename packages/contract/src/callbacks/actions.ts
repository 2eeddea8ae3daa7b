// Corrective actions: what is changed after a callback, by whom and until when.
import { z } from 'zod';
import { ACTION_KINDS } from '@backsight/domain/callbacks/words';
import { day, id, idParams, instant, line, prose, route } from '../route.ts';
import { JUDGES, oneOf } from './shapes.ts';

export const action = z.strictObject({
  id,
  number: z.int(),
  kind: oneOf(ACTION_KINDS),
  state: z.enum(['open', 'done', 'dropped']),
  title: z.string(),
  why: z.string(),
  ownerId: id,
  owner: z.string(),
  dueOn: day,
  revisionId: id.nullable(),
  revisionNumber: z.int().nullable(),
  revisionState: z.string().nullable(),
  procedureId: id.nullable(),
  procedureTitle: z.string().nullable(),
  inForceFrom: instant.nullable(),
  recordedAt: instant,
  doneAt: instant.nullable(),
  version: z.int(),
  /** From when the change counts; null while nothing has changed. */
  changedAt: instant.nullable(),
  reopenedAt: instant.nullable(),
  reviewOn: day.nullable(),
  reviewerId: id.nullable(),
  reviewer: z.string().nullable(),
  callbacks: z.array(z.strictObject({ id, number: z.int(), stepKey: z.string().nullable() })),
});
export type CorrectiveAction = z.output<typeof action>;
/** Words that may be left out. */
export const said = (max: number) =>
  z
    .string()
    .trim()
    .max(max)
    .regex(/^[^\u0000]*$/, 'There is a character in it that cannot be kept: type it anew.')
    .default('');
const acted = z.strictObject({ id });

export const actionRoutes = {
  list: route({
    method: 'GET',
    path: '/api/corrective-actions',
    area: 'callbacks',
    summary: 'Corrective actions, open ones first; or those that a revision comes from',
    who: JUDGES,
    query: z.strictObject({ revision: id.optional() }),
    reply: z.array(action),
  }),
  create: route({
    method: 'POST',
    path: '/api/corrective-actions',
    area: 'callbacks',
    summary: 'Decide what is changed because of callbacks',
    who: JUDGES,
    creates: true,
    reply: z.strictObject({ id, number: z.int() }),
    body: z.strictObject({
      id,
      kind: oneOf(ACTION_KINDS),
      title: line(160),
      why: prose(2000),
      ownerId: id,
      /** Null only for the kind "none". */
      dueOn: day.nullable(),
      reviewOn: day.nullable().default(null),
      reviewerId: id.nullable().default(null),
      callbackIds: z.array(id).min(1).max(100),
    }),
  }),
  link: route({
    method: 'POST',
    path: '/api/corrective-actions/:id/revision',
    area: 'callbacks',
    summary: 'Say which revision the action brings',
    who: JUDGES,
    params: idParams,
    creates: true,
    reply: acted,
    body: z.strictObject({ revisionId: id }),
  }),
  draft: route({
    method: 'POST',
    path: '/api/corrective-actions/:id/draft',
    area: 'callbacks',
    summary: 'Begin the draft of the revision that the action brings',
    who: JUDGES,
    params: idParams,
    creates: true,
    reply: z.strictObject({ id, revisionId: id, number: z.int() }),
    body: z.strictObject({ revisionId: id, procedureId: id, reason: prose(600) }),
  }),
  finish: route({
    method: 'POST',
    path: '/api/corrective-actions/:id/end',
    area: 'callbacks',
    summary: 'Done, with what was done, or dropped; also by whoever sees to it',
    who: 'signed_in',
    of: 'asked',
    params: idParams,
    creates: true,
    reply: acted,
    body: z.strictObject({
      outcome: z.enum(['done', 'dropped']),
      what: said(2000),
      doneOn: day.nullable().default(null),
      attendees: z.array(id).max(100).default([]),
      kit: said(300),
    }),
  }),
};

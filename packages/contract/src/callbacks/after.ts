// Letters about a callback, the assessment, and what follows a closing: the check, the appeal, the client's answer.
import { z } from 'zod';
import { ANSWERS, APPEAL_RESULTS, CHECK_OUTCOMES, SEVERITIES } from '@backsight/domain/callbacks/after';
import { LETTERS } from '@backsight/domain/callbacks/letters';
import { day, id, idParams, instant, prose, route, warnings } from '../route.ts';
import { oneOf, state } from './shapes.ts';

export { ANSWERS, APPEAL_RESULTS, CHECK_OUTCOMES, SEVERITIES } from '@backsight/domain/callbacks/after';
export { LETTERS, LINK_PLACE, mayWriteLetter } from '@backsight/domain/callbacks/letters';

const DESK = ['owner', 'lead_inspector', 'office_manager'] as const;
const done = z.strictObject({ id, state, version: z.int(), warnings });
const act = { method: 'POST', area: 'callbacks', params: idParams, creates: true, reply: done } as const;
const said = prose(4000);
const letter = oneOf(LETTERS);
const letterParams = z.strictObject({ id, letter });
const way = z.enum(['mail', 'paper']);
/** As it was edited; its words leave as they stand. */
const edited = z.strictObject({ way, subject: z.string().trim().min(1).max(200), body: prose(8000) });

const keptLetter = z.strictObject({
  id,
  letter: z.string(),
  way,
  to: z.string(),
  subject: z.string(),
  body: z.string().nullable(),
  at: instant,
  by: z.string().nullable(),
  mailState: z.string().nullable(),
  mailError: z.string().nullable(),
});
export type KeptLetter = z.output<typeof keptLetter>;

const draft = z.strictObject({
  way,
  to: z.string(),
  email: z.string().nullable(),
  calendar: z.boolean(),
  subject: z.string(),
  body: z.string(),
  /** Who reviewed the wording, and when: what stands between its fields is then locked. */
  review: z.strictObject({ attorney: z.string(), on: day }).nullable(),
});
export type LetterDraft = z.output<typeof draft>;

const after = z.strictObject({
  version: z.int(),
  assessment: z
    .strictObject({ severity: oneOf(SEVERITIES), atOnce: z.boolean(), assigneeId: id, assignee: z.string(), by: z.string(), at: instant })
    .nullable(),
  people: z.array(z.strictObject({ id, name: z.string() })),
  checks: z.array(
    z.strictObject({
      id,
      dueOn: day,
      person: z.string(),
      outcome: z.enum([...(Object.keys(CHECK_OUTCOMES) as (keyof typeof CHECK_OUTCOMES)[]), 'reopened']).nullable(),
      words: z.string().nullable(),
      repeatNumber: z.int().nullable(),
      doneAt: instant.nullable(),
    }),
  ),
  appeals: z.array(
    z.strictObject({
      id,
      way: z.enum(['link', 'office']),
      words: z.string().nullable(),
      dueOn: day,
      receivedAt: instant,
      result: oneOf(APPEAL_RESULTS).nullable(),
      resultWords: z.string().nullable(),
      decidedBy: z.string().nullable(),
      involved: z.boolean().nullable(),
      reviewer: z.string(),
      decidedAt: instant.nullable(),
    }),
  ),
  appealUntil: day.nullable(),
  freeOwners: z.array(z.string()),
  /** For owners only; for others the key does not exist. */
  answer: z
    .strictObject({ answer: oneOf(ANSWERS), words: z.string().nullable(), at: instant })
    .nullable()
    .optional(),
});
export type AfterCallback = z.output<typeof after>;

const days = z.int().min(1).max(365);
const rules = z.strictObject({ checkDays: days, appealDays: days, decideDays: days });

export const afterRoutes = {
  letters: route({
    method: 'GET',
    path: '/api/callbacks/:id/letters',
    area: 'callbacks',
    summary: 'Letters as they left, the newest first, with how far their mail got',
    who: DESK,
    params: idParams,
    reply: z.array(keptLetter),
  }),
  letterPaper: route({
    method: 'GET',
    path: '/api/callbacks/:id/letters/:letterId/paper',
    area: 'callbacks',
    summary: 'A letter on paper (PDF), word for word as it left',
    who: DESK,
    params: z.strictObject({ id, letterId: id }),
    reply: z.unknown(),
  }),
  draft: route({
    method: 'GET',
    path: '/api/callbacks/:id/letter-drafts/:letter',
    area: 'callbacks',
    summary: 'A letter drafted from the file of the callback; opinions are never in it',
    who: DESK,
    params: letterParams,
    query: z.strictObject({ way: way.optional(), names: z.enum(['yes', 'no']).default('no') }),
    reply: draft,
  }),
  look: route({
    method: 'POST',
    path: '/api/callbacks/:id/letter-drafts/:letter/look',
    area: 'callbacks',
    summary: 'How an edited letter reads, what it names of opinions, and why it may not leave yet',
    who: DESK,
    params: letterParams,
    body: edited,
    reply: z.strictObject({ grade: z.number(), names: z.array(z.string()), problem: z.string().nullable() }),
  }),
  write: route({
    ...act,
    path: '/api/callbacks/:id/letters/:letter',
    summary: 'Send a letter by mail, or write it for paper, as it was edited',
    who: DESK,
    params: letterParams,
    body: edited,
  }),
  assess: route({
    ...act,
    path: '/api/callbacks/:id/look-into',
    summary: 'Assess it: how grave, whether something is needed at once, who looks into it',
    who: DESK,
    body: z.strictObject({ severity: oneOf(SEVERITIES), atOnce: z.boolean(), assigneeId: id, words: said.optional() }),
  }),
  after: route({
    method: 'GET',
    path: '/api/callbacks/:id/after',
    area: 'callbacks',
    summary: 'Assessment, checks after closing, appeals; what the client says of it for owners only',
    who: DESK,
    params: idParams,
    reply: after,
  }),
  check: route({
    ...act,
    path: '/api/callbacks/:id/checks',
    summary: 'What came of asking whether it held',
    who: DESK,
    body: z.strictObject({
      outcome: oneOf(CHECK_OUTCOMES),
      words: said.optional(),
      againOn: day.optional(),
      repeatNumber: z.int().min(1).max(2_000_000_000).optional(),
    }),
  }),
  appeal: route({
    ...act,
    path: '/api/callbacks/:id/appeals',
    summary: 'Take an appeal in for the complainant',
    who: DESK,
    body: z.strictObject({ words: said }),
  }),
  decideAppeal: route({
    ...act,
    path: '/api/callbacks/:id/appeals/decision',
    summary: 'Decide the appeal: by an owner who neither concluded nor was on the job, where there is one',
    who: ['owner'],
    body: z.strictObject({ result: oneOf(APPEAL_RESULTS), words: said, reviewer: z.string().trim().max(200).default('') }),
  }),
  rules: route({
    method: 'GET',
    path: '/api/after-rules',
    area: 'callbacks',
    summary: 'Days that follow a decision and a closing',
    who: DESK,
    reply: rules.extend({ version: z.int() }),
  }),
  setRules: route({
    method: 'PUT',
    path: '/api/after-rules',
    area: 'callbacks',
    summary: 'Change the days that follow a decision and a closing',
    who: ['owner'],
    edits: true,
    body: rules,
    reply: z.strictObject({ version: z.int() }),
  }),
  answers: route({
    method: 'GET',
    path: '/api/callback-answers',
    area: 'callbacks',
    summary: 'What clients say of how callbacks were handled, counted by month of closing; it names nobody',
    who: ['owner'],
    reply: z.array(z.strictObject({ month: z.string(), answer: z.string(), count: z.int() })),
  }),
};

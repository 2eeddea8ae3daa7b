// Agreement texts: drafts, comparison, approval, an attorney's review, and how a text reads for a job.
import { z } from 'zod';
import { clausesSchema, limitsSchema } from '@backsight/domain/agreements/stored';
import {
  CLAUSE_CLIENTS,
  TEXT_KINDS,
  type Clause,
  type ClauseClient,
  type TextKind,
  type TextLimits,
} from '@backsight/domain/agreements/text';
import type { Applicability } from '@backsight/domain/shared/applicability';
import { day, id, idParams, instant, line, made, prose, route, warnings } from './route.ts';

export { CLAUSE_CLIENTS, TEXT_KINDS };
export type { Clause, TextLimits };

const area = 'agreements';
const EDITORS = ['owner', 'office_manager', 'lead_inspector'] as const;
const ONE = '/api/agreement-texts/:id';

const kind = z.enum(Object.keys(TEXT_KINDS) as [TextKind, ...TextKind[]]);
export type PaperWords = string | readonly { text: string; bold?: boolean; italic?: boolean }[];
/** A piece of a paper: heading, text, list or table; it comes from Markdown and holds no HTML. */
export type PaperBlock = {
  kind: string;
  level?: number;
  words?: PaperWords;
  from?: number | null;
  items?: readonly (readonly PaperBlock[])[];
  heads?: readonly string[];
  rows?: readonly (readonly PaperWords[])[];
};
const block = z
  .custom<PaperBlock>((value) => typeof value === 'object' && value !== null && 'kind' in value)
  .meta({ type: 'object', description: 'A piece of a paper: heading, text, list or table.' });

/** A clause as it is kept; it was checked when it came in. */
const clauseShown = z.strictObject({
  key: z.string(),
  title: z.string(),
  body: z.string(),
  applies: z
    .custom<Applicability>((value) => typeof value === 'object' && value !== null)
    .meta({ type: 'object', description: 'An applies-when rule, as it is kept.' }),
  client: z.enum(Object.keys(CLAUSE_CLIENTS) as [ClauseClient, ...ClauseClient[]]),
  when: z.string(),
  blocks: z.array(block),
});

const broken = z.strictObject({ rowKey: z.string(), jurisdiction: z.string(), state: z.string(), sentence: z.string() });
export type RuleBreakShown = z.output<typeof broken>;

const textLine = z.strictObject({
  id,
  number: z.int(),
  kind,
  state: z.enum(['draft', 'approved', 'withdrawn']),
  title: z.string(),
  reason: z.string(),
  basedOnId: id.nullable(),
  authorId: id.nullable(),
  author: z.string().nullable(),
  approver: z.string().nullable(),
  approvedAt: instant.nullable(),
  inForceFrom: instant.nullable(),
  inForce: z.boolean(),
  withdrawnAt: instant.nullable(),
  attorney: z.string().nullable(),
  attorneyOn: day.nullable(),
  locked: z.array(z.string()),
  limits: z.string(),
  clauseCount: z.int(),
  version: z.int(),
  recordedAt: instant,
});
export type TextLine = z.output<typeof textLine>;

const textPage = textLine.extend({
  consentText: z.string(),
  limitsSet: limitsSchema,
  /** Keys of clauses that may not be reworded without a new review; and which of them this draft says otherwise, by name. */
  lockedHere: z.array(z.string()),
  lockedChanged: z.array(z.string()),
  clauses: z.array(clauseShown),
  breaks: z.array(broken),
  setAside: z.array(
    z.strictObject({
      id,
      rowKey: z.string(),
      jurisdiction: z.string(),
      sentence: z.string(),
      reason: z.string(),
      by: z.string(),
      happenedAt: instant,
    }),
  ),
  serviceNames: z.record(z.string(), z.string()),
  fields: z.array(z.strictObject({ name: z.string(), about: z.string() })),
});
export type TextPage = z.output<typeof textPage>;

const mark = z.strictObject({ mark: z.enum(['same', 'added', 'removed']), text: z.string() });
export type WordMark = z.output<typeof mark>;
const side = z.strictObject({ title: z.string(), body: z.string(), when: z.string() }).nullable();
const which = z.strictObject({ id, number: z.int(), title: z.string() });
const comparison = z.strictObject({
  before: which,
  after: which,
  sentences: z.array(z.string()),
  consentMarks: z.array(mark),
  clauses: z.array(
    z.strictObject({
      key: z.string(),
      kind: z.enum(['added', 'removed', 'changed']),
      sentences: z.array(z.string()),
      before: side,
      after: side,
      marks: z.array(mark),
    }),
  ),
});
export type TextComparison = z.output<typeof comparison>;

const content = { title: line(160), consentText: prose(10_000), clauses: clausesSchema, limits: limitsSchema };
const preview = z.strictObject({
  job: z.strictObject({ number: z.int(), address: z.string() }),
  blocks: z.array(block),
  clauses: z.array(z.strictObject({ key: z.string(), title: z.string(), applies: z.enum(['yes', 'no', 'unknown']) })),
  breaks: z.array(broken),
  warnings,
  notReviewed: z.string(),
});
export type TextPreview = z.output<typeof preview>;
const review = { attorney: line(160), on: day };
const version = z.int().min(1).max(1_000_000);
const changed = z.strictObject({ id, version: z.int() });

export const agreementTextsRoutes = {
  texts: route({
    method: 'GET',
    path: '/api/agreement-texts',
    area,
    summary: 'Agreement texts, newest first',
    who: EDITORS,
    reply: z.array(textLine),
  }),
  text: route({ method: 'GET', path: ONE, area, summary: 'One agreement text in full', who: EDITORS, params: idParams, reply: textPage }),
  compare: route({
    method: 'GET',
    path: `${ONE}/comparison`,
    area,
    summary: 'What is different in a text against another',
    who: EDITORS,
    params: idParams,
    query: z.strictObject({ with: id }),
    reply: comparison,
  }),
  preview: route({
    method: 'POST',
    path: '/api/agreement-texts/preview',
    area,
    summary: 'How a text would read for a job; nothing is kept',
    who: EDITORS,
    body: z.strictObject({ ...content, jobNumber: z.int().min(1).max(2_000_000_000) }),
    reply: preview,
  }),
  draft: route({
    method: 'POST',
    path: '/api/agreement-texts',
    area,
    summary: 'Begin a draft as a copy of a text',
    who: EDITORS,
    creates: true,
    body: z.strictObject({ id, copyOf: id, reason: prose(600) }),
    reply: changed,
  }),
  change: route({
    method: 'PUT',
    path: ONE,
    area,
    summary: 'Change a draft as a whole',
    who: EDITORS,
    edits: true,
    params: idParams,
    body: z.strictObject({ ...content, reason: prose(600) }),
    reply: changed,
  }),
  discard: route({
    method: 'DELETE',
    path: ONE,
    area,
    summary: 'Discard a draft of a text',
    who: EDITORS,
    edits: true,
    params: idParams,
    reply: made,
  }),
  approve: route({
    method: 'POST',
    path: `${ONE}/approval`,
    area,
    summary: 'Approve a text that somebody else wrote',
    who: EDITORS,
    creates: true,
    params: idParams,
    body: z.strictObject({
      version,
      inForceFrom: instant.nullable(),
      reason: prose(1000).nullable(),
      /** The attorney who reviewed it; needed where a locked clause reads otherwise. */
      review: z.strictObject(review).nullable().default(null),
    }),
    reply: z.strictObject({ id, inForceFrom: instant }),
  }),
  withdraw: route({
    method: 'POST',
    path: `${ONE}/withdrawal`,
    area,
    summary: 'Take a text out of use',
    who: ['owner'],
    creates: true,
    params: idParams,
    body: z.strictObject({}),
    reply: made,
  }),
  review: route({
    method: 'POST',
    path: `${ONE}/attorney`,
    area,
    summary: 'Record that an attorney reviewed a text',
    who: ['owner'],
    creates: true,
    params: idParams,
    body: z.strictObject({ ...review, locked: z.array(z.string().max(60)).max(200).default([]) }),
    reply: made,
  }),
};

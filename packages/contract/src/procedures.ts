// The procedure book: procedures, revisions, comparison, approval, acknowledgement.
import { z } from 'zod';
import { questionsSchema, stepsSchema } from '@backsight/domain/procedures/stored';
import type { Step } from '@backsight/domain/procedures/step';
import { id, idParams, instant, line, made, prose, route } from './route.ts';

const EDITORS = ['owner', 'lead_inspector'] as const;
const reason = prose(600);
/** A step as it is stored; it was checked when it came in. */
const step = z
  .custom<Step>((value) => typeof value === 'object' && value !== null)
  .meta({ type: 'object', description: 'A step of a procedure, as it is stored.' });

export const revisionLine = z.strictObject({
  id,
  procedureId: id,
  number: z.int(),
  state: z.enum(['draft', 'approved', 'withdrawn']),
  reason: z.string(),
  basedOnId: id.nullable(),
  authorId: id,
  author: z.string(),
  approver: z.string().nullable(),
  approvedAt: instant.nullable(),
  inForceFrom: instant.nullable(),
  inForceUntil: instant.nullable(),
  acknowledgeBy: instant.nullable(),
  asks: z.boolean(),
  retires: z.boolean(),
  graceReason: z.string().nullable(),
  version: z.int(),
  recordedAt: instant,
  stepCount: z.int(),
});
export type RevisionLine = z.output<typeof revisionLine>;

const procedure = z.strictObject({ id, key: z.string(), title: z.string(), system: z.string() });
export const bookLine = procedure.extend({
  inForce: revisionLine.nullable(),
  draft: revisionLine.nullable(),
  toCome: z.array(revisionLine),
  missing: z.int(),
});
export type BookLine = z.output<typeof bookLine>;
const procedurePage = procedure.extend({ inForceId: id.nullable(), revisions: z.array(revisionLine) });

export const stepInWords = z.strictObject({
  step,
  applies: z.string(),
  evidence: z.string(),
  per: z.string(),
  who: z.string(),
  basis: z.string(),
  style: z.string(),
  order: z.string(),
  references: z.array(z.string()),
});
export type StepInWords = z.output<typeof stepInWords>;
const names = z.record(z.string(), z.string());
export const revisionPage = revisionLine.extend({
  procedure,
  inForce: z.boolean(),
  newestId: id.nullable(),
  steps: z.array(stepInWords),
  problems: z.array(z.string()),
  serviceNames: names,
  kitNames: names,
  qualificationNames: names,
  /** With the right answers: for those who draft and approve, else null. */
  questions: questionsSchema.nullable(),
  stepTitles: names,
});
export type RevisionPage = z.output<typeof revisionPage>;

const mark = z.strictObject({ mark: z.enum(['same', 'added', 'removed']), text: z.string() });
const difference = z.strictObject({
  key: z.string(),
  title: z.string(),
  kind: z.enum(['added', 'removed', 'kept']),
  moved: z.boolean(),
  sentences: z.array(z.string()),
  reworded: z.array(
    z.strictObject({ field: z.enum(['title', 'instruction', 'why', 'caution']), sentence: z.string(), marks: z.array(mark) }),
  ),
  before: stepInWords.nullable(),
  after: stepInWords.nullable(),
});
export type Difference = z.output<typeof difference>;
/** A question as it is put on the phone. */
const openQuestion = z.strictObject({
  key: z.string(),
  stepKey: z.string(),
  text: z.string(),
  options: z.array(z.strictObject({ key: z.string(), label: z.string() })),
});
export type OpenQuestion = z.output<typeof openQuestion>;
export const comparison = z.strictObject({
  revision: revisionLine,
  before: z.strictObject({ id, number: z.int() }).nullable(),
  summary: z.string(),
  differences: z.array(difference),
  questions: z.array(openQuestion),
});
export type ComparisonPage = z.output<typeof comparison>;

const acknowledgements = z.strictObject({
  asked: z.boolean(),
  acknowledgeBy: instant.nullable(),
  /** Wrong answers and rounds: of oneself, and of everybody for owner and lead inspectors; else null. */
  people: z.array(
    z.strictObject({
      personId: id,
      name: z.string(),
      happenedAt: instant.nullable(),
      where: z.string().nullable(),
      wrong: z.int().nullable(),
      rounds: z.int().nullable(),
    }),
  ),
  /** Questions that I have not answered right yet. */
  open: z.array(z.string()),
});
const impact = z.strictObject({
  jobs: z.int(),
  jobsTouched: z.int(),
  minutesPerJob: z.number().nullable(),
  steps: z.array(z.strictObject({ key: z.string(), title: z.string(), jobs: z.int() })),
  inspectors: z.int(),
  /** Inputs of one person on a job, more or fewer than before; null without jobs. */
  inputsPerJob: z.number().nullable(),
  /** Duties of the firm's own standard that nothing would carry out any more. */
  uncovered: z.array(z.string()),
  acknowledgeByIfNow: instant,
});
const coverage = z.strictObject({
  jurisdiction: z.string(),
  state: z.string(),
  standard: z.string(),
  source: z.string(),
  own: z.boolean(),
  uncovered: z.int(),
  standards: z.array(z.strictObject({ jurisdiction: z.string(), state: z.string(), duties: z.int(), uncovered: z.int() })),
  rows: z.array(
    z.strictObject({
      id: z.string(),
      citation: z.string(),
      section: z.string(),
      system: z.string(),
      duty: z.string(),
      status: z.string(),
      requirement: z.string(),
      source: z.string().optional(),
      covered: z.boolean(),
      elsewhere: z.string().nullable(),
      steps: z.array(z.strictObject({ key: z.string(), title: z.string(), procedure: z.string() })),
    }),
  ),
});
export type Coverage = z.output<typeof coverage>;
/** Without a jurisdiction: the one of the firm. */
const ofState = z.strictObject({ jurisdiction: z.string().max(10).optional() });
const toAcknowledge = z.array(
  z.strictObject({ revisionId: id, procedureTitle: z.string(), number: z.int(), inForceFrom: instant, acknowledgeBy: instant }),
);

const area = 'procedures';
const ONE = '/api/revisions/:id';

export const proceduresRoutes = {
  book: route({ method: 'GET', path: '/api/procedures', area, summary: 'The procedure book', who: 'signed_in', reply: z.array(bookLine) }),
  coverage: route({
    method: 'GET',
    path: '/api/procedures/coverage',
    area,
    summary: 'Duties of a published standard and the steps that carry them out',
    who: 'signed_in',
    query: ofState,
    reply: coverage,
  }),
  coveragePaper: route({
    method: 'GET',
    path: '/api/procedures/coverage.pdf',
    area,
    summary: 'The same as a PDF, the duties without a step first',
    who: 'signed_in',
    query: ofState,
    reply: z.unknown(),
  }),
  duties: route({
    method: 'GET',
    path: '/api/procedures/duties',
    area,
    summary: 'Every duty of the published standards on file',
    who: 'signed_in',
    reply: z.array(z.strictObject({ id: z.string(), jurisdiction: z.string(), words: z.string() })),
  }),
  mine: route({
    method: 'GET',
    path: '/api/procedures/mine',
    area,
    summary: 'Revisions that I have not acknowledged',
    who: 'signed_in',
    reply: toAcknowledge,
  }),
  procedure: route({
    method: 'GET',
    path: '/api/procedures/:id',
    area,
    summary: 'A procedure with its revisions',
    who: 'signed_in',
    params: idParams,
    reply: procedurePage,
  }),
  begin: route({
    method: 'POST',
    path: '/api/procedures',
    area,
    summary: 'Begin a new procedure with the draft of its first revision',
    who: EDITORS,
    creates: true,
    body: z.strictObject({
      id,
      key: z
        .string()
        .regex(/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/, 'Lower-case words joined by hyphens.')
        .max(60),
      title: line(80),
      system: z.string().regex(/^[a-z][a-z0-9_]{0,39}$/, 'Lower-case letters, digits and _.'),
      beforeId: id.nullable(),
      revisionId: id,
      reason,
    }),
    reply: z.strictObject({ id, revisionId: id }),
  }),
  draft: route({
    method: 'POST',
    path: '/api/procedures/:id/drafts',
    area,
    summary: 'Draft a revision from the newest one, or one that retires the procedure',
    who: EDITORS,
    creates: true,
    params: idParams,
    body: z.strictObject({ id, reason, retires: z.boolean().default(false) }),
    reply: z.strictObject({ id, number: z.int() }),
  }),
  revision: route({
    method: 'GET',
    path: ONE,
    area,
    summary: 'A revision with its steps',
    who: 'signed_in',
    params: idParams,
    reply: revisionPage,
  }),
  comparison: route({
    method: 'GET',
    path: `${ONE}/comparison`,
    area,
    summary: 'What is different in a revision',
    who: 'signed_in',
    params: idParams,
    reply: comparison,
  }),
  acknowledgements: route({
    method: 'GET',
    path: `${ONE}/acknowledgements`,
    area,
    summary: 'Who has acknowledged a revision',
    who: 'signed_in',
    params: idParams,
    reply: acknowledgements,
  }),
  impact: route({
    method: 'GET',
    path: `${ONE}/impact`,
    area,
    summary: 'What a revision would have meant for the last 365 days',
    who: EDITORS,
    params: idParams,
    reply: impact,
  }),
  change: route({
    method: 'PUT',
    path: ONE,
    area,
    summary: 'Change a draft',
    who: EDITORS,
    edits: true,
    params: idParams,
    body: z.strictObject({ reason, basedOnId: id.nullable(), steps: stepsSchema, questions: questionsSchema.optional() }),
    reply: z.strictObject({ id, version: z.int() }),
  }),
  discard: route({
    method: 'DELETE',
    path: ONE,
    area,
    summary: 'Discard a draft',
    who: EDITORS,
    edits: true,
    params: idParams,
    reply: made,
  }),
  approve: route({
    method: 'POST',
    path: `${ONE}/approval`,
    area,
    summary: 'Approve a draft that somebody else wrote',
    who: EDITORS,
    creates: true,
    params: idParams,
    body: z.strictObject({
      version: z.int().min(1).max(1_000_000),
      inForceFrom: instant.nullable(),
      acknowledgeBy: instant.nullable(),
      graceReason: prose(600).nullable(),
    }),
    reply: z.strictObject({ id, inForceFrom: instant, acknowledgeBy: instant }),
  }),
  withdraw: route({
    method: 'POST',
    path: `${ONE}/withdrawal`,
    area,
    summary: 'Take back a revision that is not in force yet',
    who: EDITORS,
    creates: true,
    params: idParams,
    body: z.strictObject({}),
    reply: made,
  }),
  answer: route({
    method: 'POST',
    path: `${ONE}/answers`,
    area,
    summary: 'Answer the questions of a revision; right and wrong answers are kept',
    who: ['inspector', 'lead_inspector'],
    creates: true,
    params: idParams,
    body: z.strictObject({ answers: z.array(z.strictObject({ question: z.string().max(80), option: z.string().max(80) })).max(10) }),
    reply: z.strictObject({ id, answers: z.array(z.strictObject({ question: z.string(), option: z.string(), correct: z.boolean() })) }),
  }),
  acknowledge: route({
    method: 'POST',
    path: `${ONE}/acknowledgements`,
    area,
    summary: 'Acknowledge a revision for oneself',
    who: ['inspector', 'lead_inspector'],
    creates: true,
    params: idParams,
    body: z.strictObject({ where: z.enum(['ahead', 'at_the_start']), happenedAt: instant.nullable() }),
    reply: z.strictObject({ id, happenedAt: instant }),
  }),
};

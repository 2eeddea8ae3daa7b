// What the procedure book looks like over HTTP: procedures, revisions, steps in words, comparison, coverage.
import { z } from 'zod';
import { questionsSchema } from '@backsight/domain/procedures/stored';
import type { Step } from '@backsight/domain/procedures/step';
import { id, instant } from '../route.ts';

/** A step as it is stored; it was checked when it came in. */
const step = z
  .custom<Step>((value) => typeof value === 'object' && value !== null)
  .meta({ type: 'object', description: 'A step of a procedure, as it is stored.' });

const revisionLine = z.strictObject({
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
export const procedurePage = procedure.extend({ inForceId: id.nullable(), revisions: z.array(revisionLine) });

const stepInWords = z.strictObject({
  step,
  applies: z.string(),
  evidence: z.string(),
  per: z.string(),
  /** '' when the step does not say where it is done. */
  place: z.string(),
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

export const acknowledgements = z.strictObject({
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
export const impact = z.strictObject({
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
export const coverage = z.strictObject({
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
export const ofState = z.strictObject({ jurisdiction: z.string().max(10).optional() });
export const toAcknowledge = z.array(
  z.strictObject({ revisionId: id, procedureTitle: z.string(), number: z.int(), inForceFrom: instant, acknowledgeBy: instant }),
);

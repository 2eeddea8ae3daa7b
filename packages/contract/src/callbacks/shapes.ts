// What a callback, its evidence and its money look like over the API.
import { z } from 'zod';
import { ACTION_KINDS, CLEARANCES, KINDS, REMEDIES, REMEDY_STATES, SPEAKERS, STATES } from '@backsight/domain/callbacks/words';
import { CIRCUMSTANCES, ERROR_KINDS } from '@backsight/domain/callbacks/causes';
import { cents, day, id, instant } from '../route.ts';
export { CIRCUMSTANCES, ERROR_KINDS, GUIDANCE } from '@backsight/domain/callbacks/causes';
export {
  ACTION_KINDS,
  CAUSES,
  CLEARANCES,
  isLegal,
  KINDS,
  MONEY_REMEDIES,
  NAMES_STEP,
  needsConclusion,
  needsVisit,
  paysMoney,
  REMEDIES,
  REMEDY_STATES,
  SPEAKERS,
  STATES,
  STEP_CAUSES,
} from '@backsight/domain/callbacks/words';
export { NO_ADMISSION } from '@backsight/domain/callbacks/intake';

export const oneOf = <T extends Record<string, string>>(list: T) =>
  z.enum(Object.keys(list) as [keyof T & string, ...(keyof T & string)[]]);
export const kindSchema = oneOf(KINDS);
export const whichSchema = z.enum(['open', 'closed', 'all']);
export const state = oneOf(STATES);
export const speaker = oneOf(SPEAKERS);
export const amount = z.int().min(0).max(2_000_000_000);
const clock = z
  .strictObject({
    clock: z.enum(['acknowledge', 'triage', 'answer', 'visit', 'decision']),
    dueAt: instant,
    overdue: z.boolean(),
    dueWithinDay: z.boolean(),
  })
  .nullable();

const lineOf = {
  id,
  number: z.int(),
  jobId: id,
  speaker,
  kind: kindSchema,
  state,
  safety: z.boolean(),
  system: z.string(),
  place: z.string(),
  receivedAt: instant,
  deadlineOn: day.nullable(),
  ownerOnly: z.boolean(),
  clock,
};
export const callbackLine = z.strictObject({
  ...lineOf,
  jobNumber: z.int(),
  address: z.string(),
  town: z.string(),
  party: z.string().nullable(),
});
export type CallbackLine = z.output<typeof callbackLine>;

const approval = z.strictObject({
  decision: z.string(),
  by: z.string(),
  onTheJob: z.boolean(),
  /** Which of the amounts of the remedy was decided on. */
  round: z.int(),
  /** Somebody outside the firm who decided, written down by `by`; empty: `by` decided. */
  reviewer: z.string(),
  words: z.string().nullable().optional(),
  happenedAt: instant,
});
const remedy = z.strictObject({
  id,
  kind: oneOf(REMEDIES),
  state: oneOf(REMEDY_STATES),
  cents,
  payee: z.string(),
  proposer: z.string(),
  recordedAt: instant,
  round: z.int(),
  estimateId: id.nullable(),
  waitsForRelease: z.boolean(),
  approvals: z.array(approval),
  words: z.string().nullable().optional(),
  visit: z.strictObject({ jobId: id, number: z.int(), state: z.string(), startsAt: instant, pair: z.array(z.string()) }).nullable(),
});
const conclusion = z.strictObject({
  id,
  cause: z.string(),
  stepKey: z.string().nullable(),
  stepTitle: z.string().nullable(),
  revisionId: id.nullable(),
  revisionNumber: z.int().nullable(),
  procedureTitle: z.string().nullable(),
  procedureId: id.nullable(),
  entryId: id.nullable(),
  words: z.string().nullable(),
  errorKind: oneOf(ERROR_KINDS).nullable(),
  circumstances: z.array(oneOf(CIRCUMSTANCES)),
  /** Whoever concluded was on the job: nothing is decided on it before it is confirmed. */
  needsConfirmation: z.boolean(),
  confirmedAt: instant.nullable(),
  confirmedBy: z.string().nullable(),
  confirmedWay: z.enum(['person', 'outside']).nullable(),
  confirmedWords: z.string().nullable(),
  by: z.string(),
  happenedAt: instant,
});
export const money = z.strictObject({ paidCents: z.int(), reservedCents: z.int(), recoveredCents: z.int(), incurredCents: z.int() });

/** The optional keys are opinions and money: owner and lead inspector get them, for others they are absent. */
export const callback = z.strictObject({
  ...lineOf,
  partyId: id.nullable(),
  remedySought: z.string(),
  discoveredOn: day.nullable(),
  servedOn: day.nullable(),
  serviceWay: z.string().nullable(),
  binding: z.boolean(),
  version: z.int(),
  /** What the rules of the property's state say about a repair by the firm itself; `bars`: nobody may go on. */
  ownRepair: z.strictObject({ state: z.string(), bars: z.boolean(), words: z.string(), citation: z.string(), certainty: z.string() }),
  words: z.string(),
  party: z.strictObject({ id, name: z.string(), role: z.string(), email: z.string().nullable(), phone: z.string().nullable() }).nullable(),
  job: z.strictObject({
    id,
    number: z.int(),
    address: z.string(),
    town: z.string(),
    inspectedOn: day.nullable(),
    /** `visit`: words of another visit than the inspection. */
    pair: z.array(z.strictObject({ id, name: z.string(), place: z.string(), visit: z.string().nullable() })),
  }),
  events: z.array(
    z.strictObject({
      id,
      seq: z.int(),
      kind: z.string(),
      state,
      words: z.string().nullable(),
      happenedAt: instant,
      actor: z.string().nullable(),
    }),
  ),
  others: z.array(z.strictObject({ id, number: z.int(), kind: z.string(), state: z.string(), receivedAt: instant, jobNumber: z.int() })),
  remedies: z.array(remedy),
  conclusions: z.array(conclusion).optional(),
  clearances: z
    .array(z.strictObject({ id, kind: oneOf(CLEARANCES), words: z.string().nullable(), by: z.string(), happenedAt: instant }))
    .optional(),
  money: money.optional(),
  moneyEntries: z
    .array(
      z.strictObject({
        id,
        kind: z.string(),
        happenedOn: day,
        memo: z.string(),
        by: z.string().nullable(),
        lines: z.array(z.strictObject({ account: z.string(), name: z.string(), cents: z.int() })),
      }),
    )
    .optional(),
  policy: z
    .strictObject({
      insurer: z.string(),
      number: z.string(),
      kind: z.string(),
      endsOn: day,
      deductibleCents: z.int(),
      noticeAddress: z.string(),
    })
    .nullable()
    .optional(),
  policyWarnings: z.array(z.string()).optional(),
  actions: z
    .array(
      z.strictObject({
        id,
        number: z.int(),
        kind: oneOf(ACTION_KINDS),
        state: z.string(),
        title: z.string(),
        dueOn: day,
        revisionId: id.nullable(),
        revisionNumber: z.int().nullable(),
        revisionState: z.string().nullable(),
        procedureId: id.nullable(),
      }),
    )
    .optional(),
});
export type Callback = z.output<typeof callback>;

export const foundJob = z.strictObject({
  id,
  number: z.int(),
  kind: z.string(),
  address: z.string(),
  town: z.string(),
  inspectedOn: day.nullable(),
  pair: z.array(z.string()),
  parties: z.array(z.strictObject({ id, name: z.string(), role: z.string(), signed: z.boolean(), hasEmail: z.boolean() })),
});
export type FoundJob = z.output<typeof foundJob>;

export const JUDGES = ['owner', 'lead_inspector'] as const;

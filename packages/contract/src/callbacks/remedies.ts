// Putting a callback right: estimates, conflicts, offers and releases, the insurer, the court, and what a visit saw.
import { z } from 'zod';
import { CONFLICTS } from '@backsight/domain/callbacks/conflicts';
import { SOURCES } from '@backsight/domain/callbacks/money';
import { COURT_ENDS, MADE_TO_SETTLE, OFFER_ENDS } from '@backsight/domain/callbacks/settlement';
import { REMEDIES } from '@backsight/domain/callbacks/words';
import { METHODS } from '@backsight/domain/fees/invoice';
import { cents, day, id, idParams, instant, line, prose, route, warnings } from '../route.ts';
import { amount, JUDGES, oneOf, state } from './shapes.ts';

export { CONFLICTS, COURT_ENDS, MADE_TO_SETTLE, METHODS, OFFER_ENDS, SOURCES };

const done = z.strictObject({ id, state, version: z.int(), warnings });
const said = prose(4000);
const DESK = ['owner', 'lead_inspector', 'office_manager'] as const;
const act = { method: 'POST', area: 'callbacks', params: idParams, creates: true, reply: done } as const;
/** Bytes of a file in base64, at most. */
const UPLOAD = 11 * 1024 * 1024;
const file = z.strictObject({
  name: line(120),
  base64: z
    .string()
    .max(UPLOAD)
    .regex(/^[A-Za-z0-9+/]+={0,2}$/, 'Choose the file once more: it did not arrive whole.'),
});

const estimate = z.strictObject({
  id,
  contractor: z.string(),
  license: z.string(),
  cents,
  scope: z.string(),
  estimatedOn: day,
  file: z.string().nullable(),
  by: z.string(),
});
export type Estimate = z.output<typeof estimate>;
const conflict = z.strictObject({ code: oneOf(CONFLICTS), text: z.string(), needsReason: z.boolean() });
export type Conflict = z.output<typeof conflict>;
const offer = z.strictObject({
  id,
  remedyId: id,
  cents,
  validUntil: day,
  state: z.enum(['open', 'expired', 'accepted', 'declined', 'withdrawn']),
  by: z.string(),
  recordedAt: instant,
  words: z.string().nullable(),
});
const release = z.strictObject({
  remedyId: id,
  state: z.enum(['open', 'signed']),
  agreementId: id,
  title: z.string(),
  reviewed: z.boolean(),
  issuedAt: instant,
  sha256: z.string().nullable(),
  signers: z.array(
    z.strictObject({ id, name: z.string(), signedAt: instant.nullable(), answer: z.string().nullable(), linkOpen: z.boolean() }),
  ),
});
const courtCase = z.strictObject({
  id,
  court: z.string(),
  reference: z.string(),
  filedOn: day,
  answerDueOn: day.nullable(),
  claimedCents: z.int(),
  by: z.string(),
  outcome: z
    .strictObject({ kind: oneOf(COURT_ENDS), decidedOn: day, owedCents: z.int(), costsCents: z.int(), words: z.string().nullable() })
    .nullable(),
  paidOwedCents: z.int(),
  paidCostsCents: z.int(),
});
export type CourtCase = z.output<typeof courtCase>;

/** What only owner and lead inspector see; for others these keys do not exist. */
const confidential = {
  goneOnWith: z
    .array(z.strictObject({ remedyId: id, code: oneOf(CONFLICTS), sentence: z.string(), reason: z.string(), by: z.string(), at: instant }))
    .optional(),
  offers: z.array(offer).optional(),
  releases: z.array(release).optional(),
  /** Whether a text of a settlement release is in force, and reviewed by an attorney. */
  releaseText: z.strictObject({ title: z.string(), reviewed: z.boolean() }).nullable().optional(),
  notices: z
    .array(
      z.strictObject({
        id,
        policy: z.string().nullable(),
        notifiedOn: day,
        way: z.string(),
        reference: z.string(),
        words: z.string().nullable(),
        by: z.string(),
      }),
    )
    .optional(),
  cases: z.array(courtCase).optional(),
  recoveries: z
    .array(z.strictObject({ id, source: oneOf(SOURCES), direct: z.boolean(), cents, receivedOn: day, entryId: id.nullable() }))
    .optional(),
  /** Entries that were taken back, and those that can be. */
  reversible: z.array(id).optional(),
  cover: z
    .strictObject({
      policyId: id,
      deductibleCents: z.int(),
      limitCents: z.int(),
      usedCents: z.int(),
      beyondCents: z.int(),
      toComeCents: z.int(),
      directCents: z.int(),
      aggregateLeftCents: z.int().nullable(),
    })
    .nullable()
    .optional(),
  policies: z.array(z.strictObject({ id, name: z.string() })).optional(),
  paidInvoices: z.array(z.strictObject({ id, number: z.int(), payer: z.string(), leftCents: z.int() })).optional(),
};
const puttingRight = z.strictObject({ estimates: z.array(estimate), ...confidential });
export type PuttingRight = z.output<typeof puttingRight>;

const looked = z.strictObject({
  remedyId: id,
  jobId: id,
  jobNumber: z.int(),
  startsAt: instant,
  pair: z.array(z.string()),
  recordId: id.nullable(),
  sealedAt: instant.nullable(),
  /** Each step of the visit beside what was recorded at it at the inspection. */
  steps: z.array(
    z.strictObject({
      stepKey: z.string(),
      title: z.string(),
      item: z.string().nullable(),
      then: z.array(z.string()),
      now: z.array(z.string()),
    }),
  ),
  acts: z.array(z.string()),
});
export type LookedAgain = z.output<typeof looked>;

export const remedyRoutes = {
  puttingRight: route({
    method: 'GET',
    path: '/api/callbacks/:id/putting-right',
    area: 'callbacks',
    summary: 'Estimates; and for owner and lead inspector offers, releases, the insurer, the court and what came back',
    who: DESK,
    params: idParams,
    reply: puttingRight,
  }),
  conflicts: route({
    method: 'GET',
    path: '/api/callbacks/:id/conflicts',
    area: 'callbacks',
    summary: 'What speaks against a remedy of such an amount, with what was agreed before',
    who: DESK,
    params: idParams,
    query: z.strictObject({ kind: oneOf(REMEDIES), cents: z.coerce.number().int().min(0).max(2_000_000_000) }),
    reply: z.strictObject({ committedCents: z.int(), conflicts: z.array(conflict) }),
  }),
  visits: route({
    method: 'GET',
    path: '/api/callbacks/:id/visits',
    area: 'callbacks',
    summary: 'What the visits of a callback recorded, beside the inspection',
    who: JUDGES,
    params: idParams,
    reply: z.array(looked),
  }),
  addEstimate: route({
    ...act,
    path: '/api/callbacks/:id/estimates',
    bodyLimit: UPLOAD + 16_384,
    summary: 'Record what a contractor would take, with the file',
    who: DESK,
    body: z.strictObject({
      estimateId: id,
      contractor: line(160),
      license: z.string().trim().max(60),
      cents: amount,
      scope: prose(2000),
      estimatedOn: day,
      file: file.nullable(),
    }),
  }),
  estimateFile: route({
    method: 'GET',
    path: '/api/estimates/:id/file',
    area: 'callbacks',
    summary: 'The file of an estimate',
    who: DESK,
    params: idParams,
    reply: z.unknown(),
  }),
  amend: route({
    ...act,
    path: '/api/remedies/:id/amount',
    summary: 'Another amount or payee: it is decided anew',
    who: DESK,
    body: z.strictObject({ cents: amount, payee: line(160), words: said, goOn: said.optional() }),
  }),
  offer: route({
    ...act,
    path: '/api/remedies/:id/offers',
    summary: 'Offer an approved and cleared remedy by mail, until a day',
    who: JUDGES,
    body: z.strictObject({ offerId: id, validUntil: day, words: said }),
  }),
  endOffer: route({
    ...act,
    path: '/api/offers/:id/end',
    summary: 'An offer was accepted, declined or is withdrawn',
    who: JUDGES,
    body: z.strictObject({ end: oneOf(OFFER_ENDS), words: said.optional() }),
  }),
  release: route({
    ...act,
    path: '/api/remedies/:id/release',
    summary: 'Write the settlement release and send the private links; the payment waits for it',
    who: JUDGES,
    body: z.strictObject({}),
  }),
  notify: route({
    ...act,
    path: '/api/callbacks/:id/insurer-notices',
    summary: 'Record what the insurer was told, when and how',
    who: JUDGES,
    body: z.strictObject({ noticeId: id, notifiedOn: day, way: line(100), reference: z.string().trim().max(100), words: said }),
  }),
  namePolicy: route({
    ...act,
    path: '/api/callbacks/:id/policy',
    summary: 'The callback falls under another policy, with the reason',
    who: ['owner'],
    body: z.strictObject({ policyId: id.nullable(), words: said }),
  }),
  openCase: route({
    ...act,
    path: '/api/callbacks/:id/cases',
    summary: 'The claim went to court',
    who: JUDGES,
    body: z.strictObject({
      caseId: id,
      court: line(160),
      reference: line(80),
      filedOn: day,
      answerDueOn: day.nullable(),
      claimedCents: amount,
    }),
  }),
  endCase: route({
    ...act,
    path: '/api/cases/:id/outcome',
    summary: 'How a court case ended: what is owed, and the costs',
    who: JUDGES,
    body: z.strictObject({
      outcomeId: id,
      kind: oneOf(COURT_ENDS),
      decidedOn: day,
      owedCents: amount,
      costsCents: amount,
      words: said.optional(),
    }),
  }),
  payCase: route({
    ...act,
    path: '/api/cases/:id/payments',
    summary: 'Pay of what a court decided, or of its costs',
    who: JUDGES,
    body: z.strictObject({ what: z.enum(['owed', 'costs']), cents: amount.min(1), paidOn: day }),
  }),
  reverse: route({
    ...act,
    path: '/api/callback-entries/:id/reversal',
    summary: 'Take a mistaken payment or recovery back by a linked entry; the remedy is to be paid again',
    who: JUDGES,
    body: z.strictObject({ words: said }),
  }),
};

// Callbacks: taking in, looking into, concluding, putting right.
import { z } from 'zod';
import { ACTION_KINDS, CAUSES, CLEARANCES, KINDS, REMEDIES, REMEDY_STATES, SPEAKERS, STATES } from '@backsight/domain/callbacks/words';
import { OFFICE_ROLES, start } from './jobs.ts';
import { starts } from './schedule.ts';
import { cents, day, id, idParams, instant, line, prose, route, warnings } from './route.ts';
export { ACTION_KINDS, CAUSES, CLEARANCES, isLegal, KINDS, MONEY_REMEDIES, NAMES_STEP, needsConclusion, paysMoney, REMEDIES, REMEDY_STATES, SPEAKERS, STATES, STEP_CAUSES } from '@backsight/domain/callbacks/words';
export { NO_ADMISSION, SAFETY_ADVICE } from '@backsight/domain/callbacks/intake';

const oneOf = <T extends Record<string, string>>(list: T) => z.enum(Object.keys(list) as [keyof T & string, ...(keyof T & string)[]]);
export const kindSchema = oneOf(KINDS);
export const whichSchema = z.enum(['open', 'closed', 'all']);
const state = oneOf(STATES);
const speaker = oneOf(SPEAKERS);
const amount = z.int().min(0).max(2_000_000_000);
const clock = z.strictObject({ clock: z.enum(['acknowledge', 'triage', 'decision']), dueAt: instant, overdue: z.boolean(), dueWithinDay: z.boolean() }).nullable();

const lineOf = {
  id, number: z.int(), jobId: id, speaker, kind: kindSchema, state, safety: z.boolean(), system: z.string(), place: z.string(), receivedAt: instant, deadlineOn: day.nullable(), ownerOnly: z.boolean(), clock,
};
export const callbackLine = z.strictObject({ ...lineOf, jobNumber: z.int(), address: z.string(), town: z.string(), party: z.string().nullable() });
export type CallbackLine = z.output<typeof callbackLine>;

const approval = z.strictObject({ decision: z.string(), by: z.string(), onTheJob: z.boolean(), happenedAt: instant });
const remedy = z.strictObject({
  id, kind: oneOf(REMEDIES), state: oneOf(REMEDY_STATES), cents, payee: z.string(), proposer: z.string(), recordedAt: instant, approvals: z.array(approval), words: z.string().nullable().optional(),
  visit: z.strictObject({ jobId: id, number: z.int(), state: z.string(), startsAt: instant, pair: z.array(z.string()) }).nullable(),
});
const conclusion = z.strictObject({
  id, cause: z.string(), stepKey: z.string().nullable(), stepTitle: z.string().nullable(), revisionId: id.nullable(), revisionNumber: z.int().nullable(), procedureTitle: z.string().nullable(), procedureId: id.nullable(),
  entryId: id.nullable(), words: z.string().nullable(), by: z.string(), happenedAt: instant,
});
export const money = z.strictObject({ paidCents: z.int(), reservedCents: z.int(), recoveredCents: z.int(), incurredCents: z.int() });

/** The optional keys are opinions and money: owner and lead inspector get them, for others they are absent. */
export const callback = z.strictObject({
  ...lineOf, partyId: id.nullable(), remedySought: z.string(), discoveredOn: day.nullable(), servedOn: day.nullable(), serviceWay: z.string().nullable(), binding: z.boolean(), version: z.int(), words: z.string(),
  clocks: z.strictObject({ acknowledgeDueAt: instant, triageDueAt: instant, decisionDueAt: instant }),
  party: z.strictObject({ id, name: z.string(), role: z.string(), email: z.string().nullable(), phone: z.string().nullable() }).nullable(),
  job: z.strictObject({ id, number: z.int(), address: z.string(), town: z.string(), inspectedOn: day.nullable(), pair: z.array(z.strictObject({ id, name: z.string(), place: z.string() })) }),
  events: z.array(z.strictObject({ id, seq: z.int(), kind: z.string(), state, words: z.string().nullable(), happenedAt: instant, actor: z.string().nullable() })),
  others: z.array(z.strictObject({ id, number: z.int(), kind: z.string(), state: z.string(), receivedAt: instant, jobNumber: z.int() })),
  remedies: z.array(remedy),
  conclusions: z.array(conclusion).optional(),
  clearances: z.array(z.strictObject({ id, kind: oneOf(CLEARANCES), words: z.string().nullable(), by: z.string(), happenedAt: instant })).optional(),
  money: money.optional(),
  moneyEntries: z.array(z.strictObject({ id, kind: z.string(), happenedOn: day, memo: z.string(), by: z.string().nullable(), lines: z.array(z.strictObject({ account: z.string(), cents: z.int() })) })).optional(),
  policy: z.strictObject({ insurer: z.string(), number: z.string(), kind: z.string(), endsOn: day, deductibleCents: z.int(), noticeAddress: z.string() }).nullable().optional(),
  policyWarnings: z.array(z.string()).optional(),
  actions: z.array(z.strictObject({ id, number: z.int(), kind: oneOf(ACTION_KINDS), state: z.string(), title: z.string(), dueOn: day, revisionId: id.nullable(), revisionNumber: z.int().nullable(), revisionState: z.string().nullable(), procedureId: id.nullable() })).optional(),
});
export type Callback = z.output<typeof callback>;

const entry = z.strictObject({
  id, answer: z.string(), match: z.string(), note: z.string().nullable(), observedBy: z.string(), writtenBy: z.string(), observedAt: instant, observedApprox: z.boolean(), recordedAt: instant, packageNumber: z.int(),
  superseded: z.boolean(), correction: z.string().nullable(),
});
const workedStep = z.strictObject({
  stepKey: z.string(), title: z.string(), instruction: z.string(), caution: z.string().nullable(), procedureTitle: z.string(), system: z.string(), revisionId: id, revisionNumber: z.int(), item: z.string().nullable(),
  packageNumber: z.int(), partnerCheck: z.boolean(), entries: z.array(entry),
});
const report = z.strictObject({
  id, version: z.int(), source: z.string(), inspectedOn: day, completedOn: day, reportOn: day, deliveredOn: day.nullable(), summary: z.array(z.strictObject({ system: z.string(), text: z.string() })),
  systems: z.array(z.strictObject({ system: z.string(), lines: z.array(z.strictObject({ title: z.string(), item: z.string().nullable(), answer: z.string(), note: z.string().nullable() })) })),
  notInspected: z.array(z.strictObject({ system: z.string(), title: z.string(), item: z.string().nullable(), why: z.string() })),
});
export const evidence = z.strictObject({
  pair: z.array(z.strictObject({ name: z.string(), place: z.string(), licenses: z.array(z.strictObject({ kind: z.string(), number: z.string(), untilDay: day })) })),
  records: z.array(z.strictObject({ visitId: id, startsAt: instant, state: z.string(), openedAt: instant, sealedAt: instant.nullable(), endedAs: z.string().nullable() })),
  steps: z.array(workedStep), reports: z.array(report),
  agreements: z.array(z.strictObject({ id, issuedAt: instant, body: z.string(), textTitle: z.string(), reviewedByAttorney: z.boolean(), superseded: z.boolean(), binds: z.boolean(), signers: z.array(z.strictObject({ name: z.string(), signedAt: instant.nullable() })) })),
  windows: z.strictObject({
    inspectedOn: day.nullable(), completedOn: day.nullable(), deliveredOn: day.nullable(), discoveredOn: day.nullable(),
    window: z.strictObject({ from: day, shortUntil: day, longUntil: day, countsFrom: z.string(), sources: z.array(z.string()), readOn: day }).nullable(),
  }),
  likely: z.array(z.strictObject({ stepKey: z.string(), title: z.string(), reasons: z.array(z.string()) })),
});
export type CallbackEvidence = z.output<typeof evidence>;

const foundJob = z.strictObject({
  id, number: z.int(), kind: z.string(), address: z.string(), town: z.string(), inspectedOn: day.nullable(), pair: z.array(z.string()),
  parties: z.array(z.strictObject({ id, name: z.string(), role: z.string(), signed: z.boolean(), hasEmail: z.boolean() })),
});
export type FoundJob = z.output<typeof foundJob>;

const done = z.strictObject({ id, state, version: z.int(), warnings });
const said = prose(4000);
const maybeSaid = z.strictObject({ words: said.optional() });
const DESK = ['owner', 'lead_inspector', 'office_manager'] as const;
const JUDGES = ['owner', 'lead_inspector'] as const;
const act = { method: 'POST', area: 'callbacks', params: idParams, creates: true, reply: done } as const;

export const callbackRoutes = {
  list: route({ method: 'GET', path: '/api/callbacks', area: 'callbacks', summary: 'Callbacks: open ones by danger and due time, others by number', who: DESK, query: z.strictObject({ which: whichSchema.default('open'), kind: kindSchema.optional(), before: z.coerce.number().int().min(1).max(2_000_000_000).optional() }), reply: z.strictObject({ items: z.array(callbackLine), next: z.string().nullable() }) }),
  jobs: route({ method: 'GET', path: '/api/callbacks/jobs', area: 'callbacks', summary: 'Jobs by number, address, town or name, for the intake', who: 'signed_in', query: z.strictObject({ q: line(100) }), reply: z.array(foundJob) }),
  receive: route({
    method: 'POST', path: '/api/callbacks', area: 'callbacks', summary: 'Take in a callback, a question or a near-miss', who: 'signed_in', creates: true, reply: z.strictObject({ id, number: z.int(), warnings }),
    body: z.strictObject({
      id, jobId: id, partyId: id.optional(), newParty: z.strictObject({ id, name: line(120), email: z.email().max(200).nullable(), phone: line(40).nullable() }).optional(), speaker, kind: kindSchema, safety: z.boolean(), system: line(60), place: line(200), remedySought: z.string().trim().max(400), words: said,
      discoveredOn: day.optional(), servedOn: day.optional(), serviceWay: line(100).optional(), deadlineOn: day.optional(), ownerOnly: z.boolean().optional(),
    }),
  }),
  one: route({ method: 'GET', path: '/api/callbacks/:id', area: 'callbacks', summary: 'One callback; opinions and money only for owner and lead inspector', who: DESK, params: idParams, reply: callback }),
  evidence: route({ method: 'GET', path: '/api/callbacks/:id/evidence', area: 'callbacks', summary: 'What was recorded beside what the report said', who: JUDGES, params: idParams, reply: evidence }),
  acknowledge: route({ ...act, path: '/api/callbacks/:id/acknowledge', summary: 'Somebody spoke with the one who called', who: DESK, body: maybeSaid }),
  lookInto: route({ ...act, path: '/api/callbacks/:id/look-into', summary: 'Sorted: somebody looks into it', who: DESK, body: maybeSaid }),
  note: route({ ...act, path: '/api/callbacks/:id/notes', summary: 'Add a note to the facts', who: DESK, body: z.strictObject({ words: said }) }),
  become: route({ ...act, path: '/api/callbacks/:id/kind', summary: 'A question turns out to be a callback', who: DESK, body: z.strictObject({ kind: z.enum(['missed', 'damage_or_injury', 'conduct', 'fee']), words: said }) }),
  conclude: route({ ...act, path: '/api/callbacks/:id/conclusion', summary: 'Conclude what it is traced to', who: JUDGES, body: z.strictObject({ conclusionId: id, cause: oneOf(CAUSES), stepKey: line(100).optional(), entryId: id.optional(), words: said.optional() }) }),
  reserve: route({ ...act, path: '/api/callbacks/:id/reserve', summary: 'Set money aside, raise, lower or release it', who: JUDGES, body: z.strictObject({ cents: amount, words: said }) }),
  clear: route({ ...act, path: '/api/callbacks/:id/clearance', summary: "Record the insurer's consent, or the owner's reason why none is needed", who: JUDGES, body: z.strictObject({ kind: oneOf(CLEARANCES), words: said }) }),
  recover: route({ ...act, path: '/api/callbacks/:id/recoveries', summary: 'Record money that came back', who: JUDGES, body: z.strictObject({ cents: amount.min(1), receivedOn: day, words: said }) }),
  propose: route({ ...act, path: '/api/callbacks/:id/remedies', summary: 'Propose a remedy', who: DESK, body: z.strictObject({ remedyId: id, kind: z.enum([...(Object.keys(REMEDIES) as (keyof typeof REMEDIES)[]), 'own_repair']), cents: amount, payee: z.string().trim().max(160), words: said.optional() }) }),
  decide: route({ ...act, path: '/api/remedies/:id/decision', summary: 'Approve or refuse a remedy', who: DESK, body: z.strictObject({ decision: z.enum(['approved', 'refused']), words: said.optional() }) }),
  pay: route({ ...act, path: '/api/remedies/:id/payment', summary: 'Pay an approved and cleared remedy', who: JUDGES, body: z.strictObject({ paidOn: day }) }),
  finish: route({ ...act, path: '/api/remedies/:id/done', summary: 'An approved remedy without payment was carried out', who: DESK, body: maybeSaid }),
  visitStarts: route({ method: 'GET', path: '/api/remedies/:id/starts', area: 'callbacks', summary: 'When a pair can come again: never the original pair alone', who: OFFICE_ROLES, params: idParams, query: z.strictObject({ fromDay: day }), reply: z.strictObject({ starts, originalPair: z.array(z.string()) }) }),
  bookVisit: route({
    method: 'POST', path: '/api/remedies/:id/visit', area: 'callbacks', summary: 'Book the visit of an approved re-visit', who: OFFICE_ROLES, params: idParams, creates: true, body: z.strictObject({ jobId: id, start }),
    reply: z.strictObject({ id, jobId: id, number: z.int(), startsAt: instant, warnings }),
  }),
  close: route({ ...act, path: '/api/callbacks/:id/close', summary: 'Close: nothing set aside, no remedy open', who: DESK, body: maybeSaid }),
  reopen: route({ ...act, path: '/api/callbacks/:id/reopen', summary: 'Open again, with the reason', who: DESK, body: z.strictObject({ words: said }) }),
};

const action = z.strictObject({
  id, number: z.int(), kind: oneOf(ACTION_KINDS), state: z.enum(['open', 'done', 'dropped']), title: z.string(), why: z.string(), ownerId: id, owner: z.string(), dueOn: day, revisionId: id.nullable(), revisionNumber: z.int().nullable(),
  revisionState: z.string().nullable(), procedureId: id.nullable(), procedureTitle: z.string().nullable(), inForceFrom: instant.nullable(), recordedAt: instant, doneAt: instant.nullable(),
  callbacks: z.array(z.strictObject({ id, number: z.int(), stepKey: z.string().nullable() })),
});
export type CorrectiveAction = z.output<typeof action>;
const acted = z.strictObject({ id });

export const actionRoutes = {
  list: route({ method: 'GET', path: '/api/corrective-actions', area: 'callbacks', summary: 'Corrective actions, open ones first; or those that a revision comes from', who: JUDGES, query: z.strictObject({ revision: id.optional() }), reply: z.array(action) }),
  create: route({
    method: 'POST', path: '/api/corrective-actions', area: 'callbacks', summary: 'Decide what is changed because of callbacks', who: JUDGES, creates: true, reply: z.strictObject({ id, number: z.int() }),
    body: z.strictObject({ id, kind: oneOf(ACTION_KINDS), title: line(160), why: prose(2000), ownerId: id, dueOn: day, callbackIds: z.array(id).min(1).max(100) }),
  }),
  link: route({ method: 'POST', path: '/api/corrective-actions/:id/revision', area: 'callbacks', summary: 'Say which revision the action brings', who: JUDGES, params: idParams, creates: true, reply: acted, body: z.strictObject({ revisionId: id }) }),
  draft: route({
    method: 'POST', path: '/api/corrective-actions/:id/draft', area: 'callbacks', summary: 'Begin the draft of the revision that the action brings', who: JUDGES, params: idParams, creates: true,
    reply: z.strictObject({ id, revisionId: id, number: z.int() }), body: z.strictObject({ revisionId: id, procedureId: id, reason: prose(600) }),
  }),
  finish: route({ method: 'POST', path: '/api/corrective-actions/:id/end', area: 'callbacks', summary: 'Done, or dropped', who: JUDGES, params: idParams, creates: true, reply: acted, body: z.strictObject({ outcome: z.enum(['done', 'dropped']) }) }),
};

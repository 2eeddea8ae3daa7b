// The site record: my day, starting, recording, ending and sealing.
import { z } from 'zod';
import { ITEM_KINDS, type ItemKind } from '@backsight/domain/shared/facts';
import { ENDINGS, type EndedAs } from '@backsight/domain/sitework/endedAs';
import {
  CORRECTIONS,
  OUTCOMES,
  REASONS,
  type CorrectionReason,
  type CouldNotReason,
  type StepOutcome,
} from '@backsight/domain/sitework/value';
import { day, id, idParams, instant, line, made, prose, route, warnings } from './route.ts';
import { siteStep, entryEvidence } from './sitework/step.ts';
import { photoOpening, recordPhoto, spokenNote } from './sitework/photos.ts';
import { actFields, knownAct, measures, missingToSeal, pairResult } from './sitework/acts.ts';

const keysOf = <K extends string>(list: Record<K, unknown>) => z.enum(Object.keys(list) as [K, ...K[]]);
export const itemKind = keysOf<ItemKind>(ITEM_KINDS);
const outcome = keysOf<StepOutcome>(OUTCOMES);
const reason = keysOf<CouldNotReason>(REASONS);
const correction = keysOf<CorrectionReason>(CORRECTIONS);
const ending = keysOf<EndedAs>(ENDINGS);
const match = z.enum(['not_asked', 'as_expected', 'outside', 'differs']);
export { entryEvidence, siteStep };
export type { SiteStep } from './sitework/step.ts';
const member = z.strictObject({ personId: id, name: z.string(), place: z.enum(['first', 'second']) });
export const siteVisit = z.strictObject({
  id,
  jobId: id,
  jobNumber: z.int(),
  kind: z.string(),
  state: z.string(),
  day,
  startsAt: instant,
  endsAt: instant,
  expectedAt: instant.nullable(),
  address: z.string(),
  town: z.string(),
  pair: z.array(member),
  kit: z.array(z.string()),
  services: z.array(z.string()),
  recordId: id.nullable(),
  recordState: z.string().nullable(),
});
export type SiteVisit = z.output<typeof siteVisit>;
const acknowledgement = z.strictObject({ personId: id, person: z.string(), revisionId: id, title: z.string(), number: z.int() });
export const dayVisit = siteVisit.extend({
  drive: z.strictObject({ setOutAt: instant.nullable(), arrivedAt: instant.nullable(), zoneBeyond: z.string().nullable() }),
  access: z.strictObject({ state: z.string().nullable(), lines: z.array(z.string()) }),
  people: z.array(z.strictObject({ name: z.string(), phone: z.string().nullable(), role: z.string() })),
  acknowledgements: z.array(acknowledgement),
});

export const siteItem = z.strictObject({ id, kind: itemKind, label: z.string() });
export type SiteItem = z.output<typeof siteItem>;
const newItem = z.strictObject({ id, kind: itemKind, label: line(60) });

export const siteEntry = z.strictObject({
  id,
  stepKey: z.string(),
  itemId: id.nullable(),
  outcome,
  evidence: entryEvidence.nullable(),
  correction: correction.nullable(),
  match,
  note: z.string().nullable(),
  reason: reason.nullable(),
  measures: measures.nullable(),
  filled: z.boolean(),
  observedBy: id,
  writtenBy: id,
  observedAt: instant,
  observedApprox: z.boolean(),
  recordedAt: instant,
  supersedesId: id.nullable(),
});
export type SiteEntry = z.output<typeof siteEntry>;
const place = z.strictObject({ stepKey: z.string(), itemId: id.nullable() });
const head = {
  id,
  state: z.enum(['open', 'sealed']),
  openedAt: instant,
  endedAs: ending.nullable(),
  visit: siteVisit,
  items: z.array(siteItem),
  steps: z.array(siteStep),
  acts: z.array(knownAct),
  comparisons: z.array(place.extend({ result: pairResult })),
  photos: z.array(recordPhoto),
  spoken: z.array(spokenNote),
};
export const memberRecord = z.strictObject({
  ...head,
  me: id,
  /** Who asked that it is sealed as soon as everything of both phones is there. */
  sealAskedBy: id.nullable(),
  /** Ids that a second phone gave to what was there, and what they stand for. */
  aliases: z.array(z.strictObject({ id, standsFor: id })),
  entries: z.array(siteEntry),
  withheld: z.array(place),
  missing: missingToSeal,
});
export type MemberRecord = z.output<typeof memberRecord>;
export const sealedRecord = z.strictObject({
  ...head,
  entries: z.array(siteEntry.extend({ counts: z.boolean() })),
  openings: z.array(photoOpening),
  seal: z.strictObject({ sha256: z.string(), sealedAt: instant, holds: z.boolean(), startDespiteGate: z.boolean() }),
});
export type SealedRecord = z.output<typeof sealedRecord>;

export const newEntry = z.strictObject({
  id,
  packageId: id,
  stepKey: z.string().max(100),
  itemId: id.nullable(),
  outcome: outcome.exclude(['ended_before']),
  evidence: entryEvidence.nullable(),
  reason: reason.nullable(),
  note: prose(4000).nullable(),
  observedBy: id,
  observedAt: instant,
  observedApprox: z.boolean(),
  /** By the device's clock; without it the time at which it came in. */
  writtenAt: instant.optional(),
  /** Photos that follow. */
  photos: z.array(id.toLowerCase()).max(12).optional(),
  /** Spoken notes that follow; an act takes none. */
  spoken: z.array(id.toLowerCase()).max(6).optional(),
  deviceSeq: z.int().min(0).max(2_000_000_000),
  corrects: z.strictObject({ entryId: id, why: correction }).nullable(),
  ...actFields,
});
export type NewEntry = z.input<typeof newEntry>;
/** Whatever else has an id: answered with what is wrong with it, so that it keeps no other entry out. */
const unreadableEntry = z.looseObject({ id });
const result = z.strictObject({
  id,
  stored: z.boolean(),
  match: match.nullable(),
  warnings,
  code: z.string().nullable(),
  sentence: z.string().nullable(),
  field: z.string().nullable(),
});
export type EntryResult = z.output<typeof result>;

export const siteworkRoutes = {
  day: route({
    method: 'GET',
    path: '/api/my-day',
    area: 'sitework',
    summary: 'My visits of today and tomorrow',
    who: 'signed_in',
    reply: z.strictObject({ today: day, tomorrow: day, visits: z.array(dayVisit) }),
  }),
  start: route({
    method: 'GET',
    path: '/api/visits/:id/start',
    area: 'sitework',
    summary: 'What a visit needs before it starts',
    who: 'signed_in',
    of: 'visit',
    params: idParams,
    reply: z.strictObject({
      visit: siteVisit,
      gate: z.strictObject({
        missing: z.array(z.string()),
        sentences: z.array(z.string()),
        /** Told, and no reason to wait. */
        warnings: z.array(z.string()),
        open: z.boolean(),
        overriddenBecause: z.array(z.string()),
      }),
      acknowledgements: z.array(acknowledgement),
      items: z.array(z.strictObject({ kind: itemKind, label: z.string() })),
      /** `suggested`: what brought the visit. */
      systems: z.array(z.strictObject({ system: z.string(), title: z.string(), suggested: z.boolean() })),
    }),
  }),
  visits: route({
    method: 'GET',
    path: '/api/jobs/:id/site-visits',
    area: 'sitework',
    summary: 'Visits of a job and their site records',
    who: 'signed_in',
    of: 'job',
    params: idParams,
    reply: z.array(siteVisit.extend({ mine: z.boolean(), photos: z.strictObject({ here: z.int(), onTheirWay: z.int() }) })),
  }),
  open: route({
    method: 'POST',
    path: '/api/visits/:id/record',
    area: 'sitework',
    summary: 'Start a visit and open its site record',
    who: 'signed_in',
    of: 'visit',
    params: idParams,
    creates: true,
    reply: z.strictObject({ id, steps: z.int() }),
    body: z.strictObject({
      id,
      items: z.array(newItem).max(60),
      systems: z.array(z.string().max(60)).max(40),
      acknowledged: z.array(z.strictObject({ personId: id, revisionId: id })).max(80),
      offerId: id.nullish(),
      openedAt: instant.nullish(),
      sentAt: instant.nullish(),
    }),
  }),
  record: route({
    method: 'GET',
    path: '/api/records/:id',
    area: 'sitework',
    summary: 'The site record as one of the pair may see it',
    who: 'signed_in',
    of: 'record',
    params: idParams,
    reply: memberRecord,
  }),
  stand: route({
    method: 'GET',
    path: '/api/records/:id/stand',
    area: 'sitework',
    summary: 'A short mark that changes with everything added to a site record: whoever waits for it asks this often, and the record then',
    who: 'signed_in',
    of: 'record',
    params: idParams,
    reply: z.strictObject({ mark: z.string() }),
  }),
  sealed: route({
    method: 'GET',
    path: '/api/records/:id/sealed',
    area: 'sitework',
    summary: 'A sealed site record as a whole',
    who: 'signed_in',
    of: 'record',
    params: idParams,
    reply: sealedRecord,
  }),
  addItem: route({
    method: 'POST',
    path: '/api/records/:id/items',
    area: 'sitework',
    summary: 'Add a thing found on site',
    who: 'signed_in',
    of: 'record',
    params: idParams,
    creates: true,
    body: newItem.extend({ joins: z.boolean().default(false) }),
    reply: made.extend({ packageId: id, number: z.int(), steps: z.int() }),
  }),
  enter: route({
    method: 'POST',
    path: '/api/records/:id/entries',
    area: 'sitework',
    summary: 'Record entries; each is judged by itself and stored once; the first 200 of a batch are taken',
    who: 'signed_in',
    of: 'record',
    params: idParams,
    creates: true,
    bodyLimit: 16 * 1024 * 1024,
    body: z.strictObject({
      /** The phone and its clock at sending, from which the error of its clock is told. */
      deviceId: id.optional(),
      sentAt: instant.optional(),
      entries: z
        .array(z.union([newEntry, unreadableEntry]))
        .min(1)
        .max(20_000),
    }),
    reply: z.strictObject({ results: z.array(result) }),
  }),
  end: route({
    method: 'POST',
    path: '/api/records/:id/end',
    area: 'sitework',
    summary: 'Say how the visit ended',
    who: 'signed_in',
    of: 'record',
    params: idParams,
    creates: true,
    body: z.strictObject({ endedAs: ending, missedWalkThrough: z.boolean().default(false) }),
    reply: made.extend({ endedAs: ending, notReached: z.int() }),
  }),
  seal: route({
    method: 'POST',
    path: '/api/records/:id/seal',
    area: 'sitework',
    summary: 'Seal the site record, now or as soon as nothing is missing',
    who: 'signed_in',
    of: 'record',
    params: idParams,
    creates: true,
    /** `whenSent`: while something misses the wish is kept, and the record is sealed as soon as everything of both phones is there. */
    body: z.strictObject({ whenSent: z.boolean().default(false) }),
    reply: made.extend({ sha256: z.string().nullable() }),
  }),
};

// The evidence of a callback: what was recorded and done on site beside what the report said, with agreement and windows.
import { z } from 'zod';
import { day, id, instant } from '../route.ts';
import { pairResult } from '../sitework/acts.ts';

const entry = z.strictObject({
  id,
  answer: z.string(),
  match: z.string(),
  note: z.string().nullable(),
  observedBy: z.string(),
  writtenBy: z.string(),
  observedAt: instant,
  observedApprox: z.boolean(),
  recordedAt: instant,
  packageNumber: z.int(),
  superseded: z.boolean(),
  correction: z.string().nullable(),
});
const workedStep = z.strictObject({
  stepKey: z.string(),
  title: z.string(),
  instruction: z.string(),
  caution: z.string().nullable(),
  procedureTitle: z.string(),
  system: z.string(),
  revisionId: id,
  revisionNumber: z.int(),
  item: z.string().nullable(),
  packageNumber: z.int(),
  partnerCheck: z.boolean(),
  /** Of a partner check that both have answered, or that the visit ended too soon for. */
  comparison: pairResult.nullable(),
  entries: z.array(entry),
});
/** What the pair did besides the steps: arrival, conditions, looks for danger, changes, danger, damage, sign-off. */
const siteAct = z.strictObject({
  id,
  what: z.string(),
  words: z.string(),
  by: z.string(),
  writtenBy: z.string(),
  at: instant,
  /** That it bears on; null: the whole visit. */
  systems: z.array(z.string()).nullable(),
  /** It names the place that the callback names. */
  atPlace: z.boolean(),
});
const report = z.strictObject({
  id,
  version: z.int(),
  source: z.string(),
  inspectedOn: day,
  completedOn: day,
  reportOn: day,
  deliveredOn: day.nullable(),
  summary: z.array(z.strictObject({ system: z.string(), text: z.string() })),
  systems: z.array(
    z.strictObject({
      system: z.string(),
      lines: z.array(z.strictObject({ title: z.string(), item: z.string().nullable(), answer: z.string(), note: z.string().nullable() })),
    }),
  ),
  notInspected: z.array(z.strictObject({ system: z.string(), title: z.string(), item: z.string().nullable(), why: z.string() })),
});
/** Of a photo or spoken note: the entries that name it, and the act besides the steps that does. */
const ofEntries = {
  id,
  recordId: id,
  entries: z.array(id),
  about: z.string().nullable(),
  by: z.string(),
  takenAt: instant.nullable(),
};

export const evidence = z.strictObject({
  pair: z.array(
    z.strictObject({
      name: z.string(),
      place: z.string(),
      licenses: z.array(z.strictObject({ kind: z.string(), number: z.string(), untilDay: day })),
    }),
  ),
  records: z.array(
    z.strictObject({
      recordId: id,
      visitId: id,
      startsAt: instant,
      state: z.string(),
      openedAt: instant,
      sealedAt: instant.nullable(),
      endedAs: z.string().nullable(),
    }),
  ),
  steps: z.array(workedStep),
  acts: z.array(siteAct),
  /** Photos by the entries that name them, or by the act that they were taken for; without a time where they have not come. */
  photos: z.array(
    z.strictObject({
      ...ofEntries,
      near: z.enum(['yes', 'no', 'unknown']).nullable(),
      nearLimitM: z.int().nullable(),
    }),
  ),
  /** Spoken notes, likewise. */
  spoken: z.array(z.strictObject({ ...ofEntries, seconds: z.int().nullable() })),
  reports: z.array(report),
  agreements: z.array(
    z.strictObject({
      id,
      issuedAt: instant,
      body: z.string(),
      textTitle: z.string(),
      reviewedByAttorney: z.boolean(),
      superseded: z.boolean(),
      binds: z.boolean(),
      signers: z.array(z.strictObject({ name: z.string(), signedAt: instant.nullable() })),
    }),
  ),
  windows: z.strictObject({
    inspectedOn: day.nullable(),
    completedOn: day.nullable(),
    deliveredOn: day.nullable(),
    discoveredOn: day.nullable(),
    window: z
      .strictObject({ from: day, shortUntil: day, longUntil: day, countsFrom: z.string(), sources: z.array(z.string()), readOn: day })
      .nullable(),
  }),
});
export type CallbackEvidence = z.output<typeof evidence>;

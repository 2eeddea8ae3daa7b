// What a quote, a property, a job and its hold look like over the API.
import { z } from 'zod';
import { DISCOUNT_KEY } from '@backsight/domain/fees/discount';
import { JOB_KINDS, JOB_STATES, NEED_KINDS, NEED_STATES, PARTY_ROLES, SOURCES, statesByHand, TERMS } from '@backsight/domain/jobs/words';
import { FACTS, type FactKey } from '@backsight/domain/shared/facts';
import { propertyFactsSchema } from '@backsight/domain/shared/stored';
import { cents, day, id, instant, line, warnings, wholeMinute } from '../route.ts';

export { DISCOUNT_KEY, JOB_KINDS, JOB_STATES, NEED_KINDS, NEED_STATES, PARTY_ROLES, SOURCES, statesByHand, TERMS };
export type { JobState, NeedKind, NeedState, PartyRole, Source, Terms } from '@backsight/domain/jobs/words';

export const OFFICE_ROLES = ['owner', 'office_manager', 'lead_inspector'] as const;
const keysOf = <T extends string>(words: Record<T, string>) => z.enum(Object.keys(words) as [T, ...T[]]);
export const jobState = keysOf(JOB_STATES);
export const needKind = keysOf(NEED_KINDS);
export const needState = keysOf(NEED_STATES);
const partyRole = keysOf(PARTY_ROLES);
export const terms = keysOf(TERMS);
export const source = keysOf(SOURCES);
const jobKind = keysOf(JOB_KINDS);
export const lat = z.number().min(-90).max(90);
export const lon = z.number().min(-180).max(180);
export const place = z.strictObject({ lat, lon });
export const services = z.array(z.string().min(1).max(100)).max(30);
export const start = z.strictObject({ startsAt: wholeMinute, first: id, second: id.nullable() });
export const text = z.string();
const factKey = keysOf(Object.fromEntries(Object.keys(FACTS).map((key) => [key, key])) as Record<FactKey, string>);

const feeLine = z.strictObject({ rule: text, label: text, reason: text, cents, assumption: text.optional() });
const durationLine = z.strictObject({
  rule: text,
  label: text,
  minutes: z.int(),
  reason: text,
  assumption: text.optional(),
  report: z.literal(true).optional(),
});
/** A discount by hand: an amount or a percentage of what the schedule asks for, with its reason. */
export const discountFields = {
  cents: cents.min(1).nullable().default(null),
  percent: z.number().min(0.01).max(100).multipleOf(0.01).nullable().default(null),
};
const oneAmount = (said: { cents: number | null; percent: number | null }): boolean => (said.cents === null) !== (said.percent === null);
const ONE_AMOUNT = { path: ['cents'], error: 'Give the discount as an amount or as a percentage, not as both.' };
export const discount = z.strictObject({ ...discountFields, reason: line(120) }).refine(oneAmount, ONE_AMOUNT);
/** While it is typed, the reason may still be missing. */
export const discountTyped = z
  .strictObject({ ...discountFields, reason: z.string().trim().max(120).default('') })
  .refine(oneAmount, ONE_AMOUNT);
const lineChange = z.strictObject({ rule: text, label: text, reason: text, beforeCents: cents.nullable(), afterCents: cents.nullable() });
/** What an act would make of the fee; `signed`: somebody signed for the fee before. */
export const feeChange = z.strictObject({ beforeCents: cents, afterCents: cents, fee: z.array(lineChange), signed: z.boolean() });
export type FeeChange = z.output<typeof feeChange>;
const truth = z.enum(['yes', 'no', 'unknown']);
export const quote = z.strictObject({
  fee: z.strictObject({ lines: z.array(feeLine), totalCents: cents, assumptions: z.array(text), asks: z.array(factKey) }),
  /** Why the discount that was asked for is left out; null when it is not. */
  discountRefused: text.nullable(),
  duration: z.strictObject({
    minutes: z.int(),
    reportMinutes: z.int(),
    walkThroughMinutes: z.int(),
    lines: z.array(durationLine),
    asks: z.array(factKey),
  }),
  travelMinutes: z.int().nullable(),
  requirements: z.array(z.strictObject({ rule: text, kind: text, need: text, reason: text, asks: z.array(factKey) })),
  /** Not in the fee: offered for later, each with its own price. */
  laterLooks: z.array(z.strictObject({ key: text, label: text, reason: text, visitKind: text, cents, remindOn: day })),
  services: z.array(
    z.strictObject({
      key: text,
      name: text,
      searchWords: z.array(text),
      base: z.boolean(),
      ordered: z.boolean(),
      offered: truth,
      why: text,
      /** What ordering it would add to this fee and time; the cents are null where no price is set. Null once it is ordered or not offered. */
      adds: z.strictObject({ cents: cents.nullable(), minutes: z.int() }).nullable(),
    }),
  ),
});
export type Quote = z.output<typeof quote>;

export const party = z.strictObject({
  id,
  role: partyRole,
  name: line(120).optional(),
  email: z.email().max(200).nullable().optional(),
  phone: line(40).nullable().optional(),
  minor: z.boolean().optional(),
  mayReceiveReport: z.boolean().optional(),
  consentAt: instant.nullable().optional(),
});
export const usState = z.string().regex(/^US-[A-Z]{2}$/, 'A state is named like US-WI.');
export const property = z.strictObject({
  id,
  address: line(200),
  town: line(80),
  zip: z
    .string()
    .regex(/^\d{5}$/, 'A ZIP code has five digits.')
    .optional(),
  /** By the ZIP code where it is not said. */
  state: usState.optional(),
  lat: lat.optional(),
  lon: lon.optional(),
});
export const knownProperty = z.strictObject({
  onFile: z.boolean(),
  propertyId: id.nullable(),
  address: text.nullable(),
  inspectedBefore: z.boolean(),
  /** The owner is asked before anybody books for this house. */
  askOwner: z.boolean(),
  lat: lat.nullable(),
  lon: lon.nullable(),
  /** Like US-WI; empty where it is not known. */
  state: text.nullable(),
});

export const jobPage = z.strictObject({
  /** Of a job that was done before and came with a spreadsheet: it has no record of steps, no papers and no invoice here. */
  past: z
    .strictObject({ bringInId: id, by: z.string(), at: instant, reference: z.string(), deliveredOn: day.nullable(), timed: z.boolean() })
    .nullable(),
  id,
  number: z.int(),
  kind: jobKind,
  state: jobState,
  facts: propertyFactsSchema,
  terms,
  objectionOn: day.nullable(),
  source,
  clientAttends: z.boolean(),
  version: z.int(),
  recordedAt: instant,
  property: z.strictObject({
    id,
    address: text,
    town: text,
    zip: text,
    state: text,
    lat,
    lon,
    placeBy: z.enum(['town', 'zip', 'exact']),
    version: z.int(),
    /** Zone of the property where its clocks differ from the firm's. */
    zoneBeyond: text.nullable(),
    inspectedBefore: z.boolean(),
  }),
  services: z.array(z.strictObject({ key: text, name: text, provider: text.nullable(), extraVisit: text.nullable() })),
  parties: z.array(
    z.strictObject({
      id,
      partyId: id,
      role: partyRole,
      name: text,
      email: text.nullable(),
      phone: text.nullable(),
      minor: z.boolean(),
      mayReceiveReport: z.boolean(),
      consentAt: instant.nullable(),
      askOwner: text.nullable(),
      language: text,
      assistance: z.enum(['none', 'relay', 'interpreter']),
      largePrint: z.boolean(),
      /** Mail to this address came back. */
      badAddress: z.boolean(),
    }),
  ),
  feeLines: z.array(z.strictObject({ rule: text, label: text, reason: text, assumption: text.nullable(), cents })),
  needs: z.array(
    z.strictObject({
      kind: needKind,
      state: needState,
      dueAt: instant,
      askedAt: instant.nullable(),
      settledAt: instant.nullable(),
      settledBy: text.nullable(),
      details: z.record(z.string(), z.unknown()),
    }),
  ),
  visits: z.array(
    z.strictObject({
      id,
      kind: text,
      kindName: text,
      state: text,
      startsAt: instant,
      endsAt: instant,
      holdEndsAt: instant.nullable(),
      /** The window that the client was told; null = the very start. */
      promised: z.strictObject({ from: instant, until: instant }).nullable(),
      reportMinutes: z.int(),
      version: z.int(),
      because: z.record(z.string(), z.unknown()),
      pair: z.array(z.strictObject({ place: text, personId: id, name: text })),
      observers: z.array(text),
      kit: z.array(text),
      recordState: text.nullable(),
    }),
  ),
  events: z.array(
    z.strictObject({
      seq: z.int(),
      kind: text,
      state: jobState,
      happenedAt: instant,
      actor: text.nullable(),
      /** What was noted or decided, in words; and the start that a visit got. */
      about: text.nullable(),
      startsAt: instant.nullable(),
      text: text.nullable(),
    }),
  ),
  agreement: z.strictObject({ id, issuedAt: instant, signers: z.int(), signed: z.int() }).nullable(),
  papersDiffer: z.array(text),
  /** Payments that came back while their invoice is open; `handedOverOn`: the report had left before. */
  cameBack: z.array(
    z.strictObject({
      paymentId: id,
      invoiceId: id,
      number: z.int(),
      cents,
      what: text,
      on: day,
      openCents: cents,
      handedOverOn: day.nullable(),
    }),
  ),
  invoice: z.strictObject({ id, number: z.int().nullable(), state: text, totalCents: cents, paidCents: cents, dueOn: day }).nullable(),
  report: z.strictObject({ id, version: z.int(), handedOver: z.boolean() }).nullable(),
  callbacks: z.array(z.strictObject({ id, number: z.int(), kind: text, state: text })),
});
export type JobPage = z.output<typeof jobPage>;

export const jobLine = z.strictObject({
  id,
  number: z.int(),
  kind: jobKind,
  state: jobState,
  address: text,
  town: text,
  client: text.nullable(),
  startsAt: instant.nullable(),
  pair: z.array(text),
  totalCents: cents,
  openNeeds: z.array(needKind),
  nextDueAt: instant.nullable(),
});
export type JobLine = z.output<typeof jobLine>;

export const held = z.strictObject({
  id,
  number: z.int(),
  version: z.int(),
  propertyId: id,
  visitId: id,
  startsAt: instant,
  endsAt: instant,
  first: id,
  second: id.nullable(),
  totalCents: cents,
  holdEndsAt: instant,
  warnings,
});
export type Held = z.output<typeof held>;
export const difference = z.strictObject({
  beforeCents: cents,
  afterCents: cents,
  assumptions: z.array(text),
  beforeMinutes: z.number().nullable(),
  afterMinutes: z.int(),
  fee: z.array(lineChange),
  duration: z.array(z.strictObject({ label: text, minutes: z.int(), reason: text })),
});
export type FactsDifference = z.output<typeof difference>;

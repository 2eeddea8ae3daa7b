// Jobs: quote, property look-up, hold, confirm, what is still to get, what was learned.
import { z } from 'zod';
import { JOB_KINDS, JOB_STATES, NEED_KINDS, NEED_STATES, PARTY_ROLES, SOURCES, TERMS } from '@backsight/domain/jobs/words';
import { FACTS, type FactKey } from '@backsight/domain/shared/facts';
import { propertyFactsSchema } from '@backsight/domain/shared/stored';
import { cents, day, id, idParams, instant, line, page, prose, route, warnings } from './route.ts';

export { JOB_KINDS, JOB_STATES, NEED_KINDS, NEED_STATES, PARTY_ROLES, SOURCES, TERMS };
export type { JobState, NeedKind, NeedState, PartyRole, Source, Terms } from '@backsight/domain/jobs/words';

export const OFFICE_ROLES = ['owner', 'office_manager', 'lead_inspector'] as const;
const keysOf = <T extends string>(words: Record<T, string>) => z.enum(Object.keys(words) as [T, ...T[]]);
export const jobState = keysOf(JOB_STATES);
export const needKind = keysOf(NEED_KINDS);
const needState = keysOf(NEED_STATES);
const partyRole = keysOf(PARTY_ROLES);
const terms = keysOf(TERMS);
const source = keysOf(SOURCES);
const jobKind = keysOf(JOB_KINDS);
const lat = z.number().min(-90).max(90);
const lon = z.number().min(-180).max(180);
export const place = z.strictObject({ lat, lon });
export const services = z.array(z.string().min(1).max(100)).max(30);
export const start = z.strictObject({ startsAt: instant, first: id, second: id.nullable() });
const text = z.string();
const factKey = keysOf(Object.fromEntries(Object.keys(FACTS).map((key) => [key, key])) as Record<FactKey, string>);

const feeLine = z.strictObject({ rule: text, label: text, reason: text, cents, assumption: text.optional() });
const durationLine = z.strictObject({ rule: text, label: text, minutes: z.int(), reason: text, assumption: text.optional(), report: z.literal(true).optional() });
const truth = z.enum(['yes', 'no', 'unknown']);
export const quote = z.strictObject({
  fee: z.strictObject({ lines: z.array(feeLine), totalCents: cents, assumptions: z.array(text), asks: z.array(factKey) }),
  duration: z.strictObject({ minutes: z.int(), reportMinutes: z.int(), lines: z.array(durationLine), asks: z.array(factKey) }),
  travelMinutes: z.int().nullable(),
  requirements: z.array(z.strictObject({ rule: text, kind: text, need: text, reason: text })),
  services: z.array(z.strictObject({ key: text, name: text, searchWords: z.array(text), base: z.boolean(), ordered: z.boolean(), offered: truth, why: text })),
});
export type Quote = z.output<typeof quote>;

const party = z.strictObject({
  id, role: partyRole, name: line(120).optional(), email: z.email().max(200).nullable().optional(), phone: line(40).nullable().optional(), minor: z.boolean().optional(),
  mayReceiveReport: z.boolean().optional(), consentAt: instant.nullable().optional(),
});
const property = z.strictObject({ id, address: line(200), town: line(80), lat: lat.optional(), lon: lon.optional() });
const knownProperty = z.strictObject({ onFile: z.boolean(), propertyId: id.nullable(), address: text.nullable(), inspectedBefore: z.boolean(), lat: lat.nullable(), lon: lon.nullable() });

export const jobPage = z.strictObject({
  id, number: z.int(), kind: jobKind, state: jobState, facts: propertyFactsSchema, terms, objectionOn: day.nullable(), source, clientAttends: z.boolean(), version: z.int(), recordedAt: instant,
  property: z.strictObject({ id, address: text, town: text, zip: text, lat, lon, inspectedBefore: z.boolean() }),
  services: z.array(z.strictObject({ key: text, name: text, provider: text.nullable(), extraVisit: text.nullable() })),
  parties: z.array(z.strictObject({ id, partyId: id, role: partyRole, name: text, email: text.nullable(), phone: text.nullable(), minor: z.boolean(), mayReceiveReport: z.boolean(), consentAt: instant.nullable(), askOwner: text.nullable() })),
  feeLines: z.array(z.strictObject({ rule: text, label: text, reason: text, assumption: text.nullable(), cents })),
  needs: z.array(z.strictObject({ kind: needKind, state: needState, dueAt: instant, askedAt: instant.nullable(), settledAt: instant.nullable(), settledBy: text.nullable(), details: z.record(z.string(), z.unknown()) })),
  visits: z.array(z.strictObject({
    id, kind: text, kindName: text, state: text, startsAt: instant, endsAt: instant, holdEndsAt: instant.nullable(), reportMinutes: z.int(), version: z.int(), because: z.record(z.string(), z.unknown()),
    pair: z.array(z.strictObject({ place: text, personId: id, name: text })), observers: z.array(text), kit: z.array(text), recordState: text.nullable(),
  })),
  events: z.array(z.strictObject({ seq: z.int(), kind: text, state: jobState, happenedAt: instant, actor: text.nullable(), text: text.nullable() })),
  agreement: z.strictObject({ id, issuedAt: instant, signers: z.int(), signed: z.int() }).nullable(),
  papersDiffer: z.array(text),
  invoice: z.strictObject({ id, number: z.int().nullable(), state: text, totalCents: cents, paidCents: cents, dueOn: day }).nullable(),
  report: z.strictObject({ id, version: z.int(), handedOver: z.boolean() }).nullable(),
  callbacks: z.array(z.strictObject({ id, number: z.int(), kind: text, state: text })),
});
export type JobPage = z.output<typeof jobPage>;

export const jobLine = z.strictObject({
  id, number: z.int(), kind: jobKind, state: jobState, address: text, town: text, client: text.nullable(), startsAt: instant.nullable(), pair: z.array(text), totalCents: cents, openNeeds: z.array(needKind), nextDueAt: instant.nullable(),
});
export type JobLine = z.output<typeof jobLine>;

const held = z.strictObject({
  id, number: z.int(), version: z.int(), propertyId: id, visitId: id, startsAt: instant, endsAt: instant, first: id, second: id.nullable(), totalCents: cents, holdEndsAt: instant, warnings,
});
export type Held = z.output<typeof held>;
const difference = z.strictObject({
  beforeCents: cents, afterCents: cents, assumptions: z.array(text), beforeMinutes: z.number().nullable(), afterMinutes: z.int(),
  fee: z.array(z.strictObject({ rule: text, label: text, reason: text, beforeCents: cents.nullable(), afterCents: cents.nullable() })),
  duration: z.array(z.strictObject({ label: text, minutes: z.int(), reason: text })),
});
export type FactsDifference = z.output<typeof difference>;
const changed = z.strictObject({ id, version: z.int() });
const who = OFFICE_ROLES;
const area = 'jobs';

export const jobsRoutes = {
  quote: route({ method: 'POST', path: '/api/quotes', area, summary: 'Price and plan a job without booking it', who: 'signed_in', reply: quote, body: z.strictObject({ facts: propertyFactsSchema, services, day, place: place.nullable() }) }),
  towns: route({ method: 'GET', path: '/api/towns', area, summary: 'Towns of the firm', who: 'signed_in', reply: z.array(z.strictObject({ name: text, zip: text, lat, lon })) }),
  lookUp: route({ method: 'GET', path: '/api/properties', area, summary: 'Whether an address is on file', who, reply: knownProperty, query: z.strictObject({ address: line(200), town: line(80) }) }),
  parties: route({ method: 'GET', path: '/api/parties', area, summary: 'People on file by name, e-mail address or phone', who, reply: z.array(z.strictObject({ id, name: text, email: text.nullable(), phone: text.nullable(), askOwner: text.nullable() })), query: z.strictObject({ text: line(100) }) }),
  changeParty: route({ method: 'PATCH', path: '/api/parties/:id', area, summary: 'Change the name or addresses of a person', who, params: idParams, reply: z.strictObject({ id }), body: z.strictObject({ name: line(120), email: z.email().max(200).nullable(), phone: line(40).nullable() }).partial() }),
  markParty: route({ method: 'PATCH', path: '/api/parties/:id/mark', area, summary: 'Mark a person: ask the owner before booking', who: ['owner'], params: idParams, reply: z.strictObject({ id }), body: z.strictObject({ askOwner: line(200).nullable() }) }),
  hold: route({
    method: 'POST', path: '/api/jobs', area, summary: 'Hold a time with a price', who, creates: true, reply: held,
    body: z.strictObject({
      id, property, facts: propertyFactsSchema, services: services.min(1), parties: z.array(party).min(1).max(12), start, terms, tenant: z.boolean().default(false), source: source.default(''),
      clientAttends: z.boolean().default(true), objectionOn: day.nullable().default(null), toldCents: cents.nullable().default(null),
    }),
  }),
  list: route({
    method: 'GET', path: '/api/jobs', area, summary: 'Jobs, newest first', who: 'signed_in', reply: page(jobLine),
    query: z.strictObject({ text: z.string().trim().max(100).default(''), state: jobState.optional(), stillToGet: z.enum(['yes', 'no']).default('no'), cursor: z.string().regex(/^\d{1,9}$/).optional(), limit: z.coerce.number().int().min(1).max(100).default(50) }),
  }),
  one: route({ method: 'GET', path: '/api/jobs/:id', area, summary: 'One job with everything on it', who: 'signed_in', params: idParams, reply: jobPage }),
  confirm: route({ method: 'POST', path: '/api/jobs/:id/confirmation', area, summary: 'Confirm a held job', who, creates: true, params: idParams, reply: z.strictObject({ id, version: z.int(), agreementId: id, invoiceId: id, invoiceNumber: z.int(), warnings }) }),
  papers: route({ method: 'POST', path: '/api/jobs/:id/papers', area, summary: 'Issue the agreement and the invoice of a confirmed job anew', who, creates: true, params: idParams, reply: z.strictObject({ agreementId: id, invoiceId: id, invoiceNumber: z.int(), warnings }) }),
  cancel: route({ method: 'PUT', path: '/api/jobs/:id/cancellation', area, summary: 'Cancel a job that has not begun', who, edits: true, params: idParams, reply: changed, body: z.strictObject({ reason: prose(1000) }) }),
  need: route({ method: 'PATCH', path: '/api/jobs/:id/needs/:kind', area, summary: 'Note how far something is that is still to get', who, edits: true, params: z.strictObject({ id, kind: needKind }), reply: changed, body: z.strictObject({ state: needState, who: z.string().trim().max(120).default(''), how: z.string().trim().max(500).default('') }) }),
  previewFacts: route({ method: 'POST', path: '/api/jobs/:id/facts/preview', area, summary: 'What other facts would change of a job', who, params: idParams, reply: difference, body: z.strictObject({ facts: propertyFactsSchema }) }),
  learnFacts: route({ method: 'PUT', path: '/api/jobs/:id/facts', area, summary: 'Take in what was learned of the property', who, edits: true, params: idParams, reply: z.strictObject({ id, version: z.int(), totalCents: cents, warnings }), body: z.strictObject({ facts: propertyFactsSchema }) }),
  addParty: route({ method: 'POST', path: '/api/jobs/:id/parties', area, summary: 'Put a person on a job', who, creates: true, params: idParams, reply: changed, body: party }),
  removeParty: route({ method: 'DELETE', path: '/api/jobs/:id/parties/:jobPartyId', area, summary: 'Take a person off a job', who, params: z.strictObject({ id, jobPartyId: id }), reply: changed }),
};

// Agreement texts, agreements and their signers, and the gate before a visit.
import { z } from 'zod';
import { FINGERPRINTS } from '@backsight/domain/agreements/papers';
import { CAPACITIES } from '@backsight/domain/agreements/signers';
import { day, id, idParams, instant, line, made, prose, route, warnings } from './route.ts';

export { CAPACITIES };

const OFFICE = ['owner', 'office_manager'] as const;
export const capacity = z.enum(Object.keys(CAPACITIES) as [keyof typeof CAPACITIES, ...(keyof typeof CAPACITIES)[]]);

const text = z.strictObject({
  id,
  number: z.int(),
  title: z.string(),
  body: z.string(),
  consentText: z.string(),
  inForceFrom: instant.nullable(),
  attorney: z.string().nullable(),
  attorneyOn: day.nullable(),
  recordedAt: instant,
});
export type AgreementTextShown = z.output<typeof text>;
const signature = z.strictObject({
  name: z.string().nullable(),
  sha256: z.string(),
  consentSha256: z.string(),
  method: z.enum(['link', 'on_site_device', 'paper']),
  device: z.string(),
  happenedAt: instant,
});
const signer = z.strictObject({
  id,
  partyId: id,
  name: z.string(),
  email: z.string().nullable(),
  capacity,
  authority: z.string(),
  linkEndsAt: instant,
  sentAt: instant.nullable(),
  sharedAddress: z.boolean(),
  signature: signature.nullable(),
});
export type SignerShown = z.output<typeof signer>;
const agreement = z.strictObject({
  id,
  jobId: id,
  jobNumber: z.int(),
  title: z.string(),
  consentText: z.string(),
  body: z.string(),
  sha256: z.string(),
  issuedAt: instant,
  reviewed: z.boolean(),
  supersedesId: id.nullable(),
  issues: z.int(),
  signers: z.array(signer),
});
export type AgreementShown = z.output<typeof agreement>;
const gate = z.strictObject({
  missing: z.array(z.enum(['agreement-unsigned', 'fee-unpaid', 'acknowledgement'])),
  sentences: z.array(z.string()),
  open: z.boolean(),
  overrides: z.array(z.strictObject({ id, missing: z.array(z.string()), reason: z.string(), by: z.string(), happenedAt: instant })),
});
export type GateShown = z.output<typeof gate>;

export const agreementsRoutes = {
  texts: route({
    method: 'GET',
    path: '/api/agreement-texts',
    area: 'agreements',
    summary: 'Agreement texts, newest first',
    who: ['owner', 'office_manager', 'lead_inspector'],
    reply: z.array(text),
  }),
  approve: route({
    method: 'POST',
    path: '/api/agreement-texts/:id/attorney',
    area: 'agreements',
    summary: 'Record that an attorney approved a text',
    who: ['owner'],
    creates: true,
    params: idParams,
    body: z.strictObject({ attorney: line(160), on: day }),
    reply: made,
  }),
  ofJob: route({
    method: 'GET',
    path: '/api/jobs/:id/agreement',
    area: 'agreements',
    summary: 'The newest agreement of a job',
    who: 'signed_in',
    params: idParams,
    reply: z.strictObject({ agreement: agreement.nullable() }),
  }),
  issue: route({
    method: 'POST',
    path: '/api/jobs/:id/agreement',
    area: 'agreements',
    summary: 'Issue the agreement of a job',
    who: OFFICE,
    creates: true,
    params: idParams,
    body: z.strictObject({}),
    reply: z.strictObject({ agreementId: id, warnings }),
  }),
  sendAgain: route({
    method: 'POST',
    path: '/api/signers/:id/link',
    area: 'agreements',
    summary: 'Send a fresh link',
    who: OFFICE,
    creates: true,
    params: idParams,
    body: z.strictObject({ asked: z.boolean() }),
    reply: made,
  }),
  changeSigner: route({
    method: 'PUT',
    path: '/api/signers/:id',
    area: 'agreements',
    summary: 'Say in which capacity somebody signs',
    who: OFFICE,
    params: idParams,
    body: z.strictObject({ capacity, authority: z.string().trim().max(300) }),
    reply: made,
  }),
  signOnSite: route({
    method: 'POST',
    path: '/api/signers/:id/signature',
    area: 'agreements',
    summary: "Record a signature on paper or on the pair's device",
    who: 'signed_in',
    creates: true,
    params: idParams,
    body: z.strictObject({ id, method: z.enum(['paper', 'on_site_device']), name: line(120), consent: z.boolean() }),
    reply: made,
  }),
  gate: route({
    method: 'GET',
    path: '/api/visits/:id/gate',
    area: 'agreements',
    summary: 'What is missing before a visit may start',
    who: 'signed_in',
    params: idParams,
    reply: gate,
  }),
  overrideGate: route({
    method: 'POST',
    path: '/api/visits/:id/gate-override',
    area: 'agreements',
    summary: 'Let a visit start although something is missing',
    who: ['owner', 'lead_inspector'],
    creates: true,
    params: idParams,
    body: z.strictObject({ id, reason: prose(1000) }),
    reply: z.strictObject({ id, missing: z.array(z.string()) }),
  }),
  paper: route({
    method: 'GET',
    path: '/api/agreements/:id/paper',
    area: 'agreements',
    summary: 'An agreement as a paper (PDF): the sealed one with its signing record once it is signed',
    who: 'signed_in',
    params: idParams,
    reply: z.unknown(),
  }),
  fingerprint: route({
    method: 'GET',
    path: '/api/fingerprints/:sha256',
    area: 'agreements',
    summary: 'What kind of paper a SHA-256 is the fingerprint of, and since when; names nobody',
    who: 'anyone',
    params: z.strictObject({ sha256: z.string().regex(/^[0-9a-f]{64}$/, 'must be 64 hexadecimal digits in lower case') }),
    reply: z.strictObject({ known: z.boolean(), kind: z.enum(FINGERPRINTS).nullable(), day: day.nullable(), superseded: z.boolean() }),
    requestsPerMinute: 30,
  }),
};

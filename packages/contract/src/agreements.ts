// Agreements and their signers, and the gate before a visit.
import { z } from 'zod';
import { FINGERPRINTS } from '@backsight/domain/agreements/papers';
import { CAPACITIES } from '@backsight/domain/agreements/signers';
import { LONGEST_DRAWING } from '@backsight/domain/shared/strokes';
import { day, id, idParams, instant, line, made, prose, route, warnings } from './route.ts';

export { CAPACITIES };

/** Base64 of 15 MB and the rest of the request. */
const UPLOAD = 22 * 1024 * 1024;
const upload = z.strictObject({
  name: line(120),
  base64: z
    .string()
    .max(UPLOAD)
    .regex(/^[A-Za-z0-9+/]+={0,2}$/, 'Choose the file once more: it did not arrive whole.'),
});
const OFFICE = ['owner', 'office_manager'] as const;
export const capacity = z.enum(Object.keys(CAPACITIES) as [keyof typeof CAPACITIES, ...(keyof typeof CAPACITIES)[]]);

const signature = z.strictObject({
  name: z.string().nullable(),
  sha256: z.string(),
  consentSha256: z.string(),
  method: z.enum(['link', 'on_site_device', 'paper']),
  device: z.string(),
  happenedAt: instant,
  /** Later than `happenedAt` where a device had no signal. */
  recordedAt: instant,
  /** The drawn signature: strokes of x, y pairs in a field of 600 by 200, as JSON. */
  strokes: z.string().nullable(),
  interpreter: z.string().nullable(),
  /** The word of the PDF that was typed: proof that the format can be opened. */
  formatWord: z.string(),
  photoSha256: z.string().nullable(),
  keptWhere: z.string(),
});
const answer = z.strictObject({ kind: z.enum(['declined', 'wants_paper']), reason: z.string().nullable(), happenedAt: instant });
const changes = z.array(z.strictObject({ was: z.string().nullable(), now: z.string().nullable() }));
export type AgreementChange = z.output<typeof changes>[number];
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
  sharedWith: z.string(),
  linkRevokedAt: instant.nullable(),
  authoritySha256: z.string().nullable(),
  authorityFile: z.string().nullable(),
  /** What the client said instead of signing, the last of it. */
  answer: answer.nullable(),
  wantsPaper: z.boolean(),
  /** The word that the PDF shows to this signer. */
  word: z.string(),
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
  /** Those before it, newest first, each with what the one after it changed. */
  earlier: z.array(
    z.strictObject({
      id,
      sha256: z.string(),
      issuedAt: instant,
      signed: z.array(z.strictObject({ name: z.string(), at: instant, late: z.boolean() })),
      changes,
    }),
  ),
  sealed: z.strictObject({ sha256: z.string(), at: instant }).nullable(),
});
export type AgreementShown = z.output<typeof agreement>;
const gate = z.strictObject({
  missing: z.array(z.enum(['agreement-unsigned', 'fee-unpaid', 'acknowledgement'])),
  sentences: z.array(z.string()),
  /** Told, and no reason to wait. */
  warnings: z.array(z.string()),
  open: z.boolean(),
  overrides: z.array(z.strictObject({ id, missing: z.array(z.string()), reason: z.string(), by: z.string(), happenedAt: instant })),
});
export type GateShown = z.output<typeof gate>;

export const agreementsRoutes = {
  ofJob: route({
    method: 'GET',
    path: '/api/jobs/:id/agreement',
    area: 'agreements',
    summary: 'The newest agreement of a job',
    who: 'signed_in',
    of: 'job',
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
    of: 'signer',
    creates: true,
    params: idParams,
    bodyLimit: UPLOAD,
    body: z.strictObject({
      id,
      method: z.enum(['paper', 'on_site_device']),
      name: line(120),
      read: z.boolean().default(false),
      consent: z.boolean(),
      sha256: z.string().max(64).default(''),
      word: z.string().max(40).default(''),
      strokes: z.string().max(LONGEST_DRAWING).default(''),
      interpreter: z.string().trim().max(120).default(''),
      photo: upload.nullable().default(null),
      keptWhere: z.string().trim().max(200).default(''),
      signedAt: instant.nullable().default(null),
    }),
    reply: z.strictObject({ id, late: z.boolean() }),
  }),
  preview: route({
    method: 'GET',
    path: '/api/jobs/:id/agreement/preview',
    area: 'agreements',
    summary: 'What issuing the agreement now would change, and who would have to sign again',
    who: OFFICE,
    params: idParams,
    reply: z.strictObject({
      first: z.boolean(),
      same: z.boolean(),
      changes,
      signers: z.array(z.string()),
      signAgain: z.array(z.string()),
    }),
  }),
  keptLinks: route({
    method: 'GET',
    path: '/api/jobs/:id/agreement/links',
    area: 'agreements',
    summary: 'Whether mail leaves, and, where it does not, the private links of those who have not signed, to pass on by hand',
    who: OFFICE,
    params: idParams,
    reply: z.strictObject({ mailLeaves: z.boolean(), links: z.array(z.strictObject({ signerId: id, link: z.string() })) }),
  }),
  revokeLink: route({
    method: 'POST',
    path: '/api/signers/:id/link/revocation',
    area: 'agreements',
    summary: 'Take a private link back',
    who: OFFICE,
    creates: true,
    params: idParams,
    body: z.strictObject({}),
    reply: made,
  }),
  fileAuthority: route({
    method: 'POST',
    path: '/api/signers/:id/authority',
    area: 'agreements',
    summary: 'File the paper that lets somebody sign for another',
    who: OFFICE,
    creates: true,
    params: idParams,
    bodyLimit: UPLOAD,
    body: z.strictObject({ file: upload }),
    reply: made,
  }),
  signerFile: route({
    method: 'GET',
    path: '/api/signers/:id/files/:which',
    area: 'agreements',
    summary: "The paper of a signer's authority, or the photo of the paper that was signed",
    who: ['owner', 'office_manager', 'lead_inspector'],
    params: z.strictObject({ id, which: z.enum(['authority', 'photo']) }),
    reply: z.unknown(),
  }),
  gate: route({
    method: 'GET',
    path: '/api/visits/:id/gate',
    area: 'agreements',
    summary: 'What is missing before a visit may start',
    who: 'signed_in',
    of: 'visit',
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
    of: 'agreement',
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

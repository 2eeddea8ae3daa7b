// Taking in: how it came, photos, links to earlier ones, advice in danger, answers to questions, and the client's own report.
import { z } from 'zod';
import { CAUGHT_BY, CLIENT_MATTERS, DANGERS, LINKS, SYSTEMS, WAYS } from '@backsight/domain/callbacks/intakeWords';
import { day, id, idParams, instant, line, made, prose, route, warnings, wholeMinute } from '../route.ts';
import { kindSchema, oneOf, state } from './shapes.ts';

export { CAUGHT_BY, DANGERS, SYSTEMS, WAYS } from '@backsight/domain/callbacks/intakeWords';
export { CLIENT_MATTERS } from '@backsight/domain/callbacks/intakeWords';
export { MOST_CLIENT_PHOTOS } from '@backsight/domain/callbacks/clientReport';

const DESK = ['owner', 'lead_inspector', 'office_manager'] as const;
const danger = oneOf(DANGERS);
const link = z.strictObject({ to: id, kind: oneOf(LINKS) });
/** Base64 of 25 MB and of a JPEG of up to 6 MB. */
const ORIGINAL = 35_000_000;
const JPEG = 8_400_000;
const photoBody = {
  id: id.toLowerCase(),
  name: line(200),
  /** The untouched file in base64. */
  original: z.string().min(1).max(ORIGINAL),
  /** The picture as a JPEG in base64, with HEIC alone. */
  jpeg: z.string().max(JPEG).nullable().default(null),
};
const photoParams = z.strictObject({ id, photoId: id });
const bodyLimit = ORIGINAL + JPEG + 10_000;
const done = z.strictObject({ id, state, version: z.int(), warnings });
const said = prose(4000);

/** What the intake takes besides the facts of the callback itself. */
export const cameIn = {
  dangers: z.array(danger).max(4).optional(),
  /** A mail that the office logs: `reference` is its message reference, else its subject. It was received when it came. */
  mail: z.strictObject({ sender: z.email().max(200), cameAt: wholeMinute, reference: line(400) }).optional(),
  link: link.optional(),
  stepKey: line(100).optional(),
  caughtBy: oneOf(CAUGHT_BY).optional(),
};

const earlier = z.strictObject({
  id,
  number: z.int(),
  kind: kindSchema,
  state,
  system: z.string(),
  place: z.string(),
  words: z.string().nullable(),
  receivedAt: instant,
  jobNumber: z.int(),
});
export type EarlierCallback = z.output<typeof earlier>;

const intakeOf = z.strictObject({
  way: oneOf(WAYS).nullable(),
  dangers: z.array(danger),
  mail: z.strictObject({ sender: z.string(), reference: z.string() }).nullable(),
  step: z.string().nullable(),
  caughtBy: oneOf(CAUGHT_BY).nullable(),
  /** The one that this is the same as, or came back after. */
  sameAs: earlier.nullable(),
  cameBackAfter: earlier.nullable(),
  duplicates: z.array(earlier),
  cameBackAs: z.array(earlier),
  /** Of this one and of what is the same as it; `number` tells which. `by`: null is the client. */
  photos: z.array(
    z.strictObject({ id, number: z.int(), name: z.string(), by: z.string().nullable(), at: instant, mayOpenOriginal: z.boolean() }),
  ),
});
export type CallbackIntake = z.output<typeof intakeOf>;

const advice = z.strictObject({
  danger,
  words: z.string(),
  /** Flesch-Kincaid grade level. */
  grade: z.number(),
  /** null: the wording that ships with the service, which no owner has approved yet. */
  approved: z.strictObject({ by: z.string(), at: instant }).nullable(),
});
export type SafetyAdvice = z.output<typeof advice>;
const allAdvice = z.strictObject({
  advice: z.array(advice),
  /** Approved wordings, newest first. */
  history: z.array(z.strictObject({ danger, words: z.string(), by: z.string(), at: instant })),
});

const report = {
  /** The secret end of the private link. */
  token: z.string().min(1).max(100),
  id,
};

export const intakeRoutes = {
  earlier: route({
    method: 'GET',
    path: '/api/callbacks/jobs/:id/earlier',
    area: 'callbacks',
    summary: 'What was brought before about the property of a job, to link to',
    who: DESK,
    params: idParams,
    reply: z.array(earlier),
  }),
  steps: route({
    method: 'GET',
    path: '/api/callbacks/jobs/:id/steps',
    area: 'callbacks',
    summary: 'Steps that were handed out on a job, for a near-miss',
    who: 'signed_in',
    of: 'job',
    params: idParams,
    reply: z.array(z.strictObject({ stepKey: z.string(), title: z.string(), system: z.string() })),
  }),
  came: route({
    method: 'GET',
    path: '/api/callbacks/:id/intake',
    area: 'callbacks',
    summary: 'How it came in, its photos, and what it is linked to',
    who: DESK,
    params: idParams,
    reply: intakeOf,
  }),
  link: route({
    method: 'POST',
    path: '/api/callbacks/:id/link',
    area: 'callbacks',
    summary: 'Link it to an earlier one of the property: the same, or came back',
    who: DESK,
    params: idParams,
    creates: true,
    body: z.strictObject({ link, words: said.optional() }),
    reply: done,
  }),
  unlink: route({
    method: 'POST',
    path: '/api/callbacks/:id/link/undo',
    area: 'callbacks',
    summary: 'Take a wrong link back, with the reason',
    who: DESK,
    params: idParams,
    creates: true,
    body: z.strictObject({ words: said }),
    reply: done,
  }),
  changeJob: route({
    method: 'POST',
    path: '/api/callbacks/:id/job',
    area: 'callbacks',
    summary: 'It was taken in under the wrong job: the right one, with the reason; not once something was decided, signed or paid',
    who: DESK,
    params: idParams,
    creates: true,
    body: z.strictObject({ jobId: id, words: said }),
    reply: done,
  }),
  answer: route({
    method: 'POST',
    path: '/api/callbacks/:id/answer',
    area: 'callbacks',
    summary: 'Answer a question: by mail where there is an address, else as it was said; it is closed then',
    who: DESK,
    params: idParams,
    creates: true,
    body: z.strictObject({ words: said }),
    reply: done,
  }),
  sendLink: route({
    method: 'POST',
    path: '/api/callbacks/jobs/:id/link',
    area: 'callbacks',
    summary: 'Mail a client a fresh private link, to report it in writing and with photos; the link before it ends',
    who: DESK,
    params: idParams,
    creates: true,
    body: z.strictObject({ partyId: id }),
    reply: made,
  }),
  addPhoto: route({
    method: 'POST',
    path: '/api/callbacks/:id/photos',
    area: 'callbacks',
    summary: 'Add a photo that came with it (JPEG, PNG, WebP, HEIC), up to 25 MB, once however often it is sent',
    who: DESK,
    params: idParams,
    creates: true,
    bodyLimit,
    body: z.strictObject(photoBody),
    reply: made,
  }),
  photo: route({
    method: 'GET',
    path: '/api/callbacks/:id/photos/:photoId',
    area: 'callbacks',
    summary: 'A photo as its copy (JPEG): upright, up to 2000 points a side or up to 480, without where and how it was taken',
    who: DESK,
    params: photoParams,
    query: z.strictObject({ size: z.enum(['full', 'small']).default('full') }),
    reply: z.unknown(),
  }),
  original: route({
    method: 'GET',
    path: '/api/callbacks/:id/photos/:photoId/original',
    area: 'callbacks',
    summary: 'The photo as it was sent, byte for byte',
    who: ['owner', 'lead_inspector'],
    params: photoParams,
    reply: z.unknown(),
  }),
  advice: route({
    method: 'GET',
    path: '/api/safety-advice',
    area: 'callbacks',
    summary: 'What is said to somebody in danger, and who approved the words',
    who: 'signed_in',
    reply: allAdvice,
  }),
  approveAdvice: route({
    method: 'POST',
    path: '/api/safety-advice/:danger',
    area: 'callbacks',
    summary: 'Approve the words for a danger; they count from now on',
    who: ['owner'],
    params: z.strictObject({ danger }),
    creates: true,
    body: z.strictObject({ id, words: z.string().trim().max(2000) }),
    reply: z.strictObject({ id, warnings }),
  }),
  report: route({
    method: 'POST',
    path: '/api/client/reports',
    area: 'callbacks',
    summary: 'Report a problem or ask a question as the client of a private link',
    who: 'anyone',
    creates: true,
    requestsPerMinute: 30,
    body: z.strictObject({
      ...report,
      matter: oneOf(CLIENT_MATTERS),
      system: oneOf(SYSTEMS),
      place: line(200),
      since: day.optional(),
      dangers: z.array(danger).max(4),
      hope: z.string().trim().max(400),
      words: said,
    }),
    reply: z.strictObject({ id, number: z.int() }),
  }),
  reportPhoto: route({
    method: 'POST',
    path: '/api/client/reports/photos',
    area: 'callbacks',
    summary: 'Add a photo to an own report, as the client of a private link',
    who: 'anyone',
    creates: true,
    requestsPerMinute: 60,
    bodyLimit,
    body: z.strictObject({ token: report.token, reportId: id, ...photoBody }),
    reply: made,
  }),
};

// Photos and spoken notes of a site record: how they come from the phone, how they are looked at and listened to, and how an owner opens an original.
import { z } from 'zod';
import { NEAR, type NearProperty } from '@backsight/domain/sitework/nearby';
import { id, instant, line, made, prose, route } from '../route.ts';

const near = z.enum(Object.keys(NEAR) as [NearProperty, ...NearProperty[]]);

/** A photo as the record knows it: `by` has it on the phone, `entries` name it; `mayLook`: whether the caller may see it. */
export const recordPhoto = z.strictObject({
  id,
  entries: z.array(id),
  by: id,
  state: z.enum(['here', 'on_its_way', 'lost']),
  takenAt: instant.nullable(),
  near: near.nullable(),
  nearLimitM: z.int().nullable(),
  originalSha256: z.string().nullable(),
  copySha256: z.string().nullable(),
  /** Why it will not come. */
  lost: z.string().nullable(),
  mayLook: z.boolean(),
});
export type RecordPhoto = z.output<typeof recordPhoto>;

/** A spoken note as the record knows it; as a photo, it may be on its way, and never come. */
export const spokenNote = recordPhoto
  .omit({ near: true, nearLimitM: true, originalSha256: true, copySha256: true })
  .extend({ seconds: z.int().nullable(), sha256: z.string().nullable() });
export type SpokenNote = z.output<typeof spokenNote>;

/** When an owner opened an original, and why. */
export const photoOpening = z.strictObject({ id, photoId: id, by: z.string(), reason: z.string().nullable(), at: instant });

/** Base64 of 25 MB and of a JPEG of up to 6 MB. */
const ORIGINAL = 35_000_000;
const JPEG = 8_400_000;

/** Base64 of 2 MB. */
const SOUND = 2_800_000;

const announced = { id: id.toLowerCase(), entryId: id, takenAt: instant, deviceId: id.optional(), sentAt: instant.optional() };
const photoParams = z.strictObject({ id, photoId: id });

export const photoRoutes = {
  add: route({
    method: 'POST',
    path: '/api/records/:id/photos',
    area: 'sitework',
    summary:
      'Send a photo that an entry of the record names: the file as it was taken (JPEG, PNG, WebP, HEIC), up to 25 MB, once however often it is sent',
    who: 'signed_in',
    of: 'record',
    params: z.strictObject({ id }),
    creates: true,
    bodyLimit: ORIGINAL + JPEG + 10_000,
    body: z.strictObject({
      ...announced,
      name: line(200),
      /** The untouched file in base64. */
      original: z.string().min(1).max(ORIGINAL),
      /** The picture as a JPEG in base64, with HEIC alone. */
      jpeg: z.string().max(JPEG).nullable().default(null),
    }),
    reply: made.extend({ near, nearLimitM: z.int() }),
  }),
  copy: route({
    method: 'GET',
    path: '/api/records/:id/photos/:photoId',
    area: 'sitework',
    summary: 'A photo as its copy (JPEG): upright, up to 2000 points a side or up to 480, without where and how it was taken',
    who: 'signed_in',
    of: 'record',
    params: photoParams,
    query: z.strictObject({ size: z.enum(['full', 'small']).default('full') }),
    reply: z.unknown(),
  }),
  open: route({
    method: 'POST',
    path: '/api/records/:id/photos/:photoId/openings',
    area: 'sitework',
    summary: 'Say why the original of a photo is opened; kept for ever',
    who: ['owner'],
    params: photoParams,
    creates: true,
    body: z.strictObject({ id, reason: prose(1000) }),
    reply: made,
  }),
  original: route({
    method: 'GET',
    path: '/api/records/:id/photos/:photoId/original',
    area: 'sitework',
    summary: 'The original of a photo, byte for byte, within 15 minutes of saying why',
    who: ['owner'],
    params: photoParams,
    query: z.strictObject({ opening: id }),
    reply: z.unknown(),
  }),
  addSpoken: route({
    method: 'POST',
    path: '/api/records/:id/spoken-notes',
    area: 'sitework',
    summary:
      'Send a spoken note that an entry of the record names: the sound as it was recorded (WebM, MP4 or Ogg), up to 2 MB and 3 minutes, once however often it is sent',
    who: 'signed_in',
    of: 'record',
    params: z.strictObject({ id }),
    creates: true,
    bodyLimit: SOUND + 10_000,
    body: z.strictObject({
      ...announced,
      /** As the phone counted them. */
      seconds: z.int().min(1).max(180),
      /** The file in base64. */
      original: z.string().min(1).max(SOUND),
    }),
    reply: made,
  }),
  spoken: route({
    method: 'GET',
    path: '/api/records/:id/spoken-notes/:photoId',
    area: 'sitework',
    summary: 'A spoken note as it was recorded',
    who: 'signed_in',
    of: 'record',
    params: photoParams,
    reply: z.unknown(),
  }),
};

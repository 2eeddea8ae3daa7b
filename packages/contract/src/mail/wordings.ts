// The firm's wordings of its mail.
import { z } from 'zod';
import { MAIL_KINDS } from '@backsight/domain/mail/templates';
import { day, id, instant, line, made, prose, route } from '../route.ts';

const OFFICE = ['owner', 'office_manager'] as const;
const area = 'mail';
const kind = z.enum(MAIL_KINDS);
const text = z.string();
const wording = z.strictObject({
  kind,
  title: text,
  subject: text,
  body: text,
  builtIn: z.boolean(),
  /** Who reviewed the words that count; they are then locked. */
  review: z.strictObject({ attorney: text, on: day }).nullable(),
  /** `optional` may be empty for a job; `must` has to stand in the text. */
  fields: z.array(z.strictObject({ name: text, about: text, optional: z.boolean(), must: z.boolean() })),
  /** Newest first; no words: back to the built-in wording. */
  history: z.array(
    z.strictObject({
      ...{ id, subject: text.nullable(), body: text.nullable(), attorney: text.nullable(), attorneyOn: day.nullable() },
      ...{ recordedBy: text, recordedAt: instant },
    }),
  ),
});
export type WordingShown = z.output<typeof wording>;
const words = { subject: line(200), body: prose(10_000) };
/** The attorney who reviewed the new words; needed where the words that count are locked. */
const review = z
  .strictObject({ attorney: line(160), on: day })
  .nullable()
  .default(null);
const params = z.strictObject({ kind });

export const wordingRoutes = {
  list: route({
    method: 'GET',
    path: '/api/mail/wordings',
    area,
    summary: 'Every kind of mail with its wording, fields and history',
    who: OFFICE,
    reply: z.array(wording),
  }),
  change: route({
    method: 'POST',
    path: '/api/mail/wordings/:kind',
    area,
    summary: 'Word a kind of mail anew',
    who: OFFICE,
    creates: true,
    params,
    body: z.strictObject({ ...words, review }),
    reply: made,
  }),
  reset: route({
    method: 'POST',
    path: '/api/mail/wordings/:kind/built-in',
    area,
    summary: 'Go back to the built-in wording',
    who: OFFICE,
    creates: true,
    params,
    body: z.strictObject({ review }),
    reply: made,
  }),
  preview: route({
    method: 'POST',
    path: '/api/mail/wordings/:kind/preview',
    area,
    summary: 'How a wording would read for a job; nothing is kept or sent',
    who: OFFICE,
    params,
    body: z.strictObject({ ...words, jobId: id }),
    reply: z.strictObject({ subject: text, body: text, html: text }),
  }),
};

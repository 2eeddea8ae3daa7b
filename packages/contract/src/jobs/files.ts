// Files of everything of one job, made for a request of records or a dispute.
import { z } from 'zod';
import { day, id, idParams, instant, line, prose, route } from '../route.ts';

const text = z.string();
const who = ['owner', 'office_manager'] as const;
const file = z.strictObject({
  id,
  forWhom: text,
  reason: text,
  /** Whether conclusions and money of callbacks are in it. */
  opinions: z.boolean(),
  name: text,
  fileSha256: text,
  pages: z.int(),
  parts: z.array(z.strictObject({ title: text, page: z.int(), sha256: text.nullable() })),
  heldBack: z.array(z.strictObject({ what: text, why: text })),
  by: text,
  recordedAt: instant,
  /** Null: every page says that it is for review only. */
  review: z.strictObject({ reviewer: text, on: day, by: text }).nullable(),
});
export type JobFile = z.output<typeof file>;

const item = z.strictObject({ key: text, what: text });
export type FileItem = z.output<typeof item>;
/** Held back by hand: the key of an item, and why. */
const withheld = z
  .array(z.strictObject({ key: z.string().min(1).max(120), why: prose(400) }))
  .max(500)
  .default([]);

export const jobFileRoutes = {
  items: route({
    method: 'GET',
    path: '/api/jobs/:id/file-items',
    area: 'jobs',
    summary: 'What goes into the file of a job and may be held back by hand, with reasons that are often given',
    who: ['owner'],
    params: idParams,
    reply: z.strictObject({ reasons: z.array(text), items: z.array(item) }),
  }),
  review: route({
    method: 'POST',
    path: '/api/job-files/:id/review',
    area: 'jobs',
    summary: 'Say that the attorney reviewed a file: it then goes out as it was made',
    who: ['owner'],
    creates: true,
    params: idParams,
    body: z.strictObject({ reviewer: line(160), reviewedOn: day }),
    reply: z.strictObject({ id }),
  }),
  list: route({
    method: 'GET',
    path: '/api/jobs/:id/files',
    area: 'jobs',
    summary: 'The files that were made of a job, with their parts and what was held back',
    who,
    params: idParams,
    reply: z.array(file),
  }),
  make: route({
    method: 'POST',
    path: '/api/jobs/:id/files',
    area: 'jobs',
    summary: 'Make a file of everything of a job for an attorney to review: pages numbered, fingerprints, what is held back and why',
    who,
    creates: true,
    params: idParams,
    body: z.strictObject({ id, forWhom: line(160), reason: prose(1000), opinions: z.boolean().default(false), withheld }),
    reply: z.strictObject({ id, sha256: text, pages: z.int() }),
  }),
  file: route({
    method: 'GET',
    path: '/api/job-files/:id',
    area: 'jobs',
    summary: 'A file of a job (PDF): as it was made once it was reviewed, before that a copy that says so on every page',
    who,
    params: idParams,
    reply: z.unknown(),
  }),
};

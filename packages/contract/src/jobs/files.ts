// Files of everything of one job, made for a request of records or a dispute.
import { z } from 'zod';
import { id, idParams, instant, line, prose, route } from '../route.ts';

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
});
export type JobFile = z.output<typeof file>;

export const jobFileRoutes = {
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
    body: z.strictObject({ id, forWhom: line(160), reason: prose(1000), opinions: z.boolean().default(false) }),
    reply: z.strictObject({ id, sha256: text, pages: z.int() }),
  }),
  file: route({
    method: 'GET',
    path: '/api/job-files/:id',
    area: 'jobs',
    summary: 'A file of a job as it was made (PDF)',
    who,
    params: idParams,
    reply: z.unknown(),
  }),
};

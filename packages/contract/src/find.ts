// The go-to box: one search over everything that somebody may see.
import { z } from 'zod';
import { instant, line, route } from './route.ts';

const item = z.strictObject({
  kind: z.enum(['property', 'client', 'job', 'callback', 'step', 'person']),
  /** Where it leads: a job, the list of jobs by words, a callback, a step (`of`) of a procedure, somebody of the firm. */
  thing: z.strictObject({ kind: z.enum(['job', 'jobs', 'callback', 'step', 'person']), id: z.string(), of: z.string().optional() }),
  title: z.string(),
  /** One line of what stands around it; of a text the piece that holds the words. */
  about: z.string(),
  /** In words: of a job its state, of a callback open or closed, else empty. */
  state: z.string(),
  at: instant.nullable(),
});
export type FoundItem = z.output<typeof item>;

export const findRoutes = {
  find: route({
    method: 'GET',
    path: '/api/find',
    area: 'find',
    summary: 'Properties, clients, jobs, callbacks, steps and people by words or a number, as far as whoever asks may see them',
    who: 'signed_in',
    query: z.strictObject({ q: line(100) }),
    /** `near`: nothing has these words; these are spelled nearly so. */
    reply: z.strictObject({ items: z.array(item), near: z.boolean() }),
  }),
};

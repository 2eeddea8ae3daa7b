// A batch of entries, of which some may be unreadable: those are told apart, so that they keep no other out.
import type { z } from 'zod';
import { newEntry, type siteworkRoutes } from '../sitework.ts';
import type { BodyOf } from '../route.ts';

type Given = BodyOf<typeof siteworkRoutes.enter>['entries'];
export type Unreadable = { id: string; field: string; why: string };

/** Entries as they are taken in, and what is wrong with the others. */
export function readBatch(given: Given): { entries: z.output<typeof newEntry>[]; unreadable: Unreadable[] } {
  const entries: z.output<typeof newEntry>[] = [];
  const unreadable: Unreadable[] = [];
  for (const one of given) {
    const read = newEntry.safeParse(one);
    if (read.success) entries.push(read.data);
    else {
      const [issue] = read.error.issues;
      unreadable.push({ id: one.id, field: issue?.path.join('.') ?? '', why: issue?.message ?? '' });
    }
  }
  return { entries, unreadable };
}

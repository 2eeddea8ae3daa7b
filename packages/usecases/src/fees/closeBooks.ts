// Closes the books through the end of a month, or opens months again; each with a reason that is kept.
import { decideClosing, decideReopening } from '@backsight/domain/fees/books';
import { accept, type Outcome } from '@backsight/domain/shared/outcome';
import { listClosings, lockBooks, newestClosing, saveClosing } from '@backsight/store/fees/books';
import type { Reader } from '@backsight/store/database';
import { FIRM_THING, localDay } from '../firm/steps/localDay.ts';
import type { Act, Work } from '../run.ts';

export type BooksClosed = { through: string | null };

async function keep(work: Work, id: string, closing: { through: string | null; reason: string }): Promise<Outcome<BooksClosed>> {
  if (work.actor.kind !== 'person') throw new Error('only a person closes the books');
  await saveClosing(work.tx, { ...closing, id, recordedBy: work.actor.id, at: work.now });
  await work.did('firm', FIRM_THING, { booksClosedThrough: closing.through });
  return accept({ through: closing.through });
}

/** Refusals: closing-not-a-month, month-not-over, month-closed. */
export const closeBooks: Act<{ id: string; through: string; reason: string }, BooksClosed> = {
  operation: 'fees.close_books',
  run: async (work, { id, through, reason }) => {
    await lockBooks(work.tx);
    const { today } = await localDay(work.tx, work.now);
    const decided = decideClosing(through, (await newestClosing(work.tx))?.through ?? null, today);
    return decided.ok ? keep(work, id, { through, reason }) : decided;
  },
};

/** Opens the month of a day and every later one. Refusal: month-open. */
export const reopenBooks: Act<{ id: string; from: string; reason: string }, BooksClosed> = {
  operation: 'fees.reopen_books',
  run: async (work, { id, from, reason }) => {
    await lockBooks(work.tx);
    const decided = decideReopening(from, (await newestClosing(work.tx))?.through ?? null);
    return decided.ok ? keep(work, id, { ...decided.value, reason }) : decided;
  },
};

/** Through which day the books are closed, and every closing and reopening, newest first. */
export async function readBooks(reader: Reader) {
  const acts = await listClosings(reader);
  return { through: acts[0]?.through ?? null, acts: acts.map((one) => ({ ...one, recordedAt: one.recordedAt.toISOString() })) };
}

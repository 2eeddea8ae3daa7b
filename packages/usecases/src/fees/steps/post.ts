// The one way into the ledger.
import { entryDay } from '@backsight/domain/fees/books';
import { balanced, type EntryKind, type LedgerLine } from '@backsight/domain/fees/ledger';
import { saveEntry } from '@backsight/store/fees';
import { closedThrough } from '@backsight/store/fees/books';
import type { Work } from '../../run.ts';

export type EntryToPost = {
  kind: EntryKind;
  happenedOn: string;
  memo: string;
  lines: readonly LedgerLine[];
  reversesId?: string;
  id?: string;
};

/**
 * Posts one entry and answers its id. Debit positive, credit negative, whole cents. `memo` is kept for ever: no personal words.
 * `id` may be given where the entry shall carry the id of what caused it. An entry of a day whose books are closed stands on the first open day,
 * with the real day beside it.
 * `closed` is the day through which the books are closed, where that was asked for already in this transaction.
 * @throws Error when the lines do not sum to 0.
 */
export async function postEntry(work: Work, entry: EntryToPost, closed?: string | null): Promise<string> {
  balanced(entry.lines);
  const id = entry.id ?? work.newId();
  const actorId = work.actor.kind === 'person' ? work.actor.id : null;
  const day = entryDay(entry.happenedOn, closed === undefined ? await closedThrough(work.tx) : closed);
  await saveEntry(work.tx, { ...entry, ...day, id, actorId, at: work.now });
  return id;
}

// Searches of lists that a person gave a name: own ones alone are seen and changed. A name may say much of somebody: it is in no audit row.
import { MOST_SEARCHES, type SearchedList } from '@backsight/domain/people/keptSearches';
import { accept, refuse, type Outcome } from '@backsight/domain/shared/outcome';
import type { Reader } from '@backsight/store/database';
import { addKeptSearch, deleteKeptSearch, listKeptSearches, renameKeptSearch } from '@backsight/store/people/keptSearches';
import type { Act, Actor, Work } from '../run.ts';

type Made = { id: string };
const KIND = 'kept-search';
const gone = () => refuse('not-found', { thing: 'kept search' });

export type KeptSearchInput = { id: string; list: SearchedList; name: string; search: string };

/** Nobody who is no person of the firm keeps any. */
const ownId = (actor: Actor): string | null => (actor.kind === 'person' ? actor.id : null);

export async function readKeptSearches(reader: Reader, actor: Actor) {
  const own = ownId(actor);
  return own === null ? [] : ((await listKeptSearches(reader, own)) as KeptSearchInput[]);
}

export const keepSearch: Act<KeptSearchInput, Made> = { operation: 'people.keep-search', run: keep };

async function keep(work: Work, input: KeptSearchInput): Promise<Outcome<Made>> {
  const personId = ownId(work.actor);
  if (personId === null) return gone();
  if ((await listKeptSearches(work.tx, personId)).length >= MOST_SEARCHES) return refuse('searches-full', { most: MOST_SEARCHES });
  await addKeptSearch(work.tx, { ...input, personId, recordedAt: work.now });
  await work.did(KIND, input.id, { list: input.list });
  return accept({ id: input.id });
}

export const renameSearch: Act<{ id: string; name: string }, Made> = { operation: 'people.rename-search', run: rename };

async function rename(work: Work, { id, name }: { id: string; name: string }): Promise<Outcome<Made>> {
  const personId = ownId(work.actor);
  if (personId === null || !(await renameKeptSearch(work.tx, { id, personId, name }))) return gone();
  await work.did(KIND, id);
  return accept({ id });
}

export const deleteSearch: Act<Made, Made> = { operation: 'people.delete-search', run: remove };

async function remove(work: Work, { id }: Made): Promise<Outcome<Made>> {
  const personId = ownId(work.actor);
  if (personId === null || !(await deleteKeptSearch(work.tx, id, personId))) return gone();
  await work.did(KIND, id, { deleted: true });
  return accept({ id });
}

// What is half typed on a site screen: kept per person on the phone with every letter, so that a killed browser loses none of it.
import { useReducer } from 'react';
import { useMe } from '../people.ts';
import { phone } from './store.ts';

const LONGEST = 7 * 86_400_000;
const drafts = new Map<string, unknown>();
const nameOf = (personId: string, recordId: string, place: string): string => `${personId} ${recordId} ${place}`;

/** Call once before the first screen. What nobody came back to for a week is dropped. */
export async function loadDrafts(): Promise<void> {
  const db = await phone();
  for (const { name, value, at } of await db.getAll('drafts')) {
    if (at > Date.now() - LONGEST) drafts.set(name, value);
    else await db.delete('drafts', name);
  }
}

/** What cannot be written down stays on the screen all the same. */
async function write(name: string, value: unknown): Promise<void> {
  const db = await phone();
  if (value === undefined) await db.delete('drafts', name);
  else await db.put('drafts', { name, value, at: Date.now() });
}

function put(name: string, value: unknown): void {
  if (value === undefined) drafts.delete(name);
  else drafts.set(name, value);
  write(name, value).catch(() => undefined);
}

/** What was typed at these places of a record, and at places whose names begin so, is kept as entries now. */
export function dropDrafts(personId: string, recordId: string, places: readonly string[]): void {
  const done = places.map((place) => nameOf(personId, recordId, place));
  for (const name of drafts.keys()) if (done.some((begin) => name.startsWith(begin))) put(name, undefined);
}

export type Drafts<T> = {
  of: (place: string) => T;
  change: (place: string, part: Partial<T>) => void;
  has: (place: string) => boolean;
  end: (place: string) => void;
};

/** Forms of a record whose state outlives the page; each belongs to a place, and ends when an entry of that place is kept. */
export function useDrafts<T extends object>(recordId: string, blank: T): Drafts<T> {
  const { id } = useMe();
  const [, show] = useReducer((times: number) => times + 1, 0);
  const of = (place: string): T => ({ ...blank, ...(drafts.get(nameOf(id, recordId, place)) as Partial<T> | undefined) });
  const putAt = (place: string, value: T | undefined): void => {
    put(nameOf(id, recordId, place), value);
    show();
  };
  const change = (place: string, part: Partial<T>): void => putAt(place, { ...of(place), ...part });
  return { of, change, has: (place) => drafts.has(nameOf(id, recordId, place)), end: (place) => putAt(place, undefined) };
}

/** One such form: what is typed, a change of it, and its end once that is kept. */
export function useDraft<T extends object>(recordId: string, place: string, blank: T): [T, (part: Partial<T>) => void, () => void] {
  const drafts = useDrafts(recordId, blank);
  return [drafts.of(place), (part) => drafts.change(place, part), () => drafts.end(place)];
}

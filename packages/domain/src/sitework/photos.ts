// Photos and spoken notes of a record: which ones its entries name, which have come, and which are still on their way.
import type { KnownAct } from './act.ts';

/** What is known of an entry that may name photos. */
export type NamingEntry = { id: string; writtenBy: string; photos: readonly string[]; spoken: readonly string[] };
/** A photo, or a spoken note, by the entry that named it first; its person has it on the phone. `entries`: all that name it, corrections among them. */
export type NamedPhoto = { id: string; by: string; entries: string[]; spoken: boolean };

/** Every photo and spoken note that the entries name, in their order. */
export function namedPhotos(entries: readonly NamingEntry[]): NamedPhoto[] {
  const found = new Map<string, NamedPhoto>();
  for (const { id: entryId, writtenBy: by, photos, spoken } of entries) {
    for (const id of [...photos, ...spoken]) {
      const known = found.get(id);
      if (known) known.entries.push(entryId);
      else found.set(id, { id, by, entries: [entryId], spoken: spoken.includes(id) });
    }
  }
  return [...found.values()];
}

/** Photos that were said never to come, each with the newest act that says so. */
export function lostPhotos(acts: readonly KnownAct[]): Map<string, KnownAct> {
  return new Map(acts.flatMap((known) => (known.act.do === 'photo_lost' ? [[known.act.photo, known] as const] : [])));
}

/** Named, not come, and not said to be lost: the seal waits for these. */
export function photosToCome(named: readonly NamedPhoto[], come: ReadonlySet<string>, acts: readonly KnownAct[]): NamedPhoto[] {
  const lost = lostPhotos(acts);
  return named.filter(({ id }) => !come.has(id) && !lost.has(id));
}

/** What was taken of somebody who was hurt is for the owner alone, as are the words about it. */
export const ofInjury = (photo: Pick<NamedPhoto, 'entries'>, acts: readonly KnownAct[]): boolean =>
  acts.some(({ id, act }) => act.do === 'damage' && act.what === 'injury' && photo.entries.includes(id));

// What still misses before a site record can be sealed, and what is filled in when a visit ended early.
import { placeOf, type KnownEntry } from './value.ts';

export const ENDINGS = {
  complete: 'complete',
  refused_at_the_door: 'refused at the door',
  nobody_came: 'nobody came',
  stopped_for_safety: 'stopped by the pair for safety',
  stopped_by_client: 'stopped by the client',
} as const;
export type EndedAs = keyof typeof ENDINGS;

export type SealPlace = { stepKey: string; itemId: string | null; partnerCheck: boolean };
export type SealFacts = { places: readonly SealPlace[]; entries: readonly KnownEntry[]; pair: readonly string[]; endedAs: EndedAs | null };

/** `person` is the member whose entry misses; null where either may record it. */
export type MissingEntry = { stepKey: string; itemId: string | null; person: string | null };
export type Missing =
  | ({ kind: 'entry' } & MissingEntry)
  /** Nothing of this member has reached the service. */
  | { kind: 'member'; person: string }
  /** Nobody has said yet how the visit ended. */
  | { kind: 'ending' };

/** Places without an entry; at a partner-checked place one for each member that has recorded nothing. */
export function missingEntries({ places, entries, pair }: Omit<SealFacts, 'endedAs'>): MissingEntry[] {
  const anybody = new Set(entries.map(placeOf));
  const byPerson = new Set(entries.map((entry) => `${entry.observedBy}/${placeOf(entry)}`));
  return places.flatMap((place): MissingEntry[] => {
    const { stepKey, itemId } = place;
    if (!place.partnerCheck) return anybody.has(placeOf(place)) ? [] : [{ stepKey, itemId, person: null }];
    return pair.filter((person) => !byPerson.has(`${person}/${placeOf(place)}`)).map((person) => ({ stepKey, itemId, person }));
  });
}

/** Everything that stands in the way of the seal; empty when the record may be sealed. */
export function missingToSeal(facts: SealFacts): Missing[] {
  const heard = new Set(facts.entries.map(({ observedBy }) => observedBy));
  const silent = facts.endedAs === 'complete' ? facts.pair.filter((person) => !heard.has(person)) : [];
  return [
    ...(facts.endedAs === null ? [{ kind: 'ending' } as const] : []),
    ...silent.map((person) => ({ kind: 'member', person }) as const),
    ...missingEntries(facts).map((entry) => ({ kind: 'entry', ...entry }) as const),
  ];
}

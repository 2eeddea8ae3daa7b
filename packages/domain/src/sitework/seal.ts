// What still misses before a site record can be sealed, and what is filled in when a visit ended early.
import type { KnownAct } from './act.ts';
import { endedEarly, type EndedAs } from './endedAs.ts';
import { insideNow } from './inside.ts';
import { stillOpen } from './restore.ts';
import { unsigned } from './signOff.ts';
import { placeOf, type KnownEntry } from './value.ts';

export type SealPlace = { stepKey: string; itemId: string | null; partnerCheck: boolean };
type EntryFacts = {
  places: readonly SealPlace[];
  entries: readonly Pick<KnownEntry, 'stepKey' | 'itemId' | 'observedBy'>[];
  pair: readonly string[];
  /** Null while the visit goes on. */
  endedAs: EndedAs | null;
};
export type SealFacts = EntryFacts & {
  acts: readonly KnownAct[];
  /** Everything that was written down, steps and acts alike. */
  written: readonly { writtenBy: string; order: string }[];
  /** Photos that were named, neither come nor lost, each with the one whose phone has it. */
  photosToCome: readonly { id: string; by: string }[];
  /** Partner checks in which the answers differ. */
  differing: readonly { stepKey: string; itemId: string | null }[];
};

/** `person` is the member whose entry misses; null where either may record it. */
export type MissingEntry = { stepKey: string; itemId: string | null; person: string | null };
export type Missing =
  | ({ kind: 'entry' } & MissingEntry)
  /** Nothing of this member has reached the service. */
  | { kind: 'member'; person: string }
  /** Nobody has said yet how the visit ended. */
  | { kind: 'ending' }
  /** This member has not signed off, or wrote something afterwards. */
  | { kind: 'sign_off'; person: string }
  /** Not as it was found, and client and office were not told. */
  | { kind: 'not_restored'; ref: string }
  /** Went in and has not come out. */
  | { kind: 'inside'; person: string }
  /** A photo is still on its way from the phone of this member. */
  | { kind: 'photo'; ref: string; person: string }
  /** The answers of a partner check differ and nobody has settled it. */
  | { kind: 'disagreement'; stepKey: string; itemId: string | null };

/**
 * Places without an entry; at a partner-checked place one for each member that has recorded nothing. A visit that ended early has ended for good:
 * nobody can make a second look any more, so that one entry is enough wherever it is, whosever. One that comes in late is taken all the same.
 */
export function missingEntries({ places, entries, pair, endedAs }: EntryFacts): MissingEntry[] {
  const lookedTwice = !endedEarly(endedAs);
  const anybody = new Set(entries.map(placeOf));
  const byPerson = new Set(entries.map((entry) => `${entry.observedBy}/${placeOf(entry)}`));
  return places.flatMap((place): MissingEntry[] => {
    const { stepKey, itemId } = place;
    if (!place.partnerCheck || !lookedTwice) return anybody.has(placeOf(place)) ? [] : [{ stepKey, itemId, person: null }];
    return pair.filter((person) => !byPerson.has(`${person}/${placeOf(place)}`)).map((person) => ({ stepKey, itemId, person }));
  });
}

/** People who are still inside, and things that are not as they were found: neither visit nor record is closed over them. */
export const leftBehind = (acts: readonly KnownAct[]): Missing[] => [
  ...insideNow(acts).map(({ person }) => ({ kind: 'inside', person }) as const),
  ...stillOpen(acts).map(({ ref }) => ({ kind: 'not_restored', ref }) as const),
];

/** Everything that stands in the way of the seal; empty when the record may be sealed. */
export function missingToSeal(facts: SealFacts): Missing[] {
  const heard = new Set(facts.entries.map(({ observedBy }) => observedBy));
  const whole = facts.endedAs === 'complete';
  const silent = whole ? facts.pair.filter((person) => !heard.has(person)) : [];
  const unsettled = facts.differing.filter(
    ({ stepKey, itemId }) => !facts.acts.some(({ act }) => act.do === 'settled' && act.stepKey === stepKey && act.item === itemId),
  );
  return [
    ...(facts.endedAs === null ? [{ kind: 'ending' } as const] : []),
    ...silent.map((person) => ({ kind: 'member', person }) as const),
    ...missingEntries(facts).map((entry) => ({ kind: 'entry', ...entry }) as const),
    ...unsettled.map((place) => ({ kind: 'disagreement', ...place }) as const),
    ...leftBehind(facts.acts),
    ...facts.photosToCome.map(({ id, by }) => ({ kind: 'photo', ref: id, person: by }) as const),
    ...(whole ? unsigned(facts.acts, facts.pair, facts.written).map((person) => ({ kind: 'sign_off', person }) as const) : []),
  ];
}

// The independent second look: each member records alone; nobody sees the other's answer before giving one.
// A second look that knows the first adds nothing: reviews of double checking found no fewer errors where one tells the
// other ("Applied Ergonomics" 106, 2023, 103906); that it helps when done blind is derived from that, not measured.
import type { Evidence } from '../procedures/step.ts';
import { endedEarly, type EndedAs } from './endedAs.ts';
import { differenceOf } from './entry.ts';
import { standingEntries } from './standing.ts';
import { isFilled, placeOf, type EntryEvidence, type KnownEntry } from './value.ts';

export type CheckedPlace = { stepKey: string; itemId: string | null; evidence: Evidence };
/** not_compared: words and photos, which only people can compare. */
export type Comparison = 'agree' | 'differ' | 'not_compared';
/** one_look: the visit ended before the other of the pair could look. The one answer stands, and there is nothing to settle. */
export type PairResult = Comparison | 'one_look';

/**
 * What others saw at partner-checked places, which `viewer` may not see before an own look there.
 * A step that danger closed may be opened again: who then goes must not know the partner's answer, so what the service filled in for the viewer
 * opens nothing. It stays so after a visit that was done to the end, which still waits for the viewer's word. A visit that ended early has ended
 * for good: nobody looks any more, so there is nothing left to keep apart, and the pair may read what there is before it is sealed. Entries that
 * the service filled in for others are nobody's look and tell nothing: they are shown.
 */
export function withheldFrom<E extends KnownEntry>(
  viewer: string,
  places: readonly { stepKey: string; itemId: string | null }[],
  entries: readonly E[],
  endedAs: EndedAs | null,
): E[] {
  if (endedEarly(endedAs)) return [];
  const checked = new Set(places.map(placeOf));
  const looks = entries.filter((entry) => checked.has(placeOf(entry)) && !isFilled(entry));
  const looked = new Set(looks.filter(({ observedBy }) => observedBy === viewer).map(placeOf));
  return looks.filter((entry) => entry.observedBy !== viewer && !looked.has(placeOf(entry)));
}

type Range = { expectedFrom?: number; expectedTo?: number };
const sideOf = (value: number, range: Range): number =>
  value < (range.expectedFrom ?? -Infinity) ? -1 : value > (range.expectedTo ?? Infinity) ? 1 : 0;

/** Without a range two readings agree within a tenth of the larger: the firm's own rule, no published one. */
const sameReading = (a: number, b: number, range: Range): boolean => {
  const bounded = range.expectedFrom !== undefined || range.expectedTo !== undefined;
  return bounded ? sideOf(a, range) === sideOf(b, range) : Math.abs(a - b) <= Math.max(Math.abs(a), Math.abs(b)) / 10;
};

const sameEvidence = (a: EntryEvidence, b: EntryEvidence, asked: Evidence): Comparison => {
  const range: Range = asked.kind === 'reading' || asked.kind === 'difference' ? asked : {};
  if ([a.kind, b.kind].some((kind) => kind === 'note' || kind === 'photo')) return 'not_compared';
  if (a.kind === 'reading' && b.kind === 'reading') return sameReading(a.value, b.value, range) ? 'agree' : 'differ';
  if (a.kind === 'difference' && b.kind === 'difference') return sameReading(differenceOf(a), differenceOf(b), range) ? 'agree' : 'differ';
  if (a.kind === 'count' && b.kind === 'count') return a.count === b.count ? 'agree' : 'differ';
  if (a.kind === 'choice' && b.kind === 'choice') return a.option === b.option ? 'agree' : 'differ';
  return a.kind === b.kind ? 'agree' : 'differ';
};

type Answer = Pick<KnownEntry, 'outcome' | 'evidence'>;

/** Whether two answers to what one step asks are the same. */
export const compareTwo = (a: Answer, b: Answer, asked: Evidence): Comparison => {
  if (a.outcome !== b.outcome) return 'differ';
  return a.evidence === null || b.evidence === null ? 'agree' : sameEvidence(a.evidence, b.evidence, asked);
};

/**
 * Compares the standing entries wherever both members have looked. What the service filled in is nobody's look: beside an answer it says that
 * the second look was not made, and two of them say nothing. Other places are left out; so is one where danger keeps the second from looking,
 * since that is waited for until the visit ends. After an early end every answer without another beside it is the one look.
 */
export function comparePlaces(
  places: readonly CheckedPlace[],
  pair: readonly string[],
  entries: readonly KnownEntry[],
  endedAs: EndedAs | null,
): { stepKey: string; itemId: string | null; result: PairResult }[] {
  const standing = standingEntries(entries);
  return places.flatMap((place) => {
    const here = standing.filter((entry) => pair.includes(entry.observedBy) && placeOf(entry) === placeOf(place));
    const [a, b] = here.filter((entry) => !isFilled(entry));
    if (!a || (!b && here.length < 2 && !endedEarly(endedAs))) return [];
    return [{ stepKey: place.stepKey, itemId: place.itemId, result: b ? compareTwo(a, b, place.evidence) : 'one_look' }];
  });
}

/** How many of the newest sealed records are counted when somebody asks how often two looks differ: years of them would say little more and take long. */
export const RECORDS_LOOKED_AT = 500;

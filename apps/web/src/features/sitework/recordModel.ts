// The record as this phone knows it: what the service has, and what still waits here.
import type { MemberRecord, SiteEntry, SiteStep } from '@backsight/contract/sitework';
import type { KnownAct } from '@backsight/domain/sitework/act';
import { isFilled, placeOf } from '@backsight/domain/sitework/value';
import { sayEntry } from '@backsight/domain/sitework/say';
import type { Row as Waiting } from '../../api/phone/store.ts';

type Shown = Pick<
  SiteEntry,
  'id' | 'stepKey' | 'itemId' | 'outcome' | 'evidence' | 'reason' | 'note' | 'match' | 'observedBy' | 'writtenBy'
> & { sent: boolean; filled?: boolean };

/** The record with things that were found here and that the service does not know of yet. */
export function withAdded(record: MemberRecord, waiting: readonly Waiting[]): MemberRecord {
  const known = new Set([...record.items.map(({ id }) => id), ...record.aliases.map(({ id }) => id)]);
  const added = waiting.flatMap(({ what, state }) => (what.kind === 'act' && what.adds && state !== 'refused' ? [what.adds] : []));
  const items = added.flatMap((one) => one.items).filter(({ id }) => !known.has(id));
  if (items.length === 0) return record;
  const fresh = new Set(items.map(({ id }) => id));
  const steps = added.flatMap((one) => one.steps).filter(({ itemId }) => itemId !== null && fresh.has(itemId));
  return { ...record, items: [...record.items, ...items], steps: [...record.steps, ...steps] };
}

/** Standing entries at each place; one that waits takes the place of what its person recorded before. */
export function entriesByPlace(record: MemberRecord, waiting: readonly Waiting[]): Map<string, Shown[]> {
  const places = new Map<string, Shown[]>();
  const put = (entry: Shown) => {
    const key = placeOf(entry);
    places.set(key, [...(places.get(key) ?? []).filter(({ observedBy }) => observedBy !== entry.observedBy), entry]);
  };
  for (const entry of record.entries) put({ ...entry, sent: true });
  const known = new Set(record.entries.map(({ id }) => id));
  for (const { supersedesId } of record.entries) if (supersedesId) known.add(supersedesId); // its answer may have been lost on the way
  for (const { what, state } of waiting) {
    if (what.kind !== 'entry' || state === 'refused') continue;
    if (known.has(what.entry.id) || isCorrected(what.entry.id, waiting)) continue;
    const itemId = record.aliases.find(({ id }) => id === what.entry.itemId)?.standsFor ?? what.entry.itemId;
    const entry = { ...what.entry, itemId };
    put({ ...entry, match: 'not_asked', writtenBy: record.me, sent: state === 'stored' });
  }
  return places;
}

const isCorrected = (id: string, waiting: readonly Waiting[]): boolean =>
  waiting.some(({ what, state }) => what.kind === 'entry' && state !== 'refused' && what.entry.corrects?.entryId === id);

/** Whether this person has looked; what the service filled in for them is no look. */
export const hasLooked = (here: readonly Shown[], me: string): boolean => here.some((entry) => entry.observedBy === me && !isFilled(entry));

/** Whether nothing more is wanted of this person at a step. */
export const isRecorded = (step: SiteStep, here: readonly Shown[] | undefined, me: string): boolean =>
  step.partnerCheck
    ? (here ?? []).some(({ observedBy, outcome }) => observedBy === me && outcome !== 'ended_before')
    : (here ?? []).length > 0;

const HINTS: Record<string, string> = { outside: ' (outside what is usual)', differs: ' (differs from the count before)' };
export const saidAt = (step: SiteStep, entry: Shown): string => `${sayEntry(entry, step.evidence)}${HINTS[entry.match] ?? ''}`;

export const partnerOf = (record: MemberRecord): { personId: string; name: string } | null =>
  record.visit.pair.find(({ personId }) => personId !== record.me) ?? null;
export const nameOf = (record: { visit: MemberRecord['visit'] }, personId: string): string =>
  record.visit.pair.find((m) => m.personId === personId)?.name ?? 'somebody else';
export const itemName = (record: { items: MemberRecord['items'] }, itemId: string | null): string | null =>
  record.items.find(({ id }) => id === itemId)?.label ?? null;
export type { Shown };

/** Steps of partner checks in which the answers differ and nobody has settled it. */
export function differingHere(record: MemberRecord, acts: readonly KnownAct[]): SiteStep[] {
  const settled = new Set(acts.flatMap(({ act }) => (act.do === 'settled' ? [placeOf({ stepKey: act.stepKey, itemId: act.item })] : [])));
  const differ = new Set(record.comparisons.filter(({ result }) => result === 'differ').map(placeOf));
  return record.steps.filter((step) => differ.has(placeOf(step)) && !settled.has(placeOf(step)));
}

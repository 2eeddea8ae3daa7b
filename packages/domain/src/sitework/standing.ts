// Which entry of a person counts where a step has several: entries are only ever added.
import { isFilled, placeOf, type KnownEntry } from './value.ts';

/**
 * What was really looked at counts before what was filled in; and that the visit ended, which is for good, before that danger closed a step, which
 * somebody may open again: both may be filled in within one millisecond, where their order says nothing.
 */
const rank = (entry: KnownEntry): number => (isFilled(entry) ? (entry.outcome === 'ended_before' ? 1 : 0) : 2);
const weight = (entry: KnownEntry): string => `${rank(entry)}${entry.order}`;

/** The entries that count: one for each person and place, superseded ones left out, the newest of several, in the order made. */
export function standingEntries<E extends KnownEntry>(entries: readonly E[]): E[] {
  const replaced = new Set(entries.flatMap(({ supersedesId }) => supersedesId ?? []));
  const newest = new Map<string, E>();
  for (const entry of entries) {
    if (replaced.has(entry.id)) continue;
    const key = `${entry.observedBy}/${placeOf(entry)}`;
    const other = newest.get(key);
    if (!other || weight(entry) >= weight(other)) newest.set(key, entry);
  }
  const looked = new Set([...newest.values()].filter((entry) => !isFilled(entry)).map(placeOf));
  const counting = [...newest.values()].filter((entry) => entry.filled !== true || !looked.has(placeOf(entry)));
  return counting.sort((a, b) => (a.order < b.order ? -1 : 1));
}

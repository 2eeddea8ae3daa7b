/** Which page of a list, not what narrows it. */
const PLACES = ['cursor', 'before'];

/** What an address says after its path, the same for the same search whatever the order of its parts; empty where it says nothing. */
export function searchSaid(search: string): string {
  const parts = [...new URLSearchParams(search)].filter(([name]) => !PLACES.includes(name)).toSorted();
  return parts.length === 0 ? '' : `?${new URLSearchParams(parts)}`;
}

// One fixed text for a value, whatever the order of its keys: what fingerprints and seals are taken over.

/** JSON with sorted keys and without undefined values. Instants must come as ISO text. */
export const canonicalText = (value: unknown): string => JSON.stringify(sorted(value)) ?? 'null';

const sorted = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(sorted);
  if (value === null || typeof value !== 'object') return value;
  const pairs = Object.entries(value).filter(([, held]) => held !== undefined);
  return Object.fromEntries(pairs.sort(([a], [b]) => (a < b ? -1 : 1)).map(([key, held]) => [key, sorted(held)]));
};

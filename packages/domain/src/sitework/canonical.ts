// One fixed text for a value, whatever the order of its keys: what fingerprints and seals are taken over.

/** JSON with sorted keys and without undefined values. Instants must come as ISO text. */
export function canonicalText(value: unknown): string {
  if (value === null || value === undefined) return 'null';
  if (typeof value !== 'object') return JSON.stringify(value);
  if (Array.isArray(value)) return `[${value.map(canonicalText).join(',')}]`;
  const held = value as Record<string, unknown>;
  const keys = Object.keys(held)
    .filter((key) => held[key] !== undefined)
    .sort();
  return `{${keys.map((key) => `${JSON.stringify(key)}:${canonicalText(held[key])}`).join(',')}}`;
}

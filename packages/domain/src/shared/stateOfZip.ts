// The state that a ZIP code lies in, for the states whose rules are known here (first three digits, USPS; from memory).

const PREFIXES: readonly (readonly [from: number, to: number, state: string])[] = [
  [5, 5, 'US-NY'],
  [100, 149, 'US-NY'],
  [530, 549, 'US-WI'],
  [600, 629, 'US-IL'],
  [750, 799, 'US-TX'],
  [885, 885, 'US-TX'],
  [900, 961, 'US-CA'],
  [980, 994, 'US-WA'],
];

/** ISO 3166-2 code, or null for a ZIP code of another state. */
export function stateOfZip(zip: string): string | null {
  const prefix = Number(zip.slice(0, 3));
  return /^\d{5}/.test(zip) ? (PREFIXES.find(([from, to]) => from <= prefix && prefix <= to)?.[2] ?? null) : null;
}

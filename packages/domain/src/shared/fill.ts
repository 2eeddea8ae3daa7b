// Fills the {{fields}} of a text. Values are put in as they are and never looked at for fields again.

const USED = /\{\{\s*([^{}]*?)\s*\}\}/g;

/** The fields that a text uses, each once, in the order of their first use. */
export const fieldsIn = (text: string): string[] => [...new Set([...text.matchAll(USED)].map(([, name]) => name ?? ''))];

/** `known` are the fields that there are; those of `optional` may be empty and then leave nothing behind. */
export type Fields = { known: readonly string[]; optional: readonly string[] };
export type Filled = { text: string } | { unknown: string[] } | { empty: string[] };

/** The text with its values; else the fields that nobody knows, or those that are still empty. */
export function fill(text: string, { known, optional }: Fields, values: Readonly<Record<string, string | undefined>>): Filled {
  const names = fieldsIn(text);
  const unknown = names.filter((name) => !known.includes(name));
  if (unknown.length > 0) return { unknown };
  const empty = names.filter((name) => !optional.includes(name) && !values[name]?.trim());
  if (empty.length > 0) return { empty };
  const body = text.replace(USED, (_, name: string) => values[name]?.trim() ?? '');
  return { text: body.replace(/\n{3,}/g, '\n\n').trim() };
}

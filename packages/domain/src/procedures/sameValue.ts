// Whether two plain values say the same, whatever the order of their keys.

const isObject = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null && !Array.isArray(value);

const named = (value: Record<string, unknown>): string[] => Object.keys(value).filter((key) => value[key] !== undefined);

/** Deep equality of JSON values; an undefined member counts as absent. */
export const sameValue = (a: unknown, b: unknown): boolean => {
  if (Array.isArray(a) && Array.isArray(b)) return a.length === b.length && a.every((item, at) => sameValue(item, b[at]));
  if (!isObject(a) || !isObject(b)) return Object.is(a, b);
  return named(a).length === named(b).length && named(a).every((key) => sameValue(a[key], b[key]));
};

// Filters that may be left out. A statement is prepared once and its plan kept; one that says "$2 IS NULL OR kind = $2" would be planned
// for both cases at once, which no index can serve, so that a search walks the whole table. Each set of filters that are given is
// therefore a statement of its own, in which the planner sees which of them count.

/** Where nothing stands before the parameter that would take it for its own: `$1 || $2 IS NULL` asks about both. */
const LEFT_OUT = /(?<=\(|\b(?:OR|AND|WHERE|WHEN|NOT)\s)\$(\d+)(?:::\w+(?:\[\])?)?(?: ->> '(\w+)')? IS (NOT )?NULL/g;
/** Statements without such a filter, which most are. */
const plain = new Set<string>();

/** A part of filters that come as one JSON text. */
const partOf = (json: string, part: string): unknown => (JSON.parse(json) as Record<string, unknown>)[part] ?? null;

/** The statement for these parameters: the same rows, with what is left out decided before it is planned. */
export function asGiven(sql: string, params: readonly unknown[]): string {
  if (plain.has(sql)) return sql;
  let found = false;
  const decided = sql.replace(LEFT_OUT, (words, number: string, part: string | undefined, not: string | undefined) => {
    found = true;
    const given = params[Number(number) - 1] ?? null;
    const value = part !== undefined && typeof given === 'string' ? partOf(given, part) : given;
    // the words stay, because they say of which type the parameter is
    return (value === null) === (not === undefined) ? `(true OR ${words})` : `(false AND ${words})`;
  });
  if (!found) plain.add(sql);
  return decided;
}

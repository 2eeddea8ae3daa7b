// Which entries the service filled in for somebody, for statements; as `isFilled` in domain/sitework/value.ts says of one entry.

/** SQL condition over an entry: the visit ended before somebody could look, or danger closed the step. It is nobody's look. */
export const isFilledIn = (entry: string): string => `(${entry}.outcome = 'ended_before' OR ${entry}.value -> 'closedBy' IS NOT NULL)`;

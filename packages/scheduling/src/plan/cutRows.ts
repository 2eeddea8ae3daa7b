// Cuts over three or five rows (visits and members): of any three rows, at most one can be filled by columns that take two.

/** Rows in order; a column counts half of the rows that it takes, rounded down, and all columns together at most `most`. */
export type Cut = { rows: number[]; most: number };

export const cutOf = (rows: readonly number[]): Cut => ({ rows: [...rows].sort((a, b) => a - b), most: rows.length >> 1 });

/** Coefficient of a column that takes the given rows. */
export function coefficientIn(cut: Cut, taken: readonly number[]): number {
  let hits = 0;
  for (const row of cut.rows) if (taken.includes(row)) hits++;
  return hits >> 1;
}

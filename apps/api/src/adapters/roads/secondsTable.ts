// The shape that every road service's answer comes to: whole seconds by row and column.

/** @throws Error when the table is missing or has not the rows and columns that were asked. */
export function secondsTable(rows: (number | null)[][] | undefined, from: number, to: number): (number | null)[][] {
  if (!rows || rows.length !== from || rows.some((row) => row.length !== to))
    throw new Error('the table of the answer has not the size that was asked');
  return rows.map((row) => row.map((cell) => (cell === null ? null : Math.round(cell))));
}

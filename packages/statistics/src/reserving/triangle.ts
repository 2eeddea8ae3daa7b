// Development triangles: what was known of each origin period as it ripened.
import { cannot, type NotEstimable } from '../estimate.ts';

/**
 * Cumulative amounts (cents, or counts), one row per origin period (month, quarter or year), oldest first; column k holds what was
 * known k + 1 development periods after the origin began. null is not known: trailing ones are still to come, others were never
 * kept. Rows may end at any age, but an older origin never at a younger age than the next.
 */
export type Triangle = { origins: readonly string[]; cumulative: readonly (readonly (number | null)[])[] };

/** A row without what is still to come: `latest` is its last known amount, `age` the number of periods until then. */
export type Row = { origin: string; cells: readonly (number | null)[]; age: number; latest: number };

/** From one development period to the next (counted from 1): the rows in which both are known. */
export type Step = { from: number; pairs: { origin: string; before: number; after: number }[] };

export type ReadTriangle = { ok: true; rows: Row[]; steps: Step[] } | NotEstimable;

/**
 * Reads a triangle, or says what is too little or odd in it.
 * @throws RangeError when an amount is not finite or there are not as many rows as origins
 */
export function readTriangle({ origins, cumulative }: Triangle): ReadTriangle {
  if (origins.length !== cumulative.length) throw new RangeError(`${origins.length} origins but ${cumulative.length} rows`);
  for (const [at, row] of cumulative.entries())
    for (const cell of row)
      if (cell !== null && !Number.isFinite(cell)) throw new RangeError(`amounts of ${origins[at]} must be numbers or null, got ${cell}`);
  if (origins.length < 2) return cannot('one_row', 'one origin period alone does not show how later ones ripen');
  const rows = cumulative.map((cells, at) => rowOf(origins[at]!, cells));
  return oddRow(rows) ?? readSteps(rows);
}

function rowOf(origin: string, cells: readonly (number | null)[]): Row {
  const age = cells.findLastIndex((cell) => cell !== null) + 1;
  return { origin, cells: cells.slice(0, age), age, latest: age === 0 ? 0 : cells[age - 1]! };
}

function oddRow(rows: readonly Row[]): NotEstimable | null {
  for (const [at, { origin, cells, age }] of rows.entries()) {
    if (age === 0) return cannot('empty_row', `nothing is known of ${origin}, not even that it is 0`);
    const older = rows[at - 1];
    if (older && age > older.age)
      return cannot(
        'future_period',
        `${origin} is known for ${age} periods but the older ${older.origin} for ${older.age} only: one of them has a period that is missing, or still to come`,
      );
    const negative = cells.findIndex((cell) => cell !== null && cell < 0);
    if (negative >= 0) return cannot('below_zero', `the total of ${origin} is below 0 at period ${negative + 1}`);
  }
  return null;
}

function readSteps(rows: Row[]): ReadTriangle {
  const periods = rows[0]!.age;
  if (periods < 2) return cannot('one_period', 'no origin period has been watched for longer than one period');
  const steps = Array.from({ length: periods - 1 }, (_, k): Step => ({
    from: k + 1,
    pairs: rows.flatMap(({ origin, cells }) => {
      const [before, after] = [cells[k] ?? null, cells[k + 1] ?? null];
      return before === null || after === null ? [] : [{ origin, before, after }];
    }),
  }));
  const lacking = steps.find(({ pairs }) => pairs.length === 0);
  return lacking
    ? cannot('one_row_for_factor', `no origin is known at both period ${lacking.from} and period ${lacking.from + 1}`)
    : { ok: true, rows, steps };
}

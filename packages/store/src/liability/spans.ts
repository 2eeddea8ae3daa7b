// Sums over a span of months of inspection: the difference of two cumulated sums, and what was recorded since they were made.
import { execute, type Reader, type Tx } from '../database.ts';
import type { Grouping, Measure } from './groupings.ts';

/** Months of inspection, YYYY-MM, both included. */
export type Span = { from: string; until: string };

export type ValueSum = { grouping: Grouping; value: string; measure: Measure; amount: number };

/** How many months after the first of its sum a month is. */
const after = (month: string): string =>
  `((extract(year FROM ${month})::int * 12 + extract(month FROM ${month})::int) - (extract(year FROM m.first)::int * 12 + extract(month FROM m.first)::int))`;

/** Sums by grouping, value and measure over a span of months of inspection; no row where nothing is. */
export const sumsByValue = (
  reader: Reader,
  asked: Span & { groupings: readonly Grouping[]; measures: readonly Measure[] },
): Promise<ValueSum[]> =>
  reader.rows<ValueSum>(
    `SELECT split AS grouping, value, measure, sum(amount)::bigint AS amount FROM (
       SELECT m.split, m.value, m.measure, coalesce(m.amounts[least(cardinality(m.amounts), ${after('$4::date')} + 1)], 0) - coalesce(m.amounts[least(cardinality(m.amounts), ${after('$3::date')})], 0) AS amount
         FROM span_sum m WHERE m.split = ANY ($1::text[]) AND m.measure = ANY ($2::text[])
       ${['job_figures', 'callback_figures']
         .map(
           (name) =>
             `UNION ALL SELECT l.split, l.value, l.measure, l.amount FROM figure_state s CROSS JOIN LATERAL ${name}(s.until, 'infinity', $1::text[]) l WHERE l.measure = ANY ($2::text[]) AND l.origin BETWEEN $3::date AND $4::date`,
         )
         .join('\n       ')}) every
     GROUP BY split, value, measure HAVING sum(amount) <> 0`,
    [asked.groupings, asked.measures, `${asked.from}-01`, `${asked.until}-01`],
  );

/** What follows a table expression named `every` of sums by group and month: writes them down cumulated. */
export const CUMULATE = `mine AS (SELECT split, measure, value, origin, sum(amount) AS amount FROM every GROUP BY 1, 2, 3, 4),
       ends AS (SELECT split, measure, value, min(origin) AS first, max(origin) AS last FROM mine GROUP BY 1, 2, 3),
       summed AS (SELECT e.split, e.measure, e.value, e.first, d::date AS origin, sum(m.amount) OVER (PARTITION BY e.split, e.measure, e.value ORDER BY d) AS amount
         FROM ends e CROSS JOIN LATERAL generate_series(e.first::timestamp, e.last, '1 month') d
           LEFT JOIN mine m ON m.split = e.split AND m.measure = e.measure AND m.value = e.value AND m.origin = d::date)
     INSERT INTO span_sum (split, measure, value, first, amounts) SELECT split, measure, value, first, array_agg(coalesce(amount, 0)::bigint ORDER BY origin) FROM summed GROUP BY 1, 2, 3, 4`;

/**
 * Writes anew what is known of everything recorded before `until`: cumulated by month of inspection for all groupings, and for those that
 * are shown as of a past day (`dated`) also by the month in which it became known.
 */
export async function rebuildSums(tx: Tx, until: Date, groupings: readonly Grouping[], dated: readonly Grouping[]): Promise<void> {
  await execute(tx, 'DELETE FROM figure');
  await execute(tx, 'DELETE FROM span_sum');
  await execute(
    tx,
    `WITH every AS MATERIALIZED (SELECT * FROM job_figures('-infinity', $1::timestamptz, $2::text[]) UNION ALL SELECT * FROM callback_figures('-infinity', $1::timestamptz, $2::text[])),
       kept AS (INSERT INTO figure (split, measure, value, origin, known, amount) SELECT * FROM every WHERE split = ANY ($3::text[])),
       ${CUMULATE}`,
    until.toISOString(),
    groupings,
    dated,
  );
  await execute(tx, 'DELETE FROM figure_day');
  for (const name of ['job_figures', 'callback_figures'])
    await execute(
      tx,
      `INSERT INTO figure_day (measure, origin, day, amount) SELECT measure, origin, known, amount FROM ${name}('-infinity', $1::timestamptz, ARRAY['all'], 'day')`,
      until.toISOString(),
    );
}

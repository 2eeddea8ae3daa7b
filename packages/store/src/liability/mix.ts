// Jobs and callbacks of each pair by kind of house. See migration 0037.
import { execute, type Reader, type Tx } from '../database.ts';

/** Months of inspection, YYYY-MM, both included. */
export type Span = { from: string; until: string };

/** `value`: pair, foundation and age of the house, joined by '|'. */
export type MixRow = { value: string; jobs: number; callbacks: number };

/** What was inspected in a span of months: the difference of two sums, and what was recorded since they were made. */
export const mixOf = (reader: Reader, { from, until }: Span): Promise<MixRow[]> =>
  reader.rows<MixRow>(
    `WITH since AS MATERIALIZED (SELECT until FROM figure_state),
       place AS (SELECT m.*, least(cardinality(m.jobs), (extract(year FROM $1::date)::int * 12 + extract(month FROM $1::date)::int) - (extract(year FROM m.first)::int * 12 + extract(month FROM m.first)::int)) AS before, least(cardinality(m.jobs), (extract(year FROM $2::date)::int * 12 + extract(month FROM $2::date)::int) - (extract(year FROM m.first)::int * 12 + extract(month FROM m.first)::int) + 1) AS last FROM mix_sum m)
     SELECT value, sum(jobs)::int AS jobs, sum(callbacks)::int AS callbacks FROM (
       SELECT value, coalesce(jobs[last], 0) - coalesce(jobs[before], 0) AS jobs, coalesce(callbacks[last], 0) - coalesce(callbacks[before], 0) AS callbacks FROM place
       UNION ALL SELECT l.value, l.amount, 0 FROM since s CROSS JOIN LATERAL job_figures(s.until, 'infinity', ARRAY['pair_mix']) l WHERE l.measure = 'jobs' AND l.origin BETWEEN $1::date AND $2::date
       UNION ALL SELECT l.value, 0, l.amount FROM since s CROSS JOIN LATERAL callback_figures(s.until, 'infinity', ARRAY['pair_mix']) l WHERE l.measure = 'callbacks' AND l.origin BETWEEN $1::date AND $2::date) every
     GROUP BY value HAVING sum(jobs) <> 0 OR sum(callbacks) <> 0`,
    [`${from}-01`, `${until}-01`],
  );

/** Cumulates the sums of pairs by month anew. */
export async function rebuildMix(tx: Tx): Promise<void> {
  await execute(tx, 'DELETE FROM mix_sum');
  await execute(
    tx,
    `WITH mine AS (SELECT value, origin, sum(amount) FILTER (WHERE measure = 'jobs')::int AS jobs, sum(amount) FILTER (WHERE measure = 'callbacks')::int AS callbacks
         FROM figure WHERE split = 'pair_mix' AND measure IN ('jobs', 'callbacks') GROUP BY 1, 2),
       ends AS (SELECT value, min(origin) AS first, max(origin) AS last FROM mine GROUP BY value),
       summed AS (SELECT e.value, e.first, d::date AS origin, sum(m.jobs) OVER w AS jobs, sum(m.callbacks) OVER w AS callbacks
         FROM ends e CROSS JOIN LATERAL generate_series(e.first::timestamp, e.last, '1 month') d LEFT JOIN mine m ON m.value = e.value AND m.origin = d::date WINDOW w AS (PARTITION BY e.value ORDER BY d))
     INSERT INTO mix_sum (value, first, jobs, callbacks) SELECT value, first, array_agg(coalesce(jobs, 0)::int ORDER BY origin), array_agg(coalesce(callbacks, 0)::int ORDER BY origin) FROM summed GROUP BY value, first`,
  );
}

// Times that steps applied, names of what is compared, and the way of jobs from callback to callback.
import type { Reader } from '../database.ts';
import { LINEAGE } from '../lineage.ts';
import type { Span } from './spans.ts';

export type StepTimes = { root: string; times: number };

/** Times that each line of steps applied, by the month of the visit. */
export const timesByLine = (reader: Reader, { from, until }: Span): Promise<StepTimes[]> =>
  reader.rows<StepTimes>(
    `${LINEAGE} SELECT l.root, sum(every.times)::int AS times FROM (
       SELECT step_key, month, times FROM step_figure UNION ALL SELECT f.step_key, f.month, f.times FROM figure_state s CROSS JOIN LATERAL step_figures(s.steps_until, 'infinity') f) every
       JOIN line l ON l.key = every.step_key WHERE every.month BETWEEN $1::date AND $2::date GROUP BY 1 HAVING sum(every.times) > 0`,
    [`${from}-01`, `${until}-01`],
  );

export type Named = { kind: 'service' | 'person'; key: string; name: string };

/** Names of every service and person, also of those that are no longer there. */
export const namesOfGroups = (reader: Reader): Promise<Named[]> =>
  reader.rows<Named>(`SELECT 'service' AS kind, key, name FROM service UNION ALL SELECT 'person', id::text, name FROM person`);

/** A callback and how many jobs of the span were inspected up to its own, in the order of their first visits. */
export type PlacedCallback = { number: number; place: number; inspectedOn: string; month: string };

/** Callbacks that count of jobs inspected in a span, in the order of the inspections. For spans that hold few of them. */
export const placedCallbacks = (reader: Reader, { from, until }: Span): Promise<PlacedCallback[]> =>
  reader.rows<PlacedCallback>(
    `WITH first_visit AS (
       SELECT v.job_id, min(v.starts_at) AS at, o.zone FROM visit v JOIN job j ON j.id = v.job_id AND j.kind = 'inspection' JOIN office o ON o.id = j.office_id
       WHERE v.state IN ('on_site', 'done') AND v.starts_at >= $1::date - 1 AND v.starts_at < $2::date + interval '1 month 1 day'
         AND NOT EXISTS (SELECT FROM visit e WHERE e.job_id = v.job_id AND e.state IN ('on_site', 'done') AND e.starts_at < v.starts_at) GROUP BY v.job_id, o.zone),
       inspected AS (SELECT job_id, (at AT TIME ZONE zone)::date AS day, at FROM first_visit),
       ordered AS (SELECT job_id, day, row_number() OVER (ORDER BY at, job_id)::int AS place FROM inspected WHERE day >= $1::date AND day < $2::date + interval '1 month')
     SELECT c.number, d.place, d.day::text AS "inspectedOn", to_char(d.day, 'YYYY-MM') AS month FROM ordered d JOIN callback c ON c.job_id = d.job_id
     WHERE c.kind NOT IN ('question', 'near_miss') AND c.duplicate_of IS NULL ORDER BY d.place, c.number`,
    [`${from}-01`, `${until}-01`],
  );

// What figures hold of callbacks that are for the owner alone, to be taken off for others.
import type { Reader } from '../database.ts';
import type { Figure } from './figures.ts';

/**
 * Callbacks and money that `figures` counts of files for the owner alone (by what they are now), by month of inspection and of knowing.
 * Each moment of a callback counts as in callback_figures (migration 0033).
 */
export const hiddenFigures = (reader: Reader, asOf?: Date): Promise<Figure[]> =>
  reader.rows<Figure>(
    `WITH segment AS MATERIALIZED (SELECT s.* FROM callback c CROSS JOIN LATERAL (SELECT * FROM callback_segment s WHERE s.callback_id = c.id) s WHERE c.owner_only),
       money AS MATERIALIZED (
         SELECT l.callback_id, e.recorded_at AS at, m.measure, -l.cents AS amount
         FROM callback c JOIN ledger_line l ON l.callback_id = c.id JOIN ledger_entry e ON e.id = l.entry_id
           JOIN (VALUES ('bank', 'paid'), ('recoveries', 'paid'), ('recoveries', 'recovered'), ('callback-reserve', 'reserved')) m(account, measure) ON m.account = l.account
         WHERE c.owner_only),
       change AS (
         SELECT s.job_id, x.at, x.measure, x.amount::bigint FROM segment s CROSS JOIN LATERAL (
           SELECT s.from_at AS at, 'callbacks' AS measure, 1 AS amount WHERE s.counts
           UNION ALL SELECT s.until_at, 'callbacks', -1 WHERE s.counts AND s.until_at IS NOT NULL
           UNION ALL SELECT greatest(m.at, s.from_at), m.measure, m.amount FROM money m WHERE m.callback_id = s.callback_id AND (s.until_at IS NULL OR s.until_at > m.at)
           UNION ALL SELECT s.until_at, m.measure, -m.amount FROM money m WHERE m.callback_id = s.callback_id AND s.until_at > m.at) x
         WHERE $1::timestamptz IS NULL OR x.at <= $1::timestamptz)
     SELECT c.measure, '' AS value, to_char(coalesce(i.inspected_on, j.recorded_at AT TIME ZONE f.zone), 'YYYY-MM') AS origin, to_char(c.at AT TIME ZONE f.zone, 'YYYY-MM') AS known, sum(c.amount)::bigint AS amount
     FROM change c JOIN job j ON j.id = c.job_id CROSS JOIN (SELECT zone FROM firm) f
       LEFT JOIN LATERAL (SELECT (min(v.starts_at) AT TIME ZONE o.zone)::date AS inspected_on FROM visit v JOIN office o ON o.id = j.office_id
         WHERE v.job_id = j.id AND v.state IN ('on_site', 'done') AND j.kind = 'inspection' GROUP BY o.zone) i ON true
     GROUP BY 1, 3, 4 HAVING sum(c.amount) <> 0`,
    [asOf?.toISOString() ?? null],
  );

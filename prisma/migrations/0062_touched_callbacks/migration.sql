-- What is known of callbacks since a night is worked out from what came since: their entries, their jobs and the groups of these, each looked
-- up by itself. Guessed at, the few were thought to be many, and all jobs of the firm were gone through for them.
CREATE OR REPLACE FUNCTION callback_figures(since timestamptz, until timestamptz, splits text[], grain text DEFAULT 'month') RETURNS TABLE (split text, measure text, value text, origin date, known date, amount bigint)
LANGUAGE sql STABLE AS $$
  WITH RECURSIVE line AS (
    SELECT key, key AS root FROM step_key WHERE derived_from IS NULL UNION ALL SELECT k.key, l.root FROM step_key k JOIN line l ON l.key = k.derived_from),
  touched AS MATERIALIZED (
    SELECT callback_id FROM callback_event WHERE recorded_at >= since AND recorded_at < until
    UNION SELECT callback_id FROM conclusion WHERE recorded_at >= since AND recorded_at < until
    UNION SELECT x.callback_id FROM conclusion_confirmation f JOIN conclusion x ON x.id = f.conclusion_id WHERE f.recorded_at >= since AND f.recorded_at < until
    UNION SELECT l.callback_id FROM ledger_entry e CROSS JOIN LATERAL (SELECT l.callback_id FROM ledger_line l WHERE l.entry_id = e.id AND l.callback_id IS NOT NULL OFFSET 0) l
      WHERE e.recorded_at >= since AND e.recorded_at < until),
  segment AS MATERIALIZED (SELECT s.* FROM touched t CROSS JOIN LATERAL (SELECT * FROM callback_segment s WHERE s.callback_id = t.callback_id OFFSET 0) s),
  money AS MATERIALIZED (
    SELECT l.callback_id, e.recorded_at AS at, m.measure, -l.cents AS amount
    FROM touched t CROSS JOIN LATERAL (SELECT l.callback_id, l.entry_id, l.account, l.cents FROM ledger_line l WHERE l.callback_id = t.callback_id OFFSET 0) l JOIN ledger_entry e ON e.id = l.entry_id
      JOIN (VALUES ('bank', 'paid'), ('recoveries', 'paid'), ('recoveries', 'recovered'), ('callback-reserve', 'reserved')) m(account, measure) ON m.account = l.account),
  change AS (
    SELECT s.callback_id, s.job_id, s.cause, s.step_key, x.at, x.measure, x.amount::bigint
    FROM segment s CROSS JOIN LATERAL (
      SELECT s.from_at AS at, 'callbacks' AS measure, 1 AS amount WHERE s.counts
      UNION ALL SELECT s.until_at, 'callbacks', -1 WHERE s.counts AND s.until_at IS NOT NULL
      UNION ALL SELECT s.from_at, 'failures', 1 WHERE s.counts AND s.cause IN ('skipped', 'done_wrongly', 'not_in_procedure', 'unclear')
      UNION ALL SELECT s.until_at, 'failures', -1 WHERE s.counts AND s.until_at IS NOT NULL AND s.cause IN ('skipped', 'done_wrongly', 'not_in_procedure', 'unclear')
      UNION ALL SELECT greatest(m.at, s.from_at), m.measure, m.amount FROM money m WHERE m.callback_id = s.callback_id AND (s.until_at IS NULL OR s.until_at > m.at)
      UNION ALL SELECT s.until_at, m.measure, -m.amount FROM money m WHERE m.callback_id = s.callback_id AND s.until_at > m.at) x
    WHERE x.at >= since AND x.at < until),
  grouped AS (
    SELECT c.measure, c.at, c.amount, c.job_id, g.split, g.value
    FROM change c JOIN callback b ON b.id = c.callback_id LEFT JOIN line l ON l.key = c.step_key
      CROSS JOIN LATERAL (VALUES ('all', ''), ('system', b.system), ('step', l.root), ('cause', c.cause)) g(split, value)
    WHERE g.value IS NOT NULL AND g.split = ANY (splits)
    UNION ALL
    SELECT c.measure, c.at, c.amount, c.job_id, g.split, g.value
    FROM change c CROSS JOIN LATERAL (SELECT * FROM job_group g WHERE g.job_id = c.job_id AND g.split <> 'all' AND g.split = ANY (splits) OFFSET 0) g)
  SELECT g.split, g.measure, g.value, date_trunc('month', coalesce(i.inspected_on, j.recorded_at AT TIME ZONE f.zone))::date, date_trunc(grain, g.at AT TIME ZONE f.zone)::date, sum(g.amount)::bigint
  FROM grouped g CROSS JOIN LATERAL (SELECT * FROM job j WHERE j.id = g.job_id OFFSET 0) j CROSS JOIN (SELECT zone FROM firm) f
    LEFT JOIN LATERAL (SELECT (min(v.starts_at) AT TIME ZONE o.zone)::date AS inspected_on FROM visit v JOIN office o ON o.id = j.office_id
      WHERE v.job_id = j.id AND v.state IN ('on_site', 'done') AND j.kind = 'inspection' GROUP BY o.zone) i ON true
  GROUP BY 1, 2, 3, 4, 5 HAVING sum(g.amount) <> 0
$$;

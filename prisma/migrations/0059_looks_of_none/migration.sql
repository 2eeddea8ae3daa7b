-- What the service filled in for somebody (the visit ended, or danger closed the step) is nobody's look. A place where one of the pair
-- answered is done by one, whatever was filled in for the other: it was not ended before, it could be looked at, and nobody differs.
-- Where nobody looked, what was filled in says why. Otherwise as in migration 0045.
CREATE OR REPLACE FUNCTION step_figures(since timestamptz, until timestamptz) RETURNS TABLE (step_key text, revision_id uuid, month date, times int, jobs int, judged int, met int, skipped int, could_not int, differed int)
LANGUAGE sql STABLE AS $$
  WITH RECURSIVE line AS (
    SELECT key, key AS root FROM step_key WHERE derived_from IS NULL UNION ALL SELECT k.key, l.root FROM step_key k JOIN line l ON l.key = k.derived_from),
  opened AS (
    SELECT d.id, d.state = 'sealed' AS sealed, v.job_id, date_trunc('month', v.starts_at AT TIME ZONE (SELECT zone FROM firm))::date AS month
    FROM visit v CROSS JOIN LATERAL (SELECT d.id, d.state FROM site_record d WHERE d.visit_id = v.id OFFSET 0) d JOIN job j ON j.id = v.job_id AND j.kind <> 'callback_visit'
    WHERE v.starts_at >= since AND v.starts_at < until),
  asked AS (
    SELECT DISTINCT ON (o.id, s.item_id, s.step_key) o.id AS record_id, o.sealed, o.job_id, o.month, s.step_key, s.item_id, s.revision_id
    FROM opened o CROSS JOIN LATERAL (SELECT k.id, k.number FROM site_package k WHERE k.record_id = o.id OFFSET 0) k
      CROSS JOIN LATERAL (SELECT s.step_key, s.item_id, s.revision_id FROM package_step s WHERE s.package_id = k.id OFFSET 0) s ORDER BY o.id, s.item_id, s.step_key, k.number DESC),
  standing AS (
    SELECT e.record_id, e.step_key, e.item_id, bool_or(e.outcome = 'ended_before') AND bool_and(e.filled) AS ended,
      bool_or(e.outcome IN ('could_not', 'from_opening') AND NOT e.filled) OR (bool_and(e.filled) AND bool_or(e.outcome = 'could_not')) AS could_not, bool_or(e.match = 'differs') AS differs,
      count(DISTINCT e.observed_by) FILTER (WHERE NOT e.filled) > 1 AND count(DISTINCT e.outcome || coalesce(e.value->>'evidence', '')) FILTER (WHERE NOT e.filled) > 1 AS partner_differs
    FROM opened o CROSS JOIN LATERAL (SELECT e.*, e.outcome = 'ended_before' OR e.value -> 'closedBy' IS NOT NULL AS filled FROM step_entry e WHERE e.record_id = o.id OFFSET 0) e
    WHERE o.sealed AND NOT EXISTS (SELECT FROM step_entry n WHERE n.supersedes_id = e.id) GROUP BY 1, 2, 3),
  applied AS (
    SELECT l.root, a.revision_id, a.month, a.job_id, a.sealed, bool_and(s.record_id IS NOT NULL AND NOT s.ended AND NOT s.differs) AS met, bool_or(s.record_id IS NULL OR s.ended) AS skipped,
      coalesce(bool_or(s.could_not), false) AS could_not, coalesce(bool_or(s.partner_differs), false) AS partner_differs
    FROM asked a JOIN line l ON l.key = a.step_key LEFT JOIN standing s ON s.record_id = a.record_id AND s.step_key = a.step_key AND s.item_id IS NOT DISTINCT FROM a.item_id
    GROUP BY l.root, a.revision_id, a.month, a.job_id, a.sealed, a.record_id, a.item_id)
  SELECT root, revision_id, month, count(*)::int, count(DISTINCT job_id)::int, count(*) FILTER (WHERE sealed)::int, count(*) FILTER (WHERE sealed AND met)::int,
    count(*) FILTER (WHERE sealed AND skipped)::int, count(*) FILTER (WHERE sealed AND could_not)::int, count(*) FILTER (WHERE sealed AND partner_differs)::int
  FROM applied GROUP BY 1, 2, 3
$$;

-- The sums of the steps are made anew, of all months: until then they are counted from their rows. The others hold nothing of this.
DELETE FROM step_figure;
UPDATE figure_state SET steps_until = '-infinity';

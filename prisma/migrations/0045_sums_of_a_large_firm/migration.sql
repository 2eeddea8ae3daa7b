-- What the pages of liabilities read stays as small for a hundred inspectors as for ten. Sums by month of inspection are cumulated, so
-- that a span of months is one difference; only what is shown as of a past day is kept by the month in which it became known, and
-- for all jobs together by the day. What came since is looked for from its few rows on, whatever the planner expects of the many.

-- DropTable
DROP TABLE "mix_sum";

-- CreateTable
CREATE TABLE "span_sum" (
    "split" TEXT NOT NULL,
    "measure" TEXT NOT NULL,
    "value" TEXT NOT NULL,
    "first" DATE NOT NULL,
    "amounts" BIGINT[],

    CONSTRAINT "span_sum_pkey" PRIMARY KEY ("split","measure","value")
);

-- CreateTable
CREATE TABLE "figure_day" (
    "day" DATE NOT NULL,
    "measure" TEXT NOT NULL,
    "origin" DATE NOT NULL,
    "amount" BIGINT NOT NULL,

    CONSTRAINT "figure_day_pkey" PRIMARY KEY ("day","measure","origin")
);

-- CreateTable
CREATE TABLE "week_figure" (
    "week" DATE NOT NULL,
    "jobs" INTEGER NOT NULL,
    "planned_minutes" INTEGER NOT NULL,

    CONSTRAINT "week_figure_pkey" PRIMARY KEY ("week")
);

-- ---------- rules ----------
ALTER TABLE span_sum ADD CONSTRAINT span_sum_whole CHECK (extract(day FROM first) = 1 AND cardinality(amounts) > 0);
ALTER TABLE figure_day ADD CONSTRAINT figure_day_months CHECK (extract(day FROM origin) = 1);
ALTER TABLE week_figure ADD CONSTRAINT week_figure_monday CHECK (extract(isodow FROM week) = 1);

DROP FUNCTION job_figures(timestamptz, timestamptz, text[]);
-- Jobs that became known between two instants (the second not included), by group, month of inspection and month (or day) of knowing.
CREATE FUNCTION job_figures(since timestamptz, until timestamptz, splits text[], grain text DEFAULT 'month') RETURNS TABLE (split text, measure text, value text, origin date, known date, amount bigint)
LANGUAGE sql STABLE AS $$
  WITH touched AS (
    SELECT v.job_id FROM site_record d JOIN visit v ON v.id = d.visit_id WHERE d.recorded_at >= since AND d.recorded_at < until
    UNION SELECT v.job_id FROM visit_ending e JOIN visit v ON v.id = e.visit_id WHERE e.recorded_at >= since AND e.recorded_at < until
    UNION SELECT v.job_id FROM visit v WHERE v.starts_at >= since AND v.starts_at < until AND v.state IN ('on_site', 'done'))
  SELECT g.split, m.measure, g.value, date_trunc('month', g.inspected_on)::date, date_trunc(grain, g.known_at AT TIME ZONE (SELECT zone FROM firm))::date, sum(m.amount)::bigint
  FROM touched t JOIN job_group g ON g.job_id = t.job_id CROSS JOIN LATERAL (VALUES ('jobs', 1::bigint), ('fees', g.fees)) m(measure, amount)
  WHERE g.known_at >= since AND g.known_at < until AND g.split = ANY (splits)
  GROUP BY 1, 2, 3, 4, 5
$$;

DROP FUNCTION callback_figures(timestamptz, timestamptz, text[]);
-- Callbacks, failures and money that became known between two instants. A callback of a job that was never inspected counts in the
-- month in which that job was booked, so that no cent is lost.
CREATE FUNCTION callback_figures(since timestamptz, until timestamptz, splits text[], grain text DEFAULT 'month') RETURNS TABLE (split text, measure text, value text, origin date, known date, amount bigint)
LANGUAGE sql STABLE AS $$
  WITH RECURSIVE line AS (
    SELECT key, key AS root FROM step_key WHERE derived_from IS NULL UNION ALL SELECT k.key, l.root FROM step_key k JOIN line l ON l.key = k.derived_from),
  touched AS MATERIALIZED (
    SELECT callback_id FROM callback_event WHERE recorded_at >= since AND recorded_at < until
    UNION SELECT callback_id FROM conclusion WHERE recorded_at >= since AND recorded_at < until
    UNION SELECT x.callback_id FROM conclusion_confirmation f JOIN conclusion x ON x.id = f.conclusion_id WHERE f.recorded_at >= since AND f.recorded_at < until
    UNION SELECT l.callback_id FROM ledger_entry e JOIN ledger_line l ON l.entry_id = e.id AND l.callback_id IS NOT NULL WHERE e.recorded_at >= since AND e.recorded_at < until),
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
    SELECT c.measure, c.at, c.amount, c.job_id, g.split, g.value FROM change c JOIN job_group g ON g.job_id = c.job_id AND g.split <> 'all' AND g.split = ANY (splits))
  SELECT g.split, g.measure, g.value, date_trunc('month', coalesce(i.inspected_on, j.recorded_at AT TIME ZONE f.zone))::date, date_trunc(grain, g.at AT TIME ZONE f.zone)::date, sum(g.amount)::bigint
  FROM grouped g JOIN job j ON j.id = g.job_id CROSS JOIN (SELECT zone FROM firm) f
    LEFT JOIN LATERAL (SELECT (min(v.starts_at) AT TIME ZONE o.zone)::date AS inspected_on FROM visit v JOIN office o ON o.id = j.office_id
      WHERE v.job_id = j.id AND v.state IN ('on_site', 'done') AND j.kind = 'inspection' GROUP BY o.zone) i ON true
  GROUP BY 1, 2, 3, 4, 5 HAVING sum(g.amount) <> 0
$$;

-- As in migration 0038.
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
    SELECT e.record_id, e.step_key, e.item_id, bool_or(e.outcome = 'ended_before') AS ended, bool_or(e.outcome IN ('could_not', 'from_opening')) AS could_not, bool_or(e.match = 'differs') AS differs,
      count(DISTINCT e.observed_by) > 1 AND count(DISTINCT e.outcome || coalesce(e.value->>'evidence', '')) > 1 AS partner_differs
    FROM opened o CROSS JOIN LATERAL (SELECT * FROM step_entry e WHERE e.record_id = o.id OFFSET 0) e WHERE o.sealed AND NOT EXISTS (SELECT FROM step_entry n WHERE n.supersedes_id = e.id) GROUP BY 1, 2, 3),
  applied AS (
    SELECT l.root, a.revision_id, a.month, a.job_id, a.sealed, bool_and(s.record_id IS NOT NULL AND NOT s.ended AND NOT s.differs) AS met, bool_or(s.record_id IS NULL OR s.ended) AS skipped,
      coalesce(bool_or(s.could_not), false) AS could_not, coalesce(bool_or(s.partner_differs), false) AS partner_differs
    FROM asked a JOIN line l ON l.key = a.step_key LEFT JOIN standing s ON s.record_id = a.record_id AND s.step_key = a.step_key AND s.item_id IS NOT DISTINCT FROM a.item_id
    GROUP BY l.root, a.revision_id, a.month, a.job_id, a.sealed, a.record_id, a.item_id)
  SELECT root, revision_id, month, count(*)::int, count(DISTINCT job_id)::int, count(*) FILTER (WHERE sealed)::int, count(*) FILTER (WHERE sealed AND met)::int,
    count(*) FILTER (WHERE sealed AND skipped)::int, count(*) FILTER (WHERE sealed AND could_not)::int, count(*) FILTER (WHERE sealed AND partner_differs)::int
  FROM applied GROUP BY 1, 2, 3
$$;

-- Everything is summed anew before it is read again.
DELETE FROM step_figure;
DELETE FROM figure;
UPDATE figure_state SET until = '-infinity', steps_until = '-infinity';

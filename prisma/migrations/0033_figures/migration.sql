-- Sums that the liability pages read. Every figure is a sum over rows that are only ever added, each known from when it was
-- recorded: what was recorded before the last rebuild stands summed in these tables, what came since is added when a page is read,
-- by the same functions. So a page costs the same however many years lie behind it.

-- CreateTable
CREATE TABLE "figure" (
    "split" TEXT NOT NULL,
    "measure" TEXT NOT NULL,
    "value" TEXT NOT NULL,
    "origin" DATE NOT NULL,
    "known" DATE NOT NULL,
    "amount" BIGINT NOT NULL,

    CONSTRAINT "figure_pkey" PRIMARY KEY ("split","measure","value","origin","known")
);

-- CreateTable
CREATE TABLE "step_figure" (
    "step_key" TEXT NOT NULL,
    "revision_id" UUID NOT NULL,
    "month" DATE NOT NULL,
    "times" INTEGER NOT NULL,
    "jobs" INTEGER NOT NULL,
    "judged" INTEGER NOT NULL,
    "met" INTEGER NOT NULL,
    "skipped" INTEGER NOT NULL,
    "could_not" INTEGER NOT NULL,
    "differed" INTEGER NOT NULL,

    CONSTRAINT "step_figure_pkey" PRIMARY KEY ("step_key","revision_id","month")
);

-- CreateTable
CREATE TABLE "figure_state" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "until" TIMESTAMPTZ(3) NOT NULL DEFAULT '-infinity',
    "steps_until" TIMESTAMPTZ(3) NOT NULL DEFAULT '-infinity',

    CONSTRAINT "figure_state_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "callback_event_recorded_at_idx" ON "callback_event"("recorded_at");

-- CreateIndex
CREATE INDEX "conclusion_recorded_at_idx" ON "conclusion"("recorded_at");

-- CreateIndex
CREATE INDEX "conclusion_confirmation_recorded_at_idx" ON "conclusion_confirmation"("recorded_at");

-- CreateIndex
CREATE INDEX "ledger_entry_recorded_at_idx" ON "ledger_entry"("recorded_at");

-- CreateIndex
CREATE INDEX "site_record_recorded_at_idx" ON "site_record"("recorded_at");

-- CreateIndex
CREATE INDEX "visit_ending_recorded_at_idx" ON "visit_ending"("recorded_at");

-- ---------- rules ----------
ALTER TABLE figure_state ADD CONSTRAINT figure_state_one CHECK (id = 1);
INSERT INTO figure_state DEFAULT VALUES;
ALTER TABLE figure ADD CONSTRAINT figure_months CHECK (extract(day FROM origin) = 1 AND extract(day FROM known) = 1);
ALTER TABLE step_figure ADD CONSTRAINT step_figure_months CHECK (extract(day FROM month) = 1);
-- The conditions of the day, one entry of a record among eighty.
CREATE INDEX step_entry_conditions ON step_entry (record_id) WHERE (value->'act'->>'do') = 'conditions';
-- The lines of callbacks among those of all fees.
CREATE INDEX ledger_line_of_callbacks ON ledger_line (entry_id) WHERE callback_id IS NOT NULL;

CREATE AGGREGATE jsonb_merge(jsonb) (SFUNC = jsonb_concat, STYPE = jsonb, INITCOND = '{}');

-- A job whose inspection took place: its first visit, the pair of it, and what is known of the house.
CREATE VIEW inspected_job AS
SELECT j.id AS job_id, (v.starts_at AT TIME ZONE o.zone)::date AS inspected_on, coalesce(d.recorded_at, e.recorded_at, v.starts_at) AS known_at,
  CASE WHEN jsonb_typeof(j.facts->'foundation') = 'array' AND j.facts->'foundation' <> '[]'
    THEN (SELECT string_agg(one, '+' ORDER BY one) FROM jsonb_array_elements_text(j.facts->'foundation') one) ELSE 'unknown' END AS foundation,
  CASE WHEN jsonb_typeof(j.facts->'yearBuilt') <> 'number' OR NOT j.facts ? 'yearBuilt' THEN 'unknown'
    WHEN age.years < 10 THEN '0-9' WHEN age.years < 30 THEN '10-29' WHEN age.years < 60 THEN '30-59' WHEN age.years < 100 THEN '60-99' ELSE '100+' END AS age,
  coalesce((SELECT CASE e.value->'act'->>'rain48' WHEN 'none' THEN 'dry' WHEN 'some' THEN 'wet' WHEN 'heavy' THEN 'wet' END
    FROM step_entry e WHERE e.record_id = d.id AND e.value->'act'->>'do' = 'conditions' ORDER BY e.recorded_at DESC, e.id DESC LIMIT 1), 'unknown') AS rain,
  ARRAY(SELECT a.person_id::text FROM assignment a WHERE a.visit_id = v.id ORDER BY 1) AS people,
  ARRAY(SELECT s.service_key FROM job_service s WHERE s.job_id = j.id ORDER BY 1) AS services,
  (SELECT coalesce(sum(f.cents), 0) FROM job_fee_line f WHERE f.job_id = j.id AND f.withdrawn_at IS NULL)::bigint AS fees
FROM job j JOIN office o ON o.id = j.office_id
  JOIN LATERAL (SELECT v.id, v.starts_at FROM visit v WHERE v.job_id = j.id AND v.state IN ('on_site', 'done') ORDER BY v.starts_at, v.id LIMIT 1) v ON true
  LEFT JOIN site_record d ON d.visit_id = v.id LEFT JOIN visit_ending e ON e.visit_id = v.id
  CROSS JOIN LATERAL (SELECT extract(year FROM v.starts_at AT TIME ZONE o.zone)::int - CASE WHEN jsonb_typeof(j.facts->'yearBuilt') = 'number' THEN (j.facts->>'yearBuilt')::int END AS years) age
WHERE j.kind = 'inspection';

-- The same once for each group that the job belongs to.
CREATE VIEW job_group AS
SELECT i.job_id, i.inspected_on, i.known_at, i.fees, g.split, g.value
FROM inspected_job i CROSS JOIN LATERAL (
  SELECT * FROM (VALUES ('all', ''), ('foundation', i.foundation), ('age', i.age), ('rain', i.rain), ('pair', array_to_string(i.people, '+')),
    ('pair_mix', array_to_string(i.people, '+') || '|' || i.foundation || '|' || i.age)) fixed(split, value)
  UNION ALL SELECT 'service', one FROM unnest(i.services) one
  UNION ALL SELECT 'person', one FROM unnest(i.people) one
  UNION ALL SELECT 'person_mix', one || '|' || i.foundation || '|' || i.age FROM unnest(i.people) one) g;

-- What a callback was from one moment to the next: on which job, whether it counts, and which step is blamed. A conclusion takes the
-- place of the one before; one that must be confirmed blames nothing until it is.
CREATE VIEW callback_segment AS
WITH said AS (
  SELECT callback_id, recorded_at AS at, 0 AS kind, seq, details AS change FROM callback_event WHERE kind IN ('received', 'became_callback', 'linked', 'unlinked', 'moved')
  UNION ALL
  SELECT callback_id, recorded_at, 1, 0, CASE WHEN needs_confirmation THEN '{"cause": null, "step": null}' ELSE jsonb_build_object('cause', cause, 'step', step_key) END FROM conclusion
  UNION ALL
  SELECT x.callback_id, f.recorded_at, 2, 0, jsonb_build_object('cause', x.cause, 'step', x.step_key)
  FROM conclusion_confirmation f JOIN conclusion x ON x.id = f.conclusion_id AND x.needs_confirmation
  WHERE NOT EXISTS (SELECT FROM conclusion n WHERE n.callback_id = x.callback_id AND n.recorded_at > x.recorded_at AND n.recorded_at <= f.recorded_at)),
told AS (
  SELECT callback_id, at, lead(at) OVER w AS until_at, jsonb_merge(change) OVER w AS state
  FROM said WINDOW w AS (PARTITION BY callback_id ORDER BY at, kind, seq))
SELECT callback_id, at AS from_at, until_at, (state->>'jobId')::uuid AS job_id,
  state->>'kind' NOT IN ('question', 'near_miss') AND state->>'duplicateOfId' IS NULL AS counts, state->>'cause' AS cause, state->>'step' AS step_key
FROM told;

-- Jobs that became known between two instants (the second not included), by group, month of inspection and month of knowing.
CREATE FUNCTION job_figures(since timestamptz, until timestamptz, splits text[]) RETURNS TABLE (split text, measure text, value text, origin date, known date, amount bigint)
LANGUAGE sql STABLE AS $$
  WITH touched AS (
    SELECT v.job_id FROM site_record d JOIN visit v ON v.id = d.visit_id WHERE d.recorded_at >= since AND d.recorded_at < until
    UNION SELECT v.job_id FROM visit_ending e JOIN visit v ON v.id = e.visit_id WHERE e.recorded_at >= since AND e.recorded_at < until
    UNION SELECT v.job_id FROM visit v WHERE v.starts_at >= since AND v.starts_at < until AND v.state IN ('on_site', 'done'))
  SELECT g.split, m.measure, g.value, date_trunc('month', g.inspected_on)::date, date_trunc('month', g.known_at AT TIME ZONE (SELECT zone FROM firm))::date, sum(m.amount)::bigint
  FROM touched t JOIN job_group g ON g.job_id = t.job_id CROSS JOIN LATERAL (VALUES ('jobs', 1::bigint), ('fees', g.fees)) m(measure, amount)
  WHERE g.known_at >= since AND g.known_at < until AND g.split = ANY (splits)
  GROUP BY 1, 2, 3, 4, 5
$$;

-- Callbacks, failures and money that became known between two instants. A callback of a job that was never inspected counts in the
-- month in which that job was booked, so that no cent is lost.
CREATE FUNCTION callback_figures(since timestamptz, until timestamptz, splits text[]) RETURNS TABLE (split text, measure text, value text, origin date, known date, amount bigint)
LANGUAGE sql STABLE AS $$
  WITH RECURSIVE line AS (
    SELECT key, key AS root FROM step_key WHERE derived_from IS NULL UNION ALL SELECT k.key, l.root FROM step_key k JOIN line l ON l.key = k.derived_from),
  touched AS MATERIALIZED (
    SELECT callback_id FROM callback_event WHERE recorded_at >= since AND recorded_at < until
    UNION SELECT callback_id FROM conclusion WHERE recorded_at >= since AND recorded_at < until
    UNION SELECT x.callback_id FROM conclusion_confirmation f JOIN conclusion x ON x.id = f.conclusion_id WHERE f.recorded_at >= since AND f.recorded_at < until
    UNION SELECT l.callback_id FROM ledger_entry e JOIN ledger_line l ON l.entry_id = e.id AND l.callback_id IS NOT NULL WHERE e.recorded_at >= since AND e.recorded_at < until),
  segment AS MATERIALIZED (SELECT s.* FROM touched t CROSS JOIN LATERAL (SELECT * FROM callback_segment s WHERE s.callback_id = t.callback_id) s),
  money AS MATERIALIZED (
    SELECT l.callback_id, e.recorded_at AS at, m.measure, -l.cents AS amount
    FROM touched t JOIN ledger_line l ON l.callback_id = t.callback_id JOIN ledger_entry e ON e.id = l.entry_id
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
  SELECT g.split, g.measure, g.value, date_trunc('month', coalesce(i.inspected_on, j.recorded_at AT TIME ZONE f.zone))::date, date_trunc('month', g.at AT TIME ZONE f.zone)::date, sum(g.amount)::bigint
  FROM grouped g JOIN job j ON j.id = g.job_id CROSS JOIN (SELECT zone FROM firm) f
    LEFT JOIN LATERAL (SELECT (min(v.starts_at) AT TIME ZONE o.zone)::date AS inspected_on FROM visit v JOIN office o ON o.id = j.office_id
      WHERE v.job_id = j.id AND v.state IN ('on_site', 'done') AND j.kind = 'inspection' GROUP BY o.zone) i ON true
  GROUP BY 1, 2, 3, 4, 5 HAVING sum(g.amount) <> 0
$$;

-- Times that steps applied on visits that start between two instants, by revision and month of the visit. One time is one record and, for steps done
-- per item, one item of it. Judged are times in sealed records; met: a standing entry that was not cut short and whose count does
-- not differ; skipped: none, or cut short; differed: both of the pair recorded, and not the same.
CREATE FUNCTION step_figures(since timestamptz, until timestamptz) RETURNS TABLE (step_key text, revision_id uuid, month date, times int, jobs int, judged int, met int, skipped int, could_not int, differed int)
LANGUAGE sql STABLE AS $$
  WITH opened AS (
    SELECT d.id, d.state = 'sealed' AS sealed, v.job_id, date_trunc('month', v.starts_at AT TIME ZONE (SELECT zone FROM firm))::date AS month
    FROM visit v JOIN site_record d ON d.visit_id = v.id JOIN job j ON j.id = v.job_id AND j.kind <> 'callback_visit'
    WHERE v.starts_at >= since AND v.starts_at < until),
  asked AS (
    SELECT DISTINCT ON (o.id, s.item_id, s.step_key) o.id AS record_id, o.sealed, o.job_id, o.month, s.step_key, s.item_id, s.revision_id
    FROM opened o JOIN site_package k ON k.record_id = o.id JOIN package_step s ON s.package_id = k.id ORDER BY o.id, s.item_id, s.step_key, k.number DESC),
  standing AS (
    SELECT e.record_id, e.step_key, e.item_id, bool_or(e.outcome = 'ended_before') AS ended, bool_or(e.outcome IN ('could_not', 'from_opening')) AS could_not, bool_or(e.match = 'differs') AS differs,
      count(DISTINCT e.observed_by) > 1 AND count(DISTINCT e.outcome || coalesce(e.value->>'evidence', '')) > 1 AS partner_differs
    FROM opened o JOIN step_entry e ON e.record_id = o.id WHERE o.sealed AND NOT EXISTS (SELECT FROM step_entry n WHERE n.supersedes_id = e.id) GROUP BY 1, 2, 3)
  SELECT a.step_key, a.revision_id, a.month, count(*)::int, count(DISTINCT a.job_id)::int, count(*) FILTER (WHERE a.sealed)::int,
    count(*) FILTER (WHERE a.sealed AND s.record_id IS NOT NULL AND NOT s.ended AND NOT s.differs)::int, count(*) FILTER (WHERE a.sealed AND (s.record_id IS NULL OR s.ended))::int,
    count(*) FILTER (WHERE s.could_not)::int, count(*) FILTER (WHERE s.partner_differs)::int
  FROM asked a LEFT JOIN standing s ON s.record_id = a.record_id AND s.step_key = a.step_key AND s.item_id IS NOT DISTINCT FROM a.item_id GROUP BY 1, 2, 3
$$;

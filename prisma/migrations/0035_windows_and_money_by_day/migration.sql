-- What the owner's page reads beside the figures: money of callbacks by day, the days on which claim windows hang, and how fast what
-- was set aside used to leave. Summed with the figures at night; what came since is added when a page is read.

-- CreateTable
CREATE TABLE "money_day" (
    "day" DATE NOT NULL,
    "paid" BIGINT NOT NULL,
    "reserved" BIGINT NOT NULL,
    "recovered" BIGINT NOT NULL,

    CONSTRAINT "money_day_pkey" PRIMARY KEY ("day")
);

-- CreateTable
CREATE TABLE "job_window" (
    "job_id" UUID NOT NULL,
    "jurisdiction" TEXT NOT NULL,
    "inspected_on" DATE NOT NULL,
    "completed_on" DATE,
    "delivered_on" DATE,
    "signed" BOOLEAN NOT NULL,
    "claim_months" INTEGER,
    "cap_cents" BIGINT,
    "started_unsigned" BOOLEAN NOT NULL,

    CONSTRAINT "job_window_pkey" PRIMARY KEY ("job_id")
);

-- CreateTable
CREATE TABLE "window_figure" (
    "id" INTEGER NOT NULL,
    "jurisdiction" TEXT NOT NULL,
    "inspected_on" DATE NOT NULL,
    "completed_on" DATE,
    "delivered_on" DATE,
    "claim_months" INTEGER,
    "jobs" INTEGER NOT NULL,
    "signed" INTEGER NOT NULL,
    "capped" INTEGER NOT NULL,
    "cap_cents" BIGINT NOT NULL,
    "started_unsigned" INTEGER NOT NULL,

    CONSTRAINT "window_figure_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "cash_history" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "body" JSONB NOT NULL,

    CONSTRAINT "cash_history_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "job_window_inspected_on_idx" ON "job_window"("inspected_on");

-- CreateIndex
CREATE INDEX "job_recorded_at_idx" ON "job"("recorded_at");

-- CreateIndex
CREATE INDEX "report_recorded_at_idx" ON "report"("recorded_at");

-- CreateIndex
CREATE INDEX "report_delivery_report_id_idx" ON "report_delivery"("report_id");

-- CreateIndex
CREATE INDEX "report_delivery_recorded_at_idx" ON "report_delivery"("recorded_at");

-- CreateIndex
CREATE INDEX "agreement_recorded_at_idx" ON "agreement"("recorded_at");

-- CreateIndex
CREATE INDEX "signature_recorded_at_idx" ON "signature"("recorded_at");

-- CreateIndex
CREATE INDEX "gate_override_happened_at_idx" ON "gate_override"("happened_at");

-- CreateIndex
CREATE INDEX "hand_over_override_happened_at_idx" ON "hand_over_override"("happened_at");

-- ---------- rules ----------
ALTER TABLE cash_history ADD CONSTRAINT cash_history_one CHECK (id = 1);
CREATE INDEX job_window_unsigned ON job_window (inspected_on) WHERE started_unsigned;
CREATE INDEX callback_open ON callback (received_at) WHERE state <> 'closed';
CREATE INDEX callback_owner_only ON callback (id) WHERE owner_only;
CREATE INDEX remedy_waiting ON remedy (recorded_at) WHERE state IN ('proposed', 'approved');

-- An inspection that took place, with what its claim window hangs on: days where the office is; whether all who must have signed the
-- newest agreement; the limits of that agreement; and whether it began before they had.
CREATE VIEW windowed_job AS
SELECT j.id AS job_id, coalesce(nullif(a.state, ''), o.jurisdiction) AS jurisdiction, (v.starts_at AT TIME ZONE o.zone)::date AS inspected_on,
  (SELECT min(r.completed_on) FROM report r WHERE r.job_id = j.id) AS completed_on,
  (SELECT (min(d.delivered_at) AT TIME ZONE o.zone)::date FROM report r JOIN report_delivery d ON d.report_id = r.id WHERE r.job_id = j.id) AS delivered_on,
  coalesce(g.signed, false) AS signed,
  CASE WHEN g.signed THEN (g.limits ->> 'claimMonths')::int END AS claim_months,
  CASE WHEN g.signed THEN CASE g.limits -> 'cap' ->> 'kind' WHEN 'amount' THEN (g.limits -> 'cap' ->> 'cents')::bigint
    WHEN 'factor' THEN ceil((g.limits -> 'cap' ->> 'tenths')::numeric
      * (SELECT coalesce(sum(f.cents), 0) FROM job_fee_line f WHERE f.job_id = j.id AND f.withdrawn_at IS NULL AND f.rule_key NOT LIKE 'ending-%') / 10)::bigint END END AS cap_cents,
  d.opened_at IS NOT NULL AND NOT coalesce(b.signed, false) AS started_unsigned
FROM job j JOIN office o ON o.id = j.office_id JOIN property a ON a.id = j.property_id CROSS JOIN firm
  JOIN LATERAL (SELECT v.id, v.starts_at FROM visit v WHERE v.job_id = j.id AND v.state IN ('on_site', 'done') ORDER BY v.starts_at, v.id LIMIT 1) v ON true
  LEFT JOIN site_record d ON d.visit_id = v.id
  LEFT JOIN LATERAL (SELECT t.limits, (SELECT CASE WHEN firm.every_signer THEN bool_and(q.id IS NOT NULL) ELSE bool_or(q.id IS NOT NULL) END
      FROM signer s LEFT JOIN signature q ON q.signer_id = s.id WHERE s.agreement_id = g.id) AS signed
    FROM agreement g JOIN agreement_text t ON t.id = g.text_id
    WHERE g.job_id = j.id AND g.remedy_id IS NULL AND NOT EXISTS (SELECT FROM agreement n WHERE n.supersedes_id = g.id) ORDER BY g.issued_at DESC, g.id DESC LIMIT 1) g ON true
  LEFT JOIN LATERAL (SELECT (SELECT CASE WHEN firm.every_signer THEN bool_and(q.id IS NOT NULL) ELSE bool_or(q.id IS NOT NULL) END
      FROM signer s LEFT JOIN signature q ON q.signer_id = s.id AND q.happened_at <= d.opened_at WHERE s.agreement_id = g.id) AS signed
    FROM agreement g WHERE g.job_id = j.id AND g.remedy_id IS NULL AND g.issued_at <= d.opened_at ORDER BY g.issued_at DESC, g.id DESC LIMIT 1) b ON true
WHERE j.kind = 'inspection';

-- Jobs whose row above may have become another since an instant.
CREATE FUNCTION windows_touched(since timestamptz) RETURNS TABLE (job_id uuid) LANGUAGE sql STABLE AS $$
  SELECT v.job_id FROM site_record d JOIN visit v ON v.id = d.visit_id WHERE d.recorded_at >= since
  UNION SELECT v.job_id FROM visit_ending e JOIN visit v ON v.id = e.visit_id WHERE e.recorded_at >= since
  UNION SELECT v.job_id FROM visit v WHERE v.starts_at >= since AND v.state IN ('on_site', 'done')
  UNION SELECT r.job_id FROM report r WHERE r.recorded_at >= since
  UNION SELECT r.job_id FROM report_delivery d JOIN report r ON r.id = d.report_id WHERE d.recorded_at >= since
  UNION SELECT g.job_id FROM agreement g WHERE g.recorded_at >= since
  UNION SELECT g.job_id FROM signature q JOIN signer s ON s.id = q.signer_id JOIN agreement g ON g.id = s.agreement_id WHERE q.recorded_at >= since
$$;

-- Every inspection that was touched since the sums were made: as it is now (sign 1), and as it stands in the sums (sign -1).
CREATE VIEW window_change AS
WITH touched AS MATERIALIZED (SELECT t.job_id FROM figure_state s CROSS JOIN LATERAL windows_touched(s.until) t)
SELECT w.job_id, w.jurisdiction, w.inspected_on, w.completed_on, w.delivered_on, w.signed, w.claim_months, w.cap_cents, w.started_unsigned, 1 AS sign
FROM touched t CROSS JOIN LATERAL (SELECT * FROM windowed_job w WHERE w.job_id = t.job_id) w
UNION ALL
SELECT w.job_id, w.jurisdiction, w.inspected_on, w.completed_on, w.delivered_on, w.signed, w.claim_months, w.cap_cents, w.started_unsigned, -1
FROM touched t JOIN job_window w ON w.job_id = t.job_id;

-- The sums by the days that windows hang on, with what came since.
CREATE VIEW window_sum AS
SELECT jurisdiction, inspected_on, completed_on, delivered_on, claim_months, sum(jobs)::int AS jobs, sum(signed)::int AS signed, sum(capped)::int AS capped,
  sum(cap_cents)::bigint AS cap_cents, sum(started_unsigned)::int AS started_unsigned
FROM (
  SELECT jurisdiction, inspected_on, completed_on, delivered_on, claim_months, jobs, signed, capped, cap_cents, started_unsigned FROM window_figure
  UNION ALL
  SELECT jurisdiction, inspected_on, completed_on, delivered_on, claim_months, sign, sign * signed::int, CASE WHEN cap_cents IS NULL THEN 0 ELSE sign END, sign * coalesce(cap_cents, 0),
    sign * started_unsigned::int FROM window_change) every
GROUP BY 1, 2, 3, 4, 5 HAVING sum(jobs) <> 0;

-- Money of callbacks by the day in the books, with what came since.
CREATE VIEW money_by_day AS
SELECT day, paid, reserved, recovered FROM money_day
UNION ALL
SELECT e.happened_on, CASE WHEN l.account IN ('bank', 'recoveries') THEN -l.cents ELSE 0 END, CASE WHEN l.account = 'callback-reserve' THEN -l.cents ELSE 0 END,
  CASE WHEN l.account = 'recoveries' THEN -l.cents ELSE 0 END
FROM figure_state s JOIN ledger_entry e ON e.recorded_at >= s.until JOIN ledger_line l ON l.entry_id = e.id AND l.callback_id IS NOT NULL;

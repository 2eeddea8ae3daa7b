-- Records that a firm arrives with, brought in from a spreadsheet: people, clients, properties and jobs that were done before. What came
-- with a spreadsheet names it, so that it can be taken out again as long as nothing else has come to depend on it. A job that was done
-- before has a visit in a state of its own, "before": whoever counts what was inspected, paid or driven here does not see it.

-- AlterTable
ALTER TABLE "job" ADD COLUMN     "bring_in_id" UUID;

-- AlterTable
ALTER TABLE "party" ADD COLUMN     "bring_in_id" UUID;

-- AlterTable
ALTER TABLE "person" ADD COLUMN     "bring_in_id" UUID;

-- AlterTable
ALTER TABLE "property" ADD COLUMN     "bring_in_id" UUID;

-- CreateTable
CREATE TABLE "bring_in" (
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "bytes" INTEGER NOT NULL,
    "state" TEXT NOT NULL,
    "read" JSONB NOT NULL,
    "mapping" JSONB NOT NULL,
    "counts" JSONB,
    "phase" TEXT NOT NULL DEFAULT '',
    "done" INTEGER NOT NULL DEFAULT 0,
    "total" INTEGER NOT NULL DEFAULT 0,
    "lease_by" UUID,
    "lease_until" TIMESTAMPTZ(3),
    "note" TEXT,
    "version" INTEGER NOT NULL DEFAULT 1,
    "asked_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "brought_at" TIMESTAMPTZ(3),
    "ended_at" TIMESTAMPTZ(3),

    CONSTRAINT "bring_in_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "bring_in_file" (
    "bring_in_id" UUID NOT NULL,
    "bytes" BYTEA NOT NULL,

    CONSTRAINT "bring_in_file_pkey" PRIMARY KEY ("bring_in_id")
);

-- CreateTable
CREATE TABLE "bring_in_problem" (
    "bring_in_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,
    "line" INTEGER NOT NULL,
    "column" TEXT NOT NULL,
    "value" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "weight" TEXT NOT NULL,

    CONSTRAINT "bring_in_problem_pkey" PRIMARY KEY ("bring_in_id","position")
);

-- CreateTable
CREATE TABLE "past_job" (
    "job_id" UUID NOT NULL,
    "delivered_on" DATE,
    "reference" TEXT NOT NULL,
    "timed" BOOLEAN NOT NULL,

    CONSTRAINT "past_job_pkey" PRIMARY KEY ("job_id")
);

-- CreateIndex
CREATE INDEX "bring_in_recorded_at_idx" ON "bring_in"("recorded_at");

-- CreateIndex
CREATE INDEX "job_bring_in_id_idx" ON "job"("bring_in_id");

-- CreateIndex
CREATE INDEX "party_bring_in_id_idx" ON "party"("bring_in_id");

-- CreateIndex
CREATE INDEX "person_bring_in_id_idx" ON "person"("bring_in_id");

-- CreateIndex
CREATE INDEX "property_bring_in_id_idx" ON "property"("bring_in_id");

-- Without them, taking many jobs and clients out again would read these tables once for each.
-- CreateIndex
CREATE INDEX "job_parent_id_idx" ON "job"("parent_id");

-- CreateIndex
CREATE INDEX "invoice_payer_id_idx" ON "invoice"("payer_id");

-- CreateIndex
CREATE INDEX "signer_party_id_idx" ON "signer"("party_id");

-- CreateIndex
CREATE INDEX "report_delivery_party_id_idx" ON "report_delivery"("party_id");

-- AddForeignKey
ALTER TABLE "person" ADD CONSTRAINT "person_bring_in_id_fkey" FOREIGN KEY ("bring_in_id") REFERENCES "bring_in"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "property" ADD CONSTRAINT "property_bring_in_id_fkey" FOREIGN KEY ("bring_in_id") REFERENCES "bring_in"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "party" ADD CONSTRAINT "party_bring_in_id_fkey" FOREIGN KEY ("bring_in_id") REFERENCES "bring_in"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job" ADD CONSTRAINT "job_bring_in_id_fkey" FOREIGN KEY ("bring_in_id") REFERENCES "bring_in"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "bring_in_file" ADD CONSTRAINT "bring_in_file_bring_in_id_fkey" FOREIGN KEY ("bring_in_id") REFERENCES "bring_in"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "bring_in_problem" ADD CONSTRAINT "bring_in_problem_bring_in_id_fkey" FOREIGN KEY ("bring_in_id") REFERENCES "bring_in"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "past_job" ADD CONSTRAINT "past_job_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---------- closed lists ----------
ALTER TABLE bring_in ADD CONSTRAINT bring_in_known CHECK (kind IN ('people', 'clients', 'properties', 'jobs')
  AND state IN ('to_map', 'checking', 'checked', 'bringing', 'done', 'undoing', 'undone', 'thrown_away') AND name <> '' AND bytes > 0 AND done >= 0 AND total >= 0
  AND (state IN ('done', 'undoing', 'undone')) = (brought_at IS NOT NULL) AND (state IN ('undone', 'thrown_away')) = (ended_at IS NOT NULL));
ALTER TABLE bring_in_problem ADD CONSTRAINT bring_in_problem_known CHECK (line >= 1 AND text <> '' AND weight IN ('stops', 'look', 'known'));
ALTER TABLE visit DROP CONSTRAINT visit_known;
ALTER TABLE visit ADD CONSTRAINT visit_known CHECK (state IN ('held', 'booked', 'on_site', 'done', 'ended', 'cancelled', 'lapsed', 'before') AND crew_size IN (1, 2));
-- A job that was brought in was done and reported before.
ALTER TABLE job ADD CONSTRAINT job_brought_in CHECK (bring_in_id IS NULL OR (kind = 'inspection' AND state = 'reported'));

-- ---------- one order of states ----------
CREATE FUNCTION check_bring_in() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF (NEW.id, NEW.kind, NEW.bytes, NEW.asked_by, NEW.recorded_at) IS DISTINCT FROM (OLD.id, OLD.kind, OLD.bytes, OLD.asked_by, OLD.recorded_at)
    OR OLD.state <> NEW.state AND (OLD.state, NEW.state) NOT IN (('to_map', 'checking'), ('to_map', 'thrown_away'), ('checking', 'checked'), ('checking', 'to_map'), ('checked', 'checking'),
      ('checked', 'bringing'), ('checked', 'thrown_away'), ('bringing', 'done'), ('bringing', 'checked'), ('done', 'undoing'), ('undoing', 'undone'), ('undoing', 'done'))
  THEN PERFORM rule_broken('bring_in_state_order'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER bring_in_state_order BEFORE UPDATE ON bring_in FOR EACH ROW EXECUTE FUNCTION check_bring_in();
CREATE FUNCTION check_bring_in_kept() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN PERFORM rule_broken('bring_in_kept'); RETURN NULL; END $$;
CREATE TRIGGER bring_in_kept BEFORE DELETE ON bring_in FOR EACH ROW EXECUTE FUNCTION check_bring_in_kept();

-- Where a row came from is said once, and a spreadsheet gives rows only while it is being brought in.
CREATE FUNCTION check_brought() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'UPDATE' THEN
    IF NEW.bring_in_id IS DISTINCT FROM OLD.bring_in_id THEN PERFORM rule_broken('bring_in_kept'); END IF;
  ELSIF NEW.bring_in_id IS NOT NULL AND (SELECT state <> 'bringing' FROM bring_in WHERE id = NEW.bring_in_id) THEN PERFORM rule_broken('bring_in_state_order'); END IF;
  RETURN NEW;
END $$;
DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['person', 'party', 'property', 'job'] LOOP
    EXECUTE format('CREATE TRIGGER bring_in_kept BEFORE INSERT OR UPDATE OF bring_in_id ON %I FOR EACH ROW EXECUTE FUNCTION check_brought()', t);
  END LOOP;
END $$;

-- Only the visit of a job that was brought in took place before.
CREATE FUNCTION check_visit_before() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF (NEW.state = 'before') <> (SELECT bring_in_id IS NOT NULL FROM job WHERE id = NEW.job_id) THEN PERFORM rule_broken('visit_before_brought_in'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER visit_before_brought_in BEFORE INSERT OR UPDATE OF state ON visit FOR EACH ROW WHEN (NEW.state = 'before') EXECUTE FUNCTION check_visit_before();

-- ---------- facts of a house leave only with the spreadsheet that brought them ----------
CREATE FUNCTION check_facts_kept() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'DELETE' AND EXISTS (SELECT FROM property p JOIN bring_in b ON b.id = p.bring_in_id WHERE p.id = OLD.property_id AND b.state = 'undoing') THEN RETURN OLD; END IF;
  PERFORM rule_broken('history_is_kept');
  RETURN NULL;
END $$;
DROP TRIGGER history_is_kept ON fact_sheet;
CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON fact_sheet FOR EACH ROW EXECUTE FUNCTION check_facts_kept();
CREATE FUNCTION take_out_facts(the_spreadsheet uuid) RETURNS void LANGUAGE sql SECURITY DEFINER SET search_path = public AS $$
  DELETE FROM fact_sheet f USING property p WHERE p.id = f.property_id AND p.bring_in_id = the_spreadsheet;
$$;

-- ---------- what jobs that were done before count for ----------
-- Their claim windows, with the day of the report as the spreadsheet says it.
CREATE OR REPLACE VIEW windowed_job AS
SELECT j.id AS job_id, coalesce(nullif(a.state, ''), o.jurisdiction) AS jurisdiction, (v.starts_at AT TIME ZONE o.zone)::date AS inspected_on,
  coalesce((SELECT min(r.completed_on) FROM report r WHERE r.job_id = j.id), CASE WHEN j.bring_in_id IS NOT NULL THEN (v.starts_at AT TIME ZONE o.zone)::date END) AS completed_on,
  coalesce((SELECT (min(d.delivered_at) AT TIME ZONE o.zone)::date FROM report r JOIN report_delivery d ON d.report_id = r.id WHERE r.job_id = j.id), (SELECT b.delivered_on FROM past_job b WHERE b.job_id = j.id)) AS delivered_on,
  coalesce(g.signed, false) AS signed,
  CASE WHEN g.signed THEN (g.limits ->> 'claimMonths')::int END AS claim_months,
  CASE WHEN g.signed THEN CASE g.limits -> 'cap' ->> 'kind' WHEN 'amount' THEN (g.limits -> 'cap' ->> 'cents')::bigint
    WHEN 'factor' THEN ceil((g.limits -> 'cap' ->> 'tenths')::numeric
      * (SELECT coalesce(sum(f.cents), 0) FROM job_fee_line f WHERE f.job_id = j.id AND f.withdrawn_at IS NULL AND f.rule_key NOT LIKE 'ending-%') / 10)::bigint END END AS cap_cents,
  d.opened_at IS NOT NULL AND NOT coalesce(b.signed, false) AS started_unsigned
FROM job j JOIN office o ON o.id = j.office_id JOIN property a ON a.id = j.property_id CROSS JOIN firm
  JOIN LATERAL (SELECT v.id, v.starts_at FROM visit v WHERE v.job_id = j.id AND v.state IN ('on_site', 'done', 'before') ORDER BY v.starts_at, v.id LIMIT 1) v ON true
  LEFT JOIN site_record d ON d.visit_id = v.id
  LEFT JOIN LATERAL (SELECT t.limits, (SELECT CASE WHEN firm.every_signer THEN bool_and(q.id IS NOT NULL) ELSE bool_or(q.id IS NOT NULL) END
      FROM signer s LEFT JOIN signature q ON q.signer_id = s.id WHERE s.agreement_id = g.id) AS signed
    FROM agreement g JOIN agreement_text t ON t.id = g.text_id
    WHERE g.job_id = j.id AND g.remedy_id IS NULL AND NOT EXISTS (SELECT FROM agreement n WHERE n.supersedes_id = g.id) ORDER BY g.issued_at DESC, g.id DESC LIMIT 1) g ON true
  LEFT JOIN LATERAL (SELECT (SELECT CASE WHEN firm.every_signer THEN bool_and(q.id IS NOT NULL) ELSE bool_or(q.id IS NOT NULL) END
      FROM signer s LEFT JOIN signature q ON q.signer_id = s.id AND q.happened_at <= d.opened_at WHERE s.agreement_id = g.id) AS signed
    FROM agreement g WHERE g.job_id = j.id AND g.remedy_id IS NULL AND g.issued_at <= d.opened_at ORDER BY g.issued_at DESC, g.id DESC LIMIT 1) b ON true
WHERE j.kind = 'inspection';

-- No rate: what was complained about before is not here, so a callback about one of them has nothing to be divided by. Its money counts.
CREATE OR REPLACE VIEW callback_segment AS
WITH said AS (
  SELECT callback_id, recorded_at AS at, 0 AS kind, seq, details AS change FROM callback_event WHERE kind IN ('received', 'became_callback', 'linked', 'unlinked', 'job_changed')
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
  state->>'kind' NOT IN ('question', 'near_miss') AND state->>'duplicateOfId' IS NULL
    AND NOT EXISTS (SELECT FROM job j WHERE j.id = (told.state->>'jobId')::uuid AND j.bring_in_id IS NOT NULL) AS counts, state->>'cause' AS cause, state->>'step' AS step_key
FROM told;

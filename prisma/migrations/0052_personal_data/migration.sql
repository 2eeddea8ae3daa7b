-- Personal data: how long records are kept, the one function that takes it out when their time is over, and who asked for erasure.

-- AlterTable
ALTER TABLE "stored_file" ADD COLUMN     "erased_at" TIMESTAMPTZ(3);

-- CreateTable
CREATE TABLE "job_file_review" (
    "file_id" UUID NOT NULL,
    "reviewer" TEXT NOT NULL,
    "reviewed_on" DATE NOT NULL,
    "actor_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "job_file_review_pkey" PRIMARY KEY ("file_id")
);

-- CreateTable
CREATE TABLE "retention_rule" (
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "years" INTEGER NOT NULL,
    "reason" TEXT NOT NULL,
    "actor_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "retention_rule_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "disposal" (
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "thing_id" UUID NOT NULL,
    "because" TEXT NOT NULL,
    "kept_until" DATE NOT NULL,
    "actor_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "disposal_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "erasure" (
    "id" UUID NOT NULL,
    "subject" TEXT NOT NULL,
    "subject_id" UUID NOT NULL,
    "asked_on" DATE NOT NULL,
    "asked_how" TEXT NOT NULL,
    "stays" JSONB NOT NULL,
    "actor_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "erasure_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "personal_table" (
    "name" TEXT NOT NULL,
    "record" TEXT NOT NULL,
    "way" TEXT NOT NULL,

    CONSTRAINT "personal_table_pkey" PRIMARY KEY ("name")
);

-- CreateTable
CREATE TABLE "personal_column" (
    "table_name" TEXT NOT NULL,
    "column_name" TEXT NOT NULL,
    "going" TEXT NOT NULL,
    "blank" JSONB,

    CONSTRAINT "personal_column_pkey" PRIMARY KEY ("table_name","column_name")
);

-- CreateIndex
CREATE INDEX "retention_rule_kind_recorded_at_idx" ON "retention_rule"("kind", "recorded_at");

-- CreateIndex
CREATE UNIQUE INDEX "disposal_kind_thing_id_key" ON "disposal"("kind", "thing_id");

-- CreateIndex
CREATE INDEX "erasure_subject_id_idx" ON "erasure"("subject_id");

-- AddForeignKey
ALTER TABLE "job_file_review" ADD CONSTRAINT "job_file_review_file_id_fkey" FOREIGN KEY ("file_id") REFERENCES "job_file"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_file_review" ADD CONSTRAINT "job_file_review_actor_id_fkey" FOREIGN KEY ("actor_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "retention_rule" ADD CONSTRAINT "retention_rule_actor_id_fkey" FOREIGN KEY ("actor_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "disposal" ADD CONSTRAINT "disposal_actor_id_fkey" FOREIGN KEY ("actor_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "erasure" ADD CONSTRAINT "erasure_actor_id_fkey" FOREIGN KEY ("actor_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "personal_column" ADD CONSTRAINT "personal_column_table_name_fkey" FOREIGN KEY ("table_name") REFERENCES "personal_table"("name") ON DELETE RESTRICT ON UPDATE CASCADE;


-- ---------- closed lists and sane values ----------
ALTER TABLE retention_rule ADD CONSTRAINT retention_rule_known CHECK (kind IN ('job', 'mail', 'callback', 'inquiry', 'staff') AND years BETWEEN 1 AND 99 AND length(btrim(reason)) >= 10);
ALTER TABLE disposal ADD CONSTRAINT disposal_known CHECK (kind IN ('job', 'mail', 'callback', 'inquiry', 'staff') AND because IN ('retention', 'asked'));
ALTER TABLE erasure ADD CONSTRAINT erasure_known CHECK (subject IN ('party', 'person') AND asked_how IN ('mail', 'letter', 'phone', 'in_person'));
ALTER TABLE personal_table ADD CONSTRAINT personal_table_known CHECK (record IN ('job', 'mail', 'callback', 'inquiry', 'staff'));
ALTER TABLE personal_column ADD CONSTRAINT personal_column_known CHECK (going IN ('blank', 'text', 'file') AND (going = 'blank' OR blank IS NULL));
ALTER TABLE job_file_review ADD CONSTRAINT job_file_review_says CHECK (length(btrim(reviewer)) > 0);
-- What was sealed keeps its fingerprint when its bytes are gone.
ALTER TABLE sealed_paper DROP CONSTRAINT sealed_paper_fits_fingerprint;
ALTER TABLE sealed_paper ADD CONSTRAINT sealed_paper_fits_fingerprint CHECK (content = '' OR sha256 = encode(sha256(content), 'hex'));
-- A first job and what came of it go together.
CREATE INDEX job_family ON job ((coalesce(parent_id, id)));
CREATE INDEX stored_file_erased ON stored_file (erased_at) WHERE erased_at IS NOT NULL;

-- ---------- how long ----------
-- The firm's years for a kind; the built-in ones stand in domain/personal/retention.ts too.
CREATE FUNCTION retention_years(the_kind text) RETURNS integer LANGUAGE sql STABLE AS $$
  SELECT coalesce((SELECT years FROM retention_rule WHERE kind = the_kind ORDER BY recorded_at DESC, id DESC LIMIT 1), CASE the_kind WHEN 'inquiry' THEN 2 WHEN 'staff' THEN 7 ELSE 10 END);
$$;
-- The longest time that any reading of a state's rules asks for; 0 where none is on file.
CREATE FUNCTION law_years(the_state text) RETURNS integer LANGUAGE sql STABLE AS $$
  SELECT coalesce(ceil(max((r -> 'effect' ->> 'years')::numeric)), 0)::integer FROM rule_pack p, jsonb_array_elements(CASE jsonb_typeof(p.body -> 'rows') WHEN 'array' THEN p.body -> 'rows' ELSE '[]'::jsonb END) r
  WHERE p.jurisdiction = the_state AND r -> 'effect' ->> 'kind' = 'keep';
$$;
-- From which days a job's times run, and what keeps it from being over.
CREATE VIEW job_clock AS
  SELECT j.id AS job_id, coalesce(j.parent_id, j.id) AS family, law_years(coalesce(nullif(a.state, ''), o.jurisdiction)) AS law,
    greatest(
      CASE WHEN j.bring_in_id IS NULL THEN (j.recorded_at AT TIME ZONE o.zone)::date END, -- a job that was done before counts from when it was done
      (SELECT b.delivered_on FROM past_job b WHERE b.job_id = j.id),
      (SELECT (max(v.ends_at) AT TIME ZONE o.zone)::date FROM visit v WHERE v.job_id = j.id),
      (SELECT greatest(max(r.report_on), max(r.revised_on), (max(d.delivered_at) AT TIME ZONE o.zone)::date) FROM report r LEFT JOIN report_delivery d ON d.report_id = r.id WHERE r.job_id = j.id)
    ) AS last_day,
    (SELECT (greatest(max(c.received_at), max(e.happened_at)) AT TIME ZONE o.zone)::date FROM callback c LEFT JOIN callback_event e ON e.callback_id = c.id WHERE c.job_id = j.id) AS matter_day,
    evidence_held_because(j.id) AS held,
    CASE WHEN j.state IN ('held', 'booked', 'on_site', 'visited') THEN 'the job is not finished'
      WHEN EXISTS (SELECT FROM invoice i WHERE i.job_id = j.id AND i.state = 'issued') THEN 'an invoice is open' END AS unfinished
  FROM job j JOIN property a ON a.id = j.property_id JOIN office o ON o.id = j.office_id;

-- The last day for which records have to be kept, and what keeps them longer; no row where there is nothing of the kind.
CREATE FUNCTION keep_until(the_kind text, the_thing uuid) RETURNS TABLE (until date, held text) LANGUAGE sql STABLE AS $$
  WITH f AS (
    SELECT max(last_day) AS last_day, max(matter_day) AS matter_day, max(law) AS law, max(coalesce(c.held, c.unfinished)) AS held
    FROM job_clock c WHERE the_kind IN ('job', 'mail', 'callback') AND c.family = (SELECT coalesce(parent_id, id) FROM job WHERE id = the_thing)
  ), y AS (
    SELECT f.*, make_interval(years => greatest(law, retention_years('job'))) AS job, make_interval(years => greatest(law, retention_years('mail'))) AS mail, make_interval(years => greatest(law, retention_years('callback'))) AS callback FROM f WHERE f.last_day IS NOT NULL
  )
  SELECT greatest(last_day + greatest(job, mail), matter_day + greatest(callback, mail))::date, y.held FROM y WHERE the_kind = 'job'
  UNION ALL SELECT greatest(last_day, matter_day) + mail, y.held FROM y WHERE the_kind = 'mail'
  UNION ALL SELECT (matter_day + callback)::date, y.held FROM y WHERE the_kind = 'callback' AND EXISTS (SELECT FROM callback WHERE job_id = the_thing)
  UNION ALL SELECT (coalesce(q.closed_at, q.recorded_at)::date + make_interval(years => retention_years('inquiry')))::date, NULL FROM inquiry q WHERE the_kind = 'inquiry' AND q.id = the_thing AND q.job_id IS NULL
  UNION ALL SELECT (p.ended_on + make_interval(years => retention_years('staff')))::date, NULL FROM person p WHERE the_kind = 'staff' AND p.id = the_thing AND p.ended_on IS NOT NULL;
$$;

-- A policy is never shorter than the rules of a state in which the firm works.
CREATE FUNCTION check_retention_rule() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.kind IN ('job', 'mail', 'callback') AND EXISTS (SELECT FROM (SELECT unnest(states) AS s FROM firm UNION SELECT jurisdiction FROM office) x WHERE law_years(x.s) > NEW.years) THEN PERFORM rule_broken('retention_too_short'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER retention_too_short BEFORE INSERT ON retention_rule FOR EACH ROW EXECUTE FUNCTION check_retention_rule();

-- Nothing is disposed of while it is held, or before its time is over.
CREATE FUNCTION check_disposal() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE k record;
BEGIN
  SELECT * INTO k FROM keep_until(NEW.kind, NEW.thing_id);
  IF k.until IS NULL THEN PERFORM rule_broken('nothing_to_dispose_of'); END IF;
  IF k.held IS NOT NULL THEN PERFORM rule_broken(CASE WHEN k.held IN ('the job is not finished', 'an invoice is open') THEN 'not_finished' ELSE 'evidence_held' END); END IF;
  IF k.until >= NEW.recorded_at::date THEN PERFORM rule_broken('retention_not_over'); END IF;
  NEW.kept_until := k.until;
  RETURN NEW;
END $$;
CREATE TRIGGER retention_not_over BEFORE INSERT ON disposal FOR EACH ROW EXECUTE FUNCTION check_disposal();

-- ---------- disposing ----------
-- Whether the one function below is at work: its own mark, and its owner's right, which the service lacks.
CREATE FUNCTION disposing() RETURNS boolean LANGUAGE sql STABLE AS $$
  SELECT coalesce(current_setting('backsight.disposing', true), '') = 'on' AND (SELECT pg_get_userbyid(relowner) = current_user FROM pg_class WHERE oid = 'audit_row'::regclass);
$$;
-- Whether nothing changed but columns of the inventory, each to what stands in the place of what is gone.
CREATE FUNCTION only_erased(of_table text, was jsonb, becomes jsonb) RETURNS boolean LANGUAGE sql STABLE AS $$
  SELECT NOT EXISTS (
    SELECT FROM jsonb_each(becomes) n LEFT JOIN personal_column c ON c.table_name = of_table AND c.column_name = n.key AND c.going = 'blank'
    WHERE n.value IS DISTINCT FROM was -> n.key
      AND NOT (c.column_name IS NOT NULL AND (n.value = coalesce(c.blank, 'null') OR (c.blank = '"#id"' AND n.value #>> '{}' LIKE '(no longer kept)%') OR (c.blank = '""' AND n.value = '"\\x"'))));
$$;
CREATE OR REPLACE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'UPDATE' AND TG_LEVEL = 'ROW' THEN
    IF disposing() AND only_erased(TG_TABLE_NAME, to_jsonb(OLD), to_jsonb(NEW)) THEN RETURN NEW; END IF;
  END IF;
  PERFORM rule_broken('history_is_kept');
  RETURN NULL;
END $$;
CREATE OR REPLACE FUNCTION check_answered_once() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'DELETE' THEN PERFORM rule_broken('history_is_kept'); END IF;
  IF disposing() AND only_erased(TG_TABLE_NAME, to_jsonb(OLD), to_jsonb(NEW)) THEN RETURN NEW; END IF;
  IF TG_TABLE_NAME = 'after_check' THEN
    IF OLD.outcome IS NOT NULL OR (NEW.id, NEW.callback_id, NEW.due_on, NEW.recorded_at) IS DISTINCT FROM (OLD.id, OLD.callback_id, OLD.due_on, OLD.recorded_at) THEN PERFORM rule_broken('history_is_kept'); END IF;
  ELSIF OLD.result IS NOT NULL OR (NEW.id, NEW.callback_id, NEW.way, NEW.text_id, NEW.due_on, NEW.received_at) IS DISTINCT FROM (OLD.id, OLD.callback_id, OLD.way, OLD.text_id, OLD.due_on, OLD.received_at) THEN PERFORM rule_broken('history_is_kept');
  END IF;
  RETURN NEW;
END $$;
-- Words that go with a disposal were asked about there; others are asked about one by one, as before.
CREATE OR REPLACE FUNCTION check_text() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  f record;
  held boolean;
BEGIN
  IF TG_OP = 'DELETE' OR NEW.body IS NOT NULL OR NEW.salt IS NOT NULL OR NEW.erased_at IS NULL OR (NEW.id, NEW.digest, NEW.recorded_at) IS DISTINCT FROM (OLD.id, OLD.digest, OLD.recorded_at) THEN PERFORM rule_broken('history_is_kept'); END IF;
  IF disposing() THEN RETURN NEW; END IF;
  FOR f IN SELECT c.conrelid::regclass::text AS t, a.attname AS col FROM pg_constraint c JOIN pg_attribute a ON a.attrelid = c.conrelid AND a.attnum = c.conkey[1]
    WHERE c.contype = 'f' AND c.confrelid = 'kept_text'::regclass LOOP
    EXECUTE format('SELECT EXISTS (SELECT FROM %I x, jobs_of_row(%L, to_jsonb(x)) j WHERE x.%I = $1 AND evidence_held_because(j) IS NOT NULL)', f.t, f.t, f.col) INTO held USING OLD.id;
    IF held THEN PERFORM rule_broken('evidence_held'); END IF;
  END LOOP;
  RETURN NEW;
END $$;

-- The value that takes the place of a column's, as SQL; what is empty stays so.
CREATE FUNCTION gone_value(of_table text, of_column text, blank jsonb) RETURNS text LANGUAGE sql STABLE AS $$
  SELECT format('CASE WHEN %1$I IS NULL OR %1$I::text = '''' THEN %1$I ELSE %2$s END', of_column,
    CASE WHEN blank IS NULL OR blank = 'null' THEN 'NULL' WHEN blank = '"#id"' THEN '''(no longer kept) '' || id::text'
      WHEN jsonb_typeof(blank) = 'string' THEN quote_literal(blank #>> '{}') || '::' || format_type(a.atttypid, NULL) ELSE quote_literal(blank::text) || '::jsonb' END)
  FROM pg_attribute a WHERE a.attrelid = of_table::regclass AND a.attname = of_column;
$$;

-- Takes everything personal out of the records of one kind about one thing, for which a disposal is on file. Answers how many rows, words and files went.
CREATE FUNCTION dispose(the_kind text, the_thing uuid, at timestamptz) RETURNS TABLE (what text, n integer) LANGUAGE plpgsql SECURITY DEFINER SET search_path = public AS $$
DECLARE
  t record;
  c record;
  sets text;
  differs text;
  files text[] := '{}';
  found text[];
  one integer;
  total integer := 0;
  words integer := 0;
BEGIN
  IF NOT EXISTS (SELECT FROM disposal WHERE kind = the_kind AND thing_id = the_thing) THEN PERFORM rule_broken('nothing_to_dispose_of'); END IF;
  PERFORM set_config('backsight.disposing', 'on', true);
  FOR t IN SELECT * FROM personal_table WHERE record = the_kind LOOP
    FOR c IN SELECT * FROM personal_column WHERE table_name = t.name AND going <> 'blank' LOOP
      IF c.going = 'text' THEN
        EXECUTE format('UPDATE kept_text SET body = NULL, salt = NULL, erased_at = $2 WHERE body IS NOT NULL AND id IN (SELECT %I FROM %I WHERE %s)', c.column_name, t.name, t.way) USING the_thing, at;
        GET DIAGNOSTICS one = ROW_COUNT;
        words := words + one;
      ELSE
        EXECUTE format('SELECT coalesce(array_agg(%I), ''{}'') FROM %I WHERE %I IS NOT NULL AND (%s)', c.column_name, t.name, c.column_name, t.way) INTO found USING the_thing;
        files := files || found;
      END IF;
    END LOOP;
    SELECT string_agg(format('%I = %s', column_name, gone_value(t.name, column_name, blank)), ', '), string_agg(format('%I IS DISTINCT FROM %s', column_name, gone_value(t.name, column_name, blank)), ' OR ')
      INTO sets, differs FROM personal_column WHERE table_name = t.name AND going = 'blank';
    CONTINUE WHEN sets IS NULL;
    EXECUTE format('UPDATE %I SET %s WHERE (%s) AND (%s)', t.name, sets, t.way, differs) USING the_thing;
    GET DIAGNOSTICS one = ROW_COUNT;
    total := total + one;
  END LOOP;
  -- A file that something else still shows stays: of another job, or of this job's records that are not disposed of.
  FOR t IN SELECT p.name, p.way, p.record, k.column_name FROM personal_table p JOIN personal_column k ON k.table_name = p.name AND k.going = 'file' LOOP
    EXECUTE format('SELECT coalesce(array_agg(DISTINCT %1$I), ''{}'') FROM %2$I WHERE %1$I = ANY ($2) AND NOT ($3 AND (%3$s))', t.column_name, t.name, t.way)
      INTO found USING the_thing, files, t.record = the_kind OR (the_kind = 'job' AND t.record IN ('job', 'mail', 'callback'));
    files := ARRAY(SELECT unnest(files) EXCEPT SELECT unnest(found));
  END LOOP;
  UPDATE stored_file SET erased_at = at, name = '(no longer kept)' WHERE sha256 = ANY (files) AND erased_at IS NULL AND NOT EXISTS (SELECT FROM insurance_certificate i WHERE i.file_sha256 = stored_file.sha256);
  GET DIAGNOSTICS one = ROW_COUNT;
  PERFORM forget_around(the_kind, the_thing, at);
  PERFORM set_config('backsight.disposing', '', true);
  RETURN QUERY VALUES ('rows', total), ('words', words), ('files', one);
END $$;

-- People and houses of whom nothing is left to be kept: their names go with the last of their records.
CREATE FUNCTION forget_around(the_kind text, the_thing uuid, at timestamptz) RETURNS void LANGUAGE plpgsql AS $$
BEGIN
  IF the_kind = 'mail' THEN
    UPDATE bad_address SET address = '(no longer kept)', reason = '', cleared_at = coalesce(cleared_at, at) WHERE mail_id IN (SELECT id FROM outgoing_mail WHERE to_address = '(no longer kept)') AND address <> '(no longer kept)';
  ELSIF the_kind = 'job' THEN
    UPDATE inquiry SET caller = '(no longer kept)', phone = '(no longer kept)', email = '', address = '(no longer kept)', draft = '{}', note = '', outcome_note = '' WHERE job_id = the_thing;
    UPDATE property a SET address = '(no longer kept)', address_key = '(no longer kept) ' || a.id, ask_owner = NULL, place_by = 'town', lat = round(a.lat::numeric, 1), lon = round(a.lon::numeric, 1)
      WHERE a.id = (SELECT property_id FROM job WHERE id = the_thing) AND NOT EXISTS (SELECT FROM job j WHERE j.property_id = a.id AND NOT EXISTS (SELECT FROM disposal d WHERE d.kind = 'job' AND d.thing_id = j.id));
    UPDATE party p SET name = '(no longer kept)', email = NULL, phone = NULL, wishes = '', ask_owner = NULL
      WHERE p.id IN (SELECT party_id FROM job_party WHERE job_id = the_thing UNION SELECT payer_id FROM invoice WHERE job_id = the_thing UNION SELECT party_id FROM callback WHERE job_id = the_thing)
        AND NOT EXISTS (SELECT FROM (SELECT party_id, job_id FROM job_party UNION ALL SELECT payer_id, job_id FROM invoice UNION ALL SELECT party_id, job_id FROM callback) x WHERE x.party_id = p.id AND NOT EXISTS (SELECT FROM disposal d WHERE d.kind = 'job' AND d.thing_id = x.job_id));
  ELSIF the_kind = 'staff' THEN
    DELETE FROM second_factor WHERE person_id = the_thing;
    DELETE FROM recovery_code WHERE person_id = the_thing;
    DELETE FROM password_link WHERE person_id = the_thing;
    UPDATE session SET ended_at = coalesce(ended_at, at) WHERE person_id = the_thing;
    UPDATE calendar_feed SET revoked_at = coalesce(revoked_at, at) WHERE person_id = the_thing;
    UPDATE person SET email = 'gone-' || id || '@invalid', phone = '(no longer kept)', home_address = '(no longer kept)', home_lat = round(home_lat::numeric, 1), home_lon = round(home_lon::numeric, 1), password_hash = NULL WHERE id = the_thing;
  END IF;
  -- Who inspected stays named as long as a job is kept on which they were.
  IF the_kind IN ('job', 'staff') THEN
    UPDATE person p SET name = '(no longer kept)' WHERE (p.id = the_thing OR p.id IN (SELECT a.person_id FROM assignment a JOIN visit v ON v.id = a.visit_id WHERE v.job_id = the_thing)) AND EXISTS (SELECT FROM disposal d WHERE d.kind = 'staff' AND d.thing_id = p.id)
      AND NOT EXISTS (SELECT FROM assignment a JOIN visit v ON v.id = a.visit_id WHERE a.person_id = p.id AND NOT EXISTS (SELECT FROM disposal d WHERE d.kind = 'job' AND d.thing_id = v.job_id));
  END IF;
END $$;

-- ---------- only ever added ----------
DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['retention_rule', 'disposal', 'erasure', 'job_file_review'] LOOP
    EXECUTE format('CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t);
    EXECUTE format('CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t);
    IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN EXECUTE format('REVOKE UPDATE, DELETE, TRUNCATE ON %I FROM backsight_app', t); END IF;
  END LOOP;
  FOREACH t IN ARRAY ARRAY['personal_table', 'personal_column'] LOOP
    IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN EXECUTE format('REVOKE INSERT, UPDATE, DELETE, TRUNCATE ON %I FROM backsight_app', t); END IF;
  END LOOP;
END $$;

-- ---------- the inventory, as the program has it (a test holds both equal) ----------
INSERT INTO personal_table (name, record, way) VALUES
  ('inquiry', 'inquiry', 'id = $1'),
  ('job', 'job', 'id = $1'),
  ('past_job', 'job', 'job_id = $1'),
  ('job_event', 'job', 'job_id = $1'),
  ('job_need', 'job', 'job_id = $1'),
  ('job_discount', 'job', 'job_id = $1'),
  ('job_access', 'job', 'job_id = $1'),
  ('job_file', 'job', 'job_id = $1'),
  ('job_file_review', 'job', 'file_id IN (SELECT id FROM job_file WHERE job_id = $1)'),
  ('reinspection_item', 'job', 'job_id = $1'),
  ('hand_over_override', 'job', 'job_id = $1'),
  ('gate_override', 'job', 'visit_id IN (SELECT id FROM visit WHERE job_id = $1)'),
  ('visit', 'job', 'job_id = $1'),
  ('visit_ending', 'job', 'visit_id IN (SELECT id FROM visit WHERE job_id = $1)'),
  ('late_notice', 'job', 'visit_id IN (SELECT id FROM visit WHERE job_id = $1)'),
  ('test_step', 'job', 'item_id IN (SELECT id FROM test_item WHERE job_id = $1)'),
  ('evidence_hold', 'job', 'job_id = $1'),
  ('evidence_hold_lift', 'job', 'hold_id IN (SELECT id FROM evidence_hold WHERE job_id = $1)'),
  ('agreement', 'job', 'job_id = $1'),
  ('signer', 'job', 'agreement_id IN (SELECT id FROM agreement WHERE job_id = $1)'),
  ('signer_answer', 'job', 'signer_id IN (SELECT id FROM signer WHERE agreement_id IN (SELECT id FROM agreement WHERE job_id = $1))'),
  ('signature', 'job', 'signer_id IN (SELECT id FROM signer WHERE agreement_id IN (SELECT id FROM agreement WHERE job_id = $1))'),
  ('sealed_paper', 'job', 'agreement_id IN (SELECT id FROM agreement WHERE job_id = $1) OR report_id IN (SELECT id FROM report WHERE job_id = $1)'),
  ('report', 'job', 'job_id = $1'),
  ('report_consent', 'job', 'job_id = $1'),
  ('invoice_act', 'job', 'invoice_id IN (SELECT id FROM invoice WHERE job_id = $1)'),
  ('step_entry', 'job', 'record_id IN (SELECT id FROM site_record WHERE visit_id IN (SELECT id FROM visit WHERE job_id = $1))'),
  ('record_supplement', 'job', 'record_id IN (SELECT id FROM site_record WHERE visit_id IN (SELECT id FROM visit WHERE job_id = $1))'),
  ('record_given_out', 'job', 'record_id IN (SELECT id FROM site_record WHERE visit_id IN (SELECT id FROM visit WHERE job_id = $1))'),
  ('site_photo', 'job', 'record_id IN (SELECT id FROM site_record WHERE visit_id IN (SELECT id FROM visit WHERE job_id = $1))'),
  ('site_photo_opening', 'job', 'photo_id IN (SELECT id FROM site_photo WHERE record_id IN (SELECT id FROM site_record WHERE visit_id IN (SELECT id FROM visit WHERE job_id = $1)))'),
  ('outgoing_mail', 'mail', 'about_id IN (SELECT $1 UNION ALL SELECT id FROM agreement WHERE job_id = $1 UNION ALL SELECT id FROM report WHERE job_id = $1 UNION ALL SELECT id FROM invoice WHERE job_id = $1 UNION ALL SELECT id FROM visit WHERE job_id = $1 UNION ALL SELECT id FROM callback WHERE job_id = $1)'),
  ('mail_attachment', 'mail', 'mail_id IN (SELECT id FROM outgoing_mail WHERE about_id IN (SELECT $1 UNION ALL SELECT id FROM agreement WHERE job_id = $1 UNION ALL SELECT id FROM report WHERE job_id = $1 UNION ALL SELECT id FROM invoice WHERE job_id = $1 UNION ALL SELECT id FROM visit WHERE job_id = $1 UNION ALL SELECT id FROM callback WHERE job_id = $1))'),
  ('contact_note', 'mail', 'job_id = $1'),
  ('callback', 'callback', 'job_id = $1'),
  ('callback_intake', 'callback', 'callback_id IN (SELECT id FROM callback WHERE job_id = $1)'),
  ('callback_photo', 'callback', 'callback_id IN (SELECT id FROM callback WHERE job_id = $1)'),
  ('callback_event', 'callback', 'callback_id IN (SELECT id FROM callback WHERE job_id = $1)'),
  ('callback_pause', 'callback', 'callback_id IN (SELECT id FROM callback WHERE job_id = $1)'),
  ('conclusion', 'callback', 'callback_id IN (SELECT id FROM callback WHERE job_id = $1)'),
  ('conclusion_confirmation', 'callback', 'conclusion_id IN (SELECT id FROM conclusion WHERE callback_id IN (SELECT id FROM callback WHERE job_id = $1))'),
  ('account', 'callback', 'request_id IN (SELECT id FROM account_request WHERE callback_id IN (SELECT id FROM callback WHERE job_id = $1))'),
  ('counsel_mark', 'callback', 'callback_id IN (SELECT id FROM callback WHERE job_id = $1)'),
  ('remedy', 'callback', 'callback_id IN (SELECT id FROM callback WHERE job_id = $1)'),
  ('remedy_approval', 'callback', 'remedy_id IN (SELECT id FROM remedy WHERE callback_id IN (SELECT id FROM callback WHERE job_id = $1))'),
  ('remedy_conflict', 'callback', 'remedy_id IN (SELECT id FROM remedy WHERE callback_id IN (SELECT id FROM callback WHERE job_id = $1))'),
  ('estimate', 'callback', 'callback_id IN (SELECT id FROM callback WHERE job_id = $1)'),
  ('insurer_notice', 'callback', 'callback_id IN (SELECT id FROM callback WHERE job_id = $1)'),
  ('settlement_offer_end', 'callback', 'offer_id IN (SELECT id FROM settlement_offer WHERE remedy_id IN (SELECT id FROM remedy WHERE callback_id IN (SELECT id FROM callback WHERE job_id = $1)))'),
  ('court_case', 'callback', 'callback_id IN (SELECT id FROM callback WHERE job_id = $1)'),
  ('court_outcome', 'callback', 'case_id IN (SELECT id FROM court_case WHERE callback_id IN (SELECT id FROM callback WHERE job_id = $1))'),
  ('clearance', 'callback', 'callback_id IN (SELECT id FROM callback WHERE job_id = $1)'),
  ('after_check', 'callback', 'callback_id IN (SELECT id FROM callback WHERE job_id = $1)'),
  ('appeal', 'callback', 'callback_id IN (SELECT id FROM callback WHERE job_id = $1)'),
  ('client_answer', 'callback', 'callback_id IN (SELECT id FROM callback WHERE job_id = $1)'),
  ('elsewhere_look', 'callback', 'job_id = $1'),
  ('elsewhere_decision', 'callback', 'job_id = $1'),
  ('license', 'staff', 'person_id = $1'),
  ('education_entry', 'staff', 'person_id = $1'),
  ('absence', 'staff', 'person_id = $1'),
  ('work_exception', 'staff', 'person_id = $1'),
  ('mileage_entry', 'staff', 'person_id = $1'),
  ('person_bar', 'staff', 'person_id = $1'),
  ('person_party_bar', 'staff', 'person_id = $1'),
  ('pairing_rule', 'staff', 'a_id = $1'),
  ('approval_loan', 'staff', 'borrower_id = $1'),
  ('kept_search', 'staff', 'person_id = $1'),
  ('session', 'staff', 'person_id = $1');
INSERT INTO personal_column (table_name, column_name, going, blank) VALUES
  ('inquiry', 'caller', 'blank', '"(no longer kept)"'),
  ('inquiry', 'phone', 'blank', '"(no longer kept)"'),
  ('inquiry', 'email', 'blank', '""'),
  ('inquiry', 'address', 'blank', '"(no longer kept)"'),
  ('inquiry', 'draft', 'blank', '{}'),
  ('inquiry', 'note', 'blank', '""'),
  ('inquiry', 'outcome_note', 'blank', '""'),
  ('job', 'attendees', 'blank', '""'),
  ('past_job', 'reference', 'blank', '"(no longer kept)"'),
  ('job_event', 'text_id', 'text', NULL),
  ('job_need', 'details', 'blank', '{}'),
  ('job_discount', 'reason', 'blank', '"(no longer kept)"'),
  ('job_access', 'opener', 'blank', '"(no longer kept)"'),
  ('job_access', 'phone', 'blank', '"(no longer kept)"'),
  ('job_access', 'key_box', 'blank', 'null'),
  ('job_access', 'alarm', 'blank', 'null'),
  ('job_access', 'pets', 'blank', '"(no longer kept)"'),
  ('job_file', 'for_whom', 'blank', '"(no longer kept)"'),
  ('job_file', 'reason', 'blank', '"(no longer kept)"'),
  ('job_file', 'parts', 'blank', '[]'),
  ('job_file', 'held_back', 'blank', '[]'),
  ('job_file', 'file_sha256', 'file', NULL),
  ('job_file_review', 'reviewer', 'blank', '"(no longer kept)"'),
  ('reinspection_item', 'item', 'blank', '"(no longer kept)"'),
  ('hand_over_override', 'reason', 'blank', '"(no longer kept)"'),
  ('gate_override', 'reason', 'blank', '"(no longer kept)"'),
  ('visit', 'because', 'blank', '{}'),
  ('visit', 'locked_because', 'blank', '"(no longer kept)"'),
  ('visit_ending', 'text_id', 'text', NULL),
  ('visit_ending', 'photo_sha256', 'file', NULL),
  ('late_notice', 'told', 'blank', '[]'),
  ('test_step', 'details', 'blank', '{}'),
  ('test_step', 'text_id', 'text', NULL),
  ('evidence_hold', 'text_id', 'text', NULL),
  ('evidence_hold_lift', 'text_id', 'text', NULL),
  ('agreement', 'body', 'blank', '"(no longer kept)"'),
  ('signer', 'authority', 'blank', '"(no longer kept)"'),
  ('signer', 'shared_with', 'blank', '""'),
  ('signer', 'authority_sha256', 'file', NULL),
  ('signer_answer', 'reason_text_id', 'text', NULL),
  ('signature', 'device', 'blank', '""'),
  ('signature', 'kept_where', 'blank', '""'),
  ('signature', 'name_text_id', 'text', NULL),
  ('signature', 'strokes_text_id', 'text', NULL),
  ('signature', 'address_text_id', 'text', NULL),
  ('signature', 'interpreter_text_id', 'text', NULL),
  ('signature', 'photo_sha256', 'file', NULL),
  ('sealed_paper', 'content', 'blank', '""'),
  ('report', 'body', 'blank', '{}'),
  ('report', 'file_sha256', 'file', NULL),
  ('report_consent', 'note', 'blank', '""'),
  ('invoice_act', 'reason', 'blank', '"(no longer kept)"'),
  ('step_entry', 'value', 'blank', '{}'),
  ('step_entry', 'reason', 'blank', '"(no longer kept)"'),
  ('step_entry', 'text_id', 'text', NULL),
  ('record_supplement', 'text_id', 'text', NULL),
  ('record_given_out', 'text_id', 'text', NULL),
  ('site_photo', 'original_sha256', 'file', NULL),
  ('site_photo', 'copy_sha256', 'file', NULL),
  ('site_photo_opening', 'text_id', 'text', NULL),
  ('outgoing_mail', 'to_address', 'blank', '"(no longer kept)"'),
  ('outgoing_mail', 'to_name', 'blank', '"(no longer kept)"'),
  ('outgoing_mail', 'subject', 'blank', '"(no longer kept)"'),
  ('outgoing_mail', 'body', 'blank', '"(no longer kept)"'),
  ('outgoing_mail', 'last_error', 'blank', '"(no longer kept)"'),
  ('outgoing_mail', 'calendar', 'blank', 'null'),
  ('mail_attachment', 'name', 'blank', '"(no longer kept)"'),
  ('mail_attachment', 'sha256', 'file', NULL),
  ('contact_note', 'text_id', 'text', NULL),
  ('callback', 'place', 'blank', '"(no longer kept)"'),
  ('callback', 'remedy_sought', 'blank', '"(no longer kept)"'),
  ('callback', 'text_id', 'text', NULL),
  ('callback_intake', 'text_id', 'text', NULL),
  ('callback_photo', 'name', 'blank', '"(no longer kept)"'),
  ('callback_photo', 'original_sha256', 'file', NULL),
  ('callback_photo', 'copy_sha256', 'file', NULL),
  ('callback_event', 'text_id', 'text', NULL),
  ('callback_pause', 'text_id', 'text', NULL),
  ('conclusion', 'text_id', 'text', NULL),
  ('conclusion_confirmation', 'text_id', 'text', NULL),
  ('account', 'seen_text_id', 'text', NULL),
  ('account', 'did_text_id', 'text', NULL),
  ('counsel_mark', 'text_id', 'text', NULL),
  ('remedy', 'payee', 'blank', '"(no longer kept)"'),
  ('remedy', 'text_id', 'text', NULL),
  ('remedy_approval', 'reviewer', 'blank', '"(no longer kept)"'),
  ('remedy_approval', 'text_id', 'text', NULL),
  ('remedy_conflict', 'sentence', 'blank', '"(no longer kept)"'),
  ('remedy_conflict', 'reason', 'blank', '"(no longer kept)"'),
  ('estimate', 'contractor', 'blank', '"(no longer kept)"'),
  ('estimate', 'license', 'blank', '""'),
  ('estimate', 'scope', 'blank', '"(no longer kept)"'),
  ('estimate', 'file_sha256', 'file', NULL),
  ('insurer_notice', 'text_id', 'text', NULL),
  ('settlement_offer_end', 'text_id', 'text', NULL),
  ('court_case', 'reference', 'blank', '"(no longer kept)"'),
  ('court_outcome', 'text_id', 'text', NULL),
  ('clearance', 'text_id', 'text', NULL),
  ('after_check', 'text_id', 'text', NULL),
  ('appeal', 'reviewer', 'blank', '"(no longer kept)"'),
  ('appeal', 'text_id', 'text', NULL),
  ('appeal', 'result_text_id', 'text', NULL),
  ('client_answer', 'text_id', 'text', NULL),
  ('elsewhere_look', 'text_id', 'text', NULL),
  ('elsewhere_decision', 'insurer_word', 'blank', '"(no longer kept)"'),
  ('elsewhere_decision', 'attorney_word', 'blank', '"(no longer kept)"'),
  ('elsewhere_decision', 'told', 'blank', '[]'),
  ('elsewhere_decision', 'text_id', 'text', NULL),
  ('license', 'number', 'blank', '"#id"'),
  ('education_entry', 'title', 'blank', '"(no longer kept)"'),
  ('education_entry', 'file_sha256', 'file', NULL),
  ('absence', 'reason', 'blank', '"(no longer kept)"'),
  ('absence', 'decision', 'blank', '"(no longer kept)"'),
  ('work_exception', 'note', 'blank', '""'),
  ('mileage_entry', 'note', 'blank', '""'),
  ('person_bar', 'reason', 'blank', 'null'),
  ('person_party_bar', 'reason', 'blank', 'null'),
  ('pairing_rule', 'reason', 'blank', '"(no longer kept)"'),
  ('approval_loan', 'reason', 'blank', '"(no longer kept)"'),
  ('kept_search', 'name', 'blank', '"#id"'),
  ('session', 'agent', 'blank', '""');

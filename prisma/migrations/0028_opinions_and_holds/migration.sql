-- Conclusions say more and are confirmed, the two of the pair give their accounts, opinions are marked for counsel, and evidence is held.
ALTER TABLE "conclusion" ADD COLUMN "error_kind" TEXT,
ADD COLUMN "permission_id" UUID,
ADD COLUMN "circumstances" TEXT[] DEFAULT ARRAY[]::TEXT[],
ADD COLUMN "needs_confirmation" BOOLEAN NOT NULL DEFAULT false;

CREATE TABLE "conclusion_confirmation" (
    "id" UUID NOT NULL,
    "conclusion_id" UUID NOT NULL,
    "way" TEXT NOT NULL,
    "text_id" UUID,
    "actor_id" UUID NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    CONSTRAINT "conclusion_confirmation_pkey" PRIMARY KEY ("id")
);
CREATE TABLE "error_kind_permission" (
    "id" UUID NOT NULL,
    "allowed" BOOLEAN NOT NULL,
    "text_id" UUID,
    "asked_on" DATE,
    "actor_id" UUID NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    CONSTRAINT "error_kind_permission_pkey" PRIMARY KEY ("id")
);
CREATE TABLE "account_request" (
    "id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "asked_by" UUID NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    CONSTRAINT "account_request_pkey" PRIMARY KEY ("id")
);
CREATE TABLE "account" (
    "id" UUID NOT NULL,
    "request_id" UUID NOT NULL,
    "seq" INTEGER NOT NULL,
    "seen_text_id" UUID NOT NULL,
    "did_text_id" UUID NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    CONSTRAINT "account_pkey" PRIMARY KEY ("id")
);
CREATE TABLE "counsel_mark" (
    "id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,
    "text_id" UUID NOT NULL,
    "requested_on" DATE NOT NULL,
    "actor_id" UUID NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    CONSTRAINT "counsel_mark_pkey" PRIMARY KEY ("id")
);
CREATE TABLE "evidence_hold" (
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "text_id" UUID NOT NULL,
    "actor_id" UUID NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    CONSTRAINT "evidence_hold_pkey" PRIMARY KEY ("id")
);
CREATE TABLE "evidence_hold_lift" (
    "hold_id" UUID NOT NULL,
    "text_id" UUID NOT NULL,
    "actor_id" UUID NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    CONSTRAINT "evidence_hold_lift_pkey" PRIMARY KEY ("hold_id")
);

CREATE UNIQUE INDEX "conclusion_confirmation_conclusion_id_key" ON "conclusion_confirmation"("conclusion_id");
CREATE UNIQUE INDEX "account_request_callback_id_person_id_key" ON "account_request"("callback_id", "person_id");
CREATE UNIQUE INDEX "account_request_id_seq_key" ON "account"("request_id", "seq");
CREATE INDEX "counsel_mark_callback_id_idx" ON "counsel_mark"("callback_id");
CREATE INDEX "evidence_hold_job_id_idx" ON "evidence_hold"("job_id");

ALTER TABLE "conclusion" ADD CONSTRAINT "conclusion_permission_id_fkey" FOREIGN KEY ("permission_id") REFERENCES "error_kind_permission"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "conclusion_confirmation" ADD CONSTRAINT "conclusion_confirmation_conclusion_id_fkey" FOREIGN KEY ("conclusion_id") REFERENCES "conclusion"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "conclusion_confirmation" ADD CONSTRAINT "conclusion_confirmation_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "conclusion_confirmation" ADD CONSTRAINT "conclusion_confirmation_actor_id_fkey" FOREIGN KEY ("actor_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "error_kind_permission" ADD CONSTRAINT "error_kind_permission_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "error_kind_permission" ADD CONSTRAINT "error_kind_permission_actor_id_fkey" FOREIGN KEY ("actor_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "account_request" ADD CONSTRAINT "account_request_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "account_request" ADD CONSTRAINT "account_request_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "account_request" ADD CONSTRAINT "account_request_asked_by_fkey" FOREIGN KEY ("asked_by") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "account" ADD CONSTRAINT "account_request_id_fkey" FOREIGN KEY ("request_id") REFERENCES "account_request"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "account" ADD CONSTRAINT "account_seen_text_id_fkey" FOREIGN KEY ("seen_text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "account" ADD CONSTRAINT "account_did_text_id_fkey" FOREIGN KEY ("did_text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "counsel_mark" ADD CONSTRAINT "counsel_mark_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "counsel_mark" ADD CONSTRAINT "counsel_mark_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "counsel_mark" ADD CONSTRAINT "counsel_mark_actor_id_fkey" FOREIGN KEY ("actor_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "evidence_hold" ADD CONSTRAINT "evidence_hold_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "evidence_hold" ADD CONSTRAINT "evidence_hold_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "evidence_hold" ADD CONSTRAINT "evidence_hold_actor_id_fkey" FOREIGN KEY ("actor_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "evidence_hold_lift" ADD CONSTRAINT "evidence_hold_lift_hold_id_fkey" FOREIGN KEY ("hold_id") REFERENCES "evidence_hold"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "evidence_hold_lift" ADD CONSTRAINT "evidence_hold_lift_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "evidence_hold_lift" ADD CONSTRAINT "evidence_hold_lift_actor_id_fkey" FOREIGN KEY ("actor_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---------- closed lists ----------
ALTER TABLE conclusion ADD CONSTRAINT conclusion_error_kind CHECK (error_kind IN ('slip', 'lapse', 'rule_mistake', 'knowledge_mistake', 'violation_routine', 'violation_situational', 'violation_optimizing', 'violation_exceptional', 'procedure_gap', 'hidden'));
-- An error is one of a step; only what is no error at all may stand without one. Each names the permission under which it was recorded.
ALTER TABLE conclusion ADD CONSTRAINT conclusion_error_of_step CHECK (error_kind IS NULL OR error_kind IN ('procedure_gap', 'hidden') OR step_key IS NOT NULL);
ALTER TABLE conclusion ADD CONSTRAINT conclusion_error_permitted CHECK ((error_kind IS NULL) = (permission_id IS NULL));
ALTER TABLE conclusion ADD CONSTRAINT conclusion_circumstances CHECK (circumstances <@ ARRAY['time_pressure', 'weather', 'occupied', 'split_unclear', 'kit_missing', 'light', 'other']);
ALTER TABLE conclusion_confirmation ADD CONSTRAINT confirmation_known CHECK (way IN ('person', 'outside') AND (way = 'person' OR text_id IS NOT NULL));
ALTER TABLE error_kind_permission ADD CONSTRAINT error_kind_permission_whole CHECK (NOT allowed OR (text_id IS NOT NULL AND asked_on IS NOT NULL));

-- Nobody confirms their own conclusion.
CREATE FUNCTION check_confirmation() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.way = 'person' AND EXISTS (SELECT FROM conclusion WHERE id = NEW.conclusion_id AND actor_id = NEW.actor_id) THEN PERFORM rule_broken('own_conclusion'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER own_conclusion BEFORE INSERT ON conclusion_confirmation FOR EACH ROW EXECUTE FUNCTION check_confirmation();

-- ---------- the hold ----------
-- Why nothing of a job may be erased now; null when nothing holds it. Erasing of any kind asks here, whoever does it.
CREATE FUNCTION evidence_held_because(the_job uuid) RETURNS text LANGUAGE sql STABLE AS $$
  SELECT coalesce(
    (SELECT 'callback ' || min(number) || ' is open' FROM callback WHERE job_id = the_job AND state <> 'closed' AND kind <> 'question' HAVING count(*) > 0),
    (SELECT 'held by hand since ' || min(h.happened_at)::date FROM evidence_hold h WHERE h.job_id = the_job AND NOT EXISTS (SELECT FROM evidence_hold_lift l WHERE l.hold_id = h.id) HAVING count(*) > 0));
$$;

-- The jobs to which a row belongs: by its own columns, else along its foreign keys, those of tables that come later too. People, property and words lead to nobody's job.
CREATE FUNCTION jobs_of_row(of_table text, r jsonb, far integer DEFAULT 4) RETURNS SETOF uuid LANGUAGE plpgsql STABLE AS $$
DECLARE
  f record;
  next_row jsonb;
BEGIN
  IF of_table = 'job' THEN RETURN NEXT (r ->> 'id')::uuid; RETURN; END IF;
  IF r ->> 'job_id' IS NOT NULL THEN RETURN NEXT (r ->> 'job_id')::uuid; RETURN; END IF;
  IF of_table = 'outgoing_mail' THEN
    RETURN QUERY SELECT x.job_id FROM (SELECT id, id AS job_id FROM job UNION ALL SELECT id, job_id FROM callback UNION ALL SELECT id, job_id FROM agreement UNION ALL SELECT id, job_id FROM report
      UNION ALL SELECT id, job_id FROM invoice UNION ALL SELECT id, job_id FROM visit) x WHERE x.id = (r ->> 'about_id')::uuid;
    RETURN;
  END IF;
  IF far = 0 THEN RETURN; END IF;
  FOR f IN SELECT c.confrelid::regclass::text AS t, a.attname AS col, b.attname AS key FROM pg_constraint c JOIN pg_attribute a ON a.attrelid = c.conrelid AND a.attnum = c.conkey[1]
      JOIN pg_attribute b ON b.attrelid = c.confrelid AND b.attnum = c.confkey[1]
    WHERE c.contype = 'f' AND c.conrelid = of_table::regclass AND cardinality(c.conkey) = 1 AND c.confrelid <> c.conrelid
      AND c.confrelid::regclass::text NOT IN ('kept_text', 'person', 'party', 'property', 'office', 'stored_file', 'procedure', 'procedure_revision', 'step_key', 'insurance_policy') LOOP
    CONTINUE WHEN r ->> f.col IS NULL;
    EXECUTE format('SELECT to_jsonb(x) FROM %I x WHERE x.%I::text = $1', f.t, f.key) INTO next_row USING r ->> f.col;
    IF next_row IS NOT NULL THEN RETURN QUERY SELECT jobs_of_row(f.t, next_row, far - 1); END IF;
  END LOOP;
END $$;
CREATE FUNCTION refuse_while_held() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (SELECT FROM jobs_of_row(TG_TABLE_NAME, to_jsonb(OLD)) j WHERE evidence_held_because(j) IS NOT NULL) THEN PERFORM rule_broken('evidence_held'); END IF;
  RETURN CASE TG_OP WHEN 'DELETE' THEN OLD ELSE NEW END;
END $$;
DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['job', 'job_party', 'visit', 'visit_ending', 'site_record', 'report', 'callback', 'remedy', 'contact_note', 'outgoing_mail', 'test_item', 'test_step', 'job_file', 'signer', 'sealed_paper'] LOOP
    EXECUTE format('CREATE TRIGGER evidence_held BEFORE DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_while_held()', t);
  END LOOP;
END $$;
-- The words of a letter that went out are evidence as well.
CREATE TRIGGER evidence_held_words BEFORE UPDATE OF body, subject ON outgoing_mail FOR EACH ROW EXECUTE FUNCTION refuse_while_held();

-- Words are erased whole, by the one function, and not while a job to which they belong is held: every table that keeps words is asked, those of later migrations too.
CREATE OR REPLACE FUNCTION check_text() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  f record;
  held boolean;
BEGIN
  IF TG_OP = 'DELETE' OR NEW.body IS NOT NULL OR NEW.salt IS NOT NULL OR NEW.erased_at IS NULL OR (NEW.id, NEW.digest, NEW.recorded_at) IS DISTINCT FROM (OLD.id, OLD.digest, OLD.recorded_at) THEN PERFORM rule_broken('history_is_kept'); END IF;
  FOR f IN SELECT c.conrelid::regclass::text AS t, a.attname AS col FROM pg_constraint c JOIN pg_attribute a ON a.attrelid = c.conrelid AND a.attnum = c.conkey[1]
    WHERE c.contype = 'f' AND c.confrelid = 'kept_text'::regclass LOOP
    EXECUTE format('SELECT EXISTS (SELECT FROM %I x, jobs_of_row(%L, to_jsonb(x)) j WHERE x.%I = $1 AND evidence_held_because(j) IS NOT NULL)', f.t, f.t, f.col) INTO held USING OLD.id;
    IF held THEN PERFORM rule_broken('evidence_held'); END IF;
  END LOOP;
  RETURN NEW;
END $$;

-- ---------- only ever added ----------
DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['conclusion_confirmation', 'error_kind_permission', 'account_request', 'account', 'counsel_mark', 'evidence_hold', 'evidence_hold_lift'] LOOP
    EXECUTE format('CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t);
    EXECUTE format('CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t);
    IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN EXECUTE format('REVOKE UPDATE, DELETE, TRUNCATE ON %I FROM backsight_app', t); END IF;
  END LOOP;
END $$;

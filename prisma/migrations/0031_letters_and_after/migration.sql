-- What follows a callback: who looks into it, the check after closing, the appeal, and what the client says of it.
CREATE TABLE "after_rules" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "check_days" INTEGER NOT NULL DEFAULT 30,
    "appeal_days" INTEGER NOT NULL DEFAULT 30,
    "decide_days" INTEGER NOT NULL DEFAULT 30,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "after_rules_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "callback_assessment" (
    "id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,
    "severity" TEXT NOT NULL,
    "at_once" BOOLEAN NOT NULL,
    "assignee_id" UUID NOT NULL,
    "actor_id" UUID NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "callback_assessment_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "after_check" (
    "id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,
    "due_on" DATE NOT NULL,
    "person_id" UUID NOT NULL,
    "outcome" TEXT,
    "text_id" UUID,
    "repeat_id" UUID,
    "actor_id" UUID,
    "done_at" TIMESTAMPTZ(3),
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "after_check_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "appeal" (
    "id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,
    "way" TEXT NOT NULL,
    "text_id" UUID NOT NULL,
    "due_on" DATE NOT NULL,
    "result" TEXT,
    "result_text_id" UUID,
    "decided_by" UUID,
    "involved" BOOLEAN,
    "reviewer" TEXT NOT NULL DEFAULT '',
    "decided_at" TIMESTAMPTZ(3),
    "received_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "appeal_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "answer_link" (
    "id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "token_hash" TEXT NOT NULL,
    "ends_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "answer_link_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "client_answer" (
    "id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,
    "answer" TEXT NOT NULL,
    "text_id" UUID,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "client_answer_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "callback_assessment_callback_id_idx" ON "callback_assessment"("callback_id");
CREATE INDEX "after_check_callback_id_idx" ON "after_check"("callback_id");
CREATE INDEX "appeal_callback_id_idx" ON "appeal"("callback_id");
CREATE UNIQUE INDEX "answer_link_token_hash_key" ON "answer_link"("token_hash");
CREATE INDEX "answer_link_callback_id_idx" ON "answer_link"("callback_id");
CREATE INDEX "client_answer_callback_id_idx" ON "client_answer"("callback_id");

ALTER TABLE "callback_assessment" ADD CONSTRAINT "callback_assessment_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "callback_assessment" ADD CONSTRAINT "callback_assessment_assignee_id_fkey" FOREIGN KEY ("assignee_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "after_check" ADD CONSTRAINT "after_check_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "after_check" ADD CONSTRAINT "after_check_repeat_id_fkey" FOREIGN KEY ("repeat_id") REFERENCES "callback"("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE "after_check" ADD CONSTRAINT "after_check_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "after_check" ADD CONSTRAINT "after_check_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE "appeal" ADD CONSTRAINT "appeal_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "appeal" ADD CONSTRAINT "appeal_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "appeal" ADD CONSTRAINT "appeal_result_text_id_fkey" FOREIGN KEY ("result_text_id") REFERENCES "kept_text"("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE "answer_link" ADD CONSTRAINT "answer_link_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "answer_link" ADD CONSTRAINT "answer_link_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "client_answer" ADD CONSTRAINT "client_answer_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "client_answer" ADD CONSTRAINT "client_answer_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- ---------- rules ----------
ALTER TABLE after_rules ADD CONSTRAINT after_rules_one CHECK (id = 1 AND check_days BETWEEN 1 AND 365 AND appeal_days BETWEEN 1 AND 365 AND decide_days BETWEEN 1 AND 365);
INSERT INTO after_rules DEFAULT VALUES;
ALTER TABLE callback_assessment ADD CONSTRAINT callback_assessment_known CHECK (severity IN ('nuisance', 'loss', 'unusable', 'danger'));
ALTER TABLE after_check ADD CONSTRAINT after_check_known CHECK (
  (outcome IS NULL OR outcome IN ('held', 'came_back', 'not_reached', 'reopened')) AND (outcome IS NULL) = (done_at IS NULL));
ALTER TABLE appeal ADD CONSTRAINT appeal_known CHECK (way IN ('link', 'office') AND (result IS NULL OR result IN ('upheld', 'changed'))
  AND (result IS NULL) = (decided_at IS NULL) AND (result IS NULL OR (decided_by IS NOT NULL AND involved IS NOT NULL AND result_text_id IS NOT NULL))
  AND (involved IS NOT TRUE OR reviewer <> ''));
ALTER TABLE client_answer ADD CONSTRAINT client_answer_known CHECK (answer IN ('very_well', 'well', 'neither', 'badly', 'very_badly'));

-- One check and one appeal at a time.
CREATE UNIQUE INDEX after_check_one_open ON after_check (callback_id) WHERE outcome IS NULL;
CREATE UNIQUE INDEX appeal_one_open ON appeal (callback_id) WHERE result IS NULL;
CREATE INDEX after_check_due ON after_check (due_on) WHERE outcome IS NULL;

-- A check and an appeal are answered once; the rest is never changed.
CREATE FUNCTION check_answered_once() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'DELETE' THEN PERFORM rule_broken('history_is_kept'); END IF;
  IF TG_TABLE_NAME = 'after_check' THEN
    IF OLD.outcome IS NOT NULL OR (NEW.id, NEW.callback_id, NEW.due_on, NEW.recorded_at) IS DISTINCT FROM (OLD.id, OLD.callback_id, OLD.due_on, OLD.recorded_at) THEN PERFORM rule_broken('history_is_kept'); END IF;
  ELSIF OLD.result IS NOT NULL OR (NEW.id, NEW.callback_id, NEW.way, NEW.text_id, NEW.due_on, NEW.received_at) IS DISTINCT FROM (OLD.id, OLD.callback_id, OLD.way, OLD.text_id, OLD.due_on, OLD.received_at) THEN PERFORM rule_broken('history_is_kept');
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER answered_once BEFORE UPDATE OR DELETE ON after_check FOR EACH ROW EXECUTE FUNCTION check_answered_once();
CREATE TRIGGER answered_once BEFORE UPDATE OR DELETE ON appeal FOR EACH ROW EXECUTE FUNCTION check_answered_once();

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['callback_assessment', 'answer_link', 'client_answer'] LOOP
    EXECUTE format('CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t);
    EXECUTE format('CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t);
    IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN EXECUTE format('REVOKE UPDATE, DELETE, TRUNCATE ON %I FROM backsight_app', t); END IF;
  END LOOP;
END $$;

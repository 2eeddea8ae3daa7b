-- What is changed because of callbacks, to its end: what was done, what it did to the step, and where else the same gap may be.
ALTER TABLE "corrective_action" ADD COLUMN "version" INTEGER NOT NULL DEFAULT 1,
  ADD COLUMN "changed_at" TIMESTAMPTZ(3),
  ADD COLUMN "reopened_at" TIMESTAMPTZ(3),
  ADD COLUMN "review_on" DATE,
  ADD COLUMN "reviewer_id" UUID;

CREATE TABLE "corrective_action_event" (
    "id" UUID NOT NULL,
    "action_id" UUID NOT NULL,
    "seq" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "details" JSONB NOT NULL,
    "text_id" UUID,
    "conclusion_id" UUID,
    "actor_id" UUID,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "corrective_action_event_pkey" PRIMARY KEY ("id")
);
CREATE TABLE "elsewhere_look" (
    "id" UUID NOT NULL,
    "action_id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "gap" TEXT NOT NULL,
    "verdict" TEXT NOT NULL,
    "text_id" UUID NOT NULL,
    "actor_id" UUID NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "elsewhere_look_pkey" PRIMARY KEY ("id")
);
CREATE TABLE "elsewhere_decision" (
    "id" UUID NOT NULL,
    "action_id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "decision" TEXT NOT NULL,
    "danger" BOOLEAN NOT NULL,
    "insurer_word" TEXT NOT NULL,
    "attorney_word" TEXT NOT NULL,
    "told" JSONB NOT NULL,
    "text_id" UUID NOT NULL,
    "actor_id" UUID NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "elsewhere_decision_pkey" PRIMARY KEY ("id")
);
CREATE UNIQUE INDEX "corrective_action_event_action_id_seq_key" ON "corrective_action_event"("action_id", "seq");
CREATE UNIQUE INDEX "corrective_action_event_action_id_conclusion_id_key" ON "corrective_action_event"("action_id", "conclusion_id");
CREATE INDEX "elsewhere_look_action_id_job_id_idx" ON "elsewhere_look"("action_id", "job_id");
CREATE INDEX "elsewhere_decision_action_id_job_id_idx" ON "elsewhere_decision"("action_id", "job_id");
ALTER TABLE "corrective_action" ADD CONSTRAINT "corrective_action_reviewer_id_fkey" FOREIGN KEY ("reviewer_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "corrective_action_event" ADD CONSTRAINT "corrective_action_event_action_id_fkey" FOREIGN KEY ("action_id") REFERENCES "corrective_action"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "corrective_action_event" ADD CONSTRAINT "corrective_action_event_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "corrective_action_event" ADD CONSTRAINT "corrective_action_event_conclusion_id_fkey" FOREIGN KEY ("conclusion_id") REFERENCES "conclusion"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "elsewhere_look" ADD CONSTRAINT "elsewhere_look_action_id_fkey" FOREIGN KEY ("action_id") REFERENCES "corrective_action"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "elsewhere_look" ADD CONSTRAINT "elsewhere_look_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "elsewhere_look" ADD CONSTRAINT "elsewhere_look_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "elsewhere_decision" ADD CONSTRAINT "elsewhere_decision_action_id_fkey" FOREIGN KEY ("action_id") REFERENCES "corrective_action"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "elsewhere_decision" ADD CONSTRAINT "elsewhere_decision_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "elsewhere_decision" ADD CONSTRAINT "elsewhere_decision_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- Of training and kit the change begins when it was done; of a revision when it is in force.
UPDATE corrective_action SET changed_at = done_at WHERE kind <> 'revision' AND state = 'done';
ALTER TABLE corrective_action DROP CONSTRAINT corrective_action_known;
ALTER TABLE corrective_action ADD CONSTRAINT corrective_action_known CHECK (
  kind IN ('revision', 'training', 'kit', 'none') AND state IN ('open', 'done', 'dropped') AND (state = 'done') = (done_at IS NOT NULL)
  AND (state <> 'done' OR kind = 'revision' OR changed_at IS NOT NULL)
  AND (review_on IS NULL) = (reviewer_id IS NULL));
ALTER TABLE corrective_action_event ADD CONSTRAINT corrective_action_event_known CHECK (
  kind IN ('decided', 'replanned', 'linked', 'done', 'dropped', 'recurred', 'reviewed') AND (kind = 'recurred') = (conclusion_id IS NOT NULL));
-- Nothing is done, dropped or reviewed without saying what; a review keeps the figures that were seen.
ALTER TABLE corrective_action_event ADD CONSTRAINT done_needs_what CHECK (
  (kind NOT IN ('done', 'dropped', 'reviewed') OR text_id IS NOT NULL OR details ? 'revisionId')
  AND (kind <> 'reviewed' OR (details ? 'result' AND details ? 'figures')));
ALTER TABLE elsewhere_look ADD CONSTRAINT elsewhere_look_known CHECK (
  gap IN ('no_entry', 'could_not', 'differs', 'not_followed', 'outside', 'partner_differs', 'extra_not_done') AND verdict IN ('same_gap', 'fine', 'cannot_tell'));
-- Clients are told after the insurer's word; of a danger at once.
ALTER TABLE elsewhere_decision ADD CONSTRAINT insurer_word_needed CHECK (decision IN ('tell', 'not_tell') AND (danger OR insurer_word <> ''));
CREATE UNIQUE INDEX told_already ON elsewhere_decision (action_id, job_id) WHERE decision = 'tell';

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['corrective_action_event', 'elsewhere_look', 'elsewhere_decision'] LOOP
    EXECUTE format('CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t);
    EXECUTE format('CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t);
    IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN EXECUTE format('REVOKE UPDATE, DELETE, TRUNCATE ON %I FROM backsight_app', t); END IF;
  END LOOP;
END $$;

-- Actions of before begin their history with what is known of them.
INSERT INTO corrective_action_event (id, action_id, seq, kind, details, happened_at)
SELECT gen_random_uuid(), a.id, 1, 'decided', jsonb_build_object('kind', a.kind, 'dueOn', a.due_on), a.recorded_at FROM corrective_action a;

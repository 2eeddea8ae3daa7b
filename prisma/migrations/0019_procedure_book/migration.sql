-- What a revision asks of the inspectors: whether they acknowledge it at all, and which questions come with it; revisions that retire a procedure.
ALTER TABLE "procedure_revision" ADD COLUMN "asks" BOOLEAN NOT NULL DEFAULT true,
ADD COLUMN "retires" BOOLEAN NOT NULL DEFAULT false,
ADD COLUMN "questions" JSONB NOT NULL DEFAULT '[]',
ADD COLUMN "grace_text_id" UUID;

-- CreateTable
CREATE TABLE "revision_answer" (
    "id" UUID NOT NULL,
    "revision_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "question" TEXT NOT NULL,
    "option" TEXT NOT NULL,
    "correct" BOOLEAN NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "revision_answer_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "revision_answer_revision_id_person_id_idx" ON "revision_answer"("revision_id", "person_id");

-- AddForeignKey
ALTER TABLE "procedure_revision" ADD CONSTRAINT "procedure_revision_grace_text_id_fkey" FOREIGN KEY ("grace_text_id") REFERENCES "kept_text"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "revision_answer" ADD CONSTRAINT "revision_answer_revision_id_fkey" FOREIGN KEY ("revision_id") REFERENCES "procedure_revision"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "revision_answer" ADD CONSTRAINT "revision_answer_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- Until now the first revision of every procedure came with the set-up of the firm, and nobody was asked to acknowledge it.
ALTER TABLE procedure_revision DISABLE TRIGGER revision_immutable;
UPDATE procedure_revision SET asks = false WHERE number = 1;
ALTER TABLE procedure_revision ENABLE TRIGGER revision_immutable;

-- An approved revision keeps every word of it; withdrawing changes its state alone.
CREATE OR REPLACE FUNCTION check_revision() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.state <> 'draft' AND NOT (OLD.state = 'approved' AND NEW.state = 'withdrawn' AND NOT EXISTS (SELECT FROM in_force_period WHERE revision_id = OLD.id AND from_at <= NEW.recorded_at)
    AND (NEW.id, NEW.procedure_id, NEW.number, NEW.author_id, NEW.approver_id, NEW.reason, NEW.questions, NEW.asks, NEW.retires, NEW.based_on_id, NEW.in_force_from, NEW.acknowledge_by, NEW.grace_text_id)
      IS NOT DISTINCT FROM (OLD.id, OLD.procedure_id, OLD.number, OLD.author_id, OLD.approver_id, OLD.reason, OLD.questions, OLD.asks, OLD.retires, OLD.based_on_id, OLD.in_force_from, OLD.acknowledge_by, OLD.grace_text_id)) THEN
    PERFORM rule_broken('revision_immutable');
  END IF;
  RETURN NEW;
END $$;

-- A revision that retires its procedure holds no steps.
CREATE OR REPLACE FUNCTION check_revision_step() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE r record;
BEGIN
  SELECT state, retires INTO r FROM procedure_revision WHERE id = coalesce(OLD.revision_id, NEW.revision_id);
  IF r.state <> 'draft' THEN PERFORM rule_broken('revision_immutable'); END IF;
  IF r.retires AND TG_OP <> 'DELETE' THEN PERFORM rule_broken('retirement_without_steps'); END IF;
  RETURN coalesce(NEW, OLD);
END $$;

-- Days on which the first office is open, after the day of one instant and up to the day of another; holidays by law are counted by the service besides.
CREATE FUNCTION open_days_between(from_at timestamptz, to_at timestamptz) RETURNS bigint LANGUAGE sql STABLE AS $$
  SELECT count(*) FROM (SELECT zone, hours FROM office ORDER BY name LIMIT 1) o,
    generate_series((from_at AT TIME ZONE o.zone)::date + 1, (to_at AT TIME ZONE o.zone)::date, interval '1 day') d
  WHERE jsonb_typeof(o.hours -> extract(isodow FROM d)::int::text) = 'array' AND NOT EXISTS (SELECT FROM closed_day c WHERE c.day = d::date);
$$;

-- Inspectors get two working days to acknowledge; less only from an owner, with the reason kept.
CREATE FUNCTION check_grace() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.state = 'approved' AND NEW.asks AND open_days_between(NEW.in_force_from, NEW.acknowledge_by) < 2
    AND (NEW.grace_text_id IS NULL OR NOT EXISTS (SELECT FROM person_role WHERE person_id = NEW.approver_id AND role = 'owner')) THEN
    PERFORM rule_broken('grace_needs_owner');
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER grace_needs_owner BEFORE INSERT OR UPDATE OF state ON procedure_revision FOR EACH ROW WHEN (NEW.state = 'approved') EXECUTE FUNCTION check_grace();

DO $$
BEGIN
  CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON revision_answer FOR EACH ROW EXECUTE FUNCTION refuse_change();
  CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON revision_answer FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
  IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN REVOKE UPDATE, DELETE, TRUNCATE ON revision_answer FROM backsight_app; END IF;
END $$;

-- What the pair does on site besides the steps: return times, supplements, and who was given a record.
CREATE TABLE "return_watch" (
    "entry_id" UUID NOT NULL,
    "record_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "place" TEXT NOT NULL,
    "back_by" TIMESTAMPTZ(3) NOT NULL,
    "out_at" TIMESTAMPTZ(3),
    "partner_told_at" TIMESTAMPTZ(3),
    "office_told_at" TIMESTAMPTZ(3),
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "return_watch_pkey" PRIMARY KEY ("entry_id")
);

CREATE TABLE "record_supplement" (
    "id" UUID NOT NULL,
    "record_id" UUID NOT NULL,
    "text_id" UUID NOT NULL,
    "written_by" UUID NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "record_supplement_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "record_given_out" (
    "id" UUID NOT NULL,
    "record_id" UUID NOT NULL,
    "to_kind" TEXT NOT NULL,
    "text_id" UUID NOT NULL,
    "seal_sha256" TEXT NOT NULL,
    "given_by" UUID NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "record_given_out_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "sitework_rules" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "double_look_one_in" INTEGER NOT NULL DEFAULT 5,
    "show_agreement" BOOLEAN NOT NULL DEFAULT false,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "sitework_rules_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "record_supplement_record_id_idx" ON "record_supplement"("record_id");
CREATE INDEX "record_given_out_record_id_idx" ON "record_given_out"("record_id");

ALTER TABLE "return_watch" ADD CONSTRAINT "return_watch_entry_id_fkey" FOREIGN KEY ("entry_id") REFERENCES "step_entry"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "return_watch" ADD CONSTRAINT "return_watch_record_id_fkey" FOREIGN KEY ("record_id") REFERENCES "site_record"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "record_supplement" ADD CONSTRAINT "record_supplement_record_id_fkey" FOREIGN KEY ("record_id") REFERENCES "site_record"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "record_supplement" ADD CONSTRAINT "record_supplement_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "record_given_out" ADD CONSTRAINT "record_given_out_record_id_fkey" FOREIGN KEY ("record_id") REFERENCES "site_record"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "record_given_out" ADD CONSTRAINT "record_given_out_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---------- rules ----------
ALTER TABLE step_entry DROP CONSTRAINT step_entry_known;
ALTER TABLE step_entry ADD CONSTRAINT step_entry_known CHECK (outcome IN ('done', 'none_at_property', 'could_not', 'from_opening', 'ended_before') AND match IN ('not_asked', 'as_expected', 'outside', 'differs'));
ALTER TABLE step_entry DROP CONSTRAINT step_entry_reason;
ALTER TABLE step_entry ADD CONSTRAINT step_entry_reason CHECK (outcome NOT IN ('could_not', 'from_opening') OR reason IS NOT NULL);
ALTER TABLE return_watch ADD CONSTRAINT return_watch_known CHECK (place IN ('crawl_space', 'attic', 'roof'));
ALTER TABLE record_given_out ADD CONSTRAINT record_given_out_known CHECK (to_kind IN ('attorney', 'insurer', 'board', 'court', 'client', 'other'));
ALTER TABLE sitework_rules ADD CONSTRAINT sitework_rules_one CHECK (id = 1 AND double_look_one_in BETWEEN 0 AND 100);
INSERT INTO sitework_rules DEFAULT VALUES;

-- Whoever is still inside, few at any time; the clock asks every minute.
CREATE INDEX return_watch_inside ON return_watch (back_by) WHERE out_at IS NULL;

-- A supplement belongs to a record that is sealed: what is seen before belongs to its steps. Only a sealed record is given out.
CREATE FUNCTION check_record_is_sealed() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF (SELECT state <> 'sealed' FROM site_record WHERE id = NEW.record_id) THEN PERFORM rule_broken('supplement_of_open_record'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER supplement_of_open_record BEFORE INSERT ON record_supplement FOR EACH ROW EXECUTE FUNCTION check_record_is_sealed();
CREATE TRIGGER supplement_of_open_record BEFORE INSERT ON record_given_out FOR EACH ROW EXECUTE FUNCTION check_record_is_sealed();

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['record_supplement', 'record_given_out'] LOOP
    EXECUTE format('CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t);
    EXECUTE format('CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t);
    IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN EXECUTE format('REVOKE UPDATE, DELETE, TRUNCATE ON %I FROM backsight_app', t); END IF;
  END LOOP;
END $$;

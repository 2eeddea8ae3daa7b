-- How a callback came in, its photos, which earlier one it belongs to, and the firm's advice in danger.
ALTER TABLE "callback" ADD COLUMN "duplicate_of" UUID, ADD COLUMN "repeat_of" UUID;

CREATE TABLE "callback_intake" (
    "callback_id" UUID NOT NULL,
    "way" TEXT NOT NULL,
    "dangers" TEXT[] NOT NULL,
    "mail_key" TEXT,
    "text_id" UUID,
    "step_key" TEXT,
    "caught_by" TEXT,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "callback_intake_pkey" PRIMARY KEY ("callback_id")
);

CREATE TABLE "callback_photo" (
    "id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,
    "original_sha256" TEXT NOT NULL,
    "copy_sha256" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "added_by" UUID,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "callback_photo_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "safety_advice" (
    "id" UUID NOT NULL,
    "danger" TEXT NOT NULL,
    "body" TEXT NOT NULL,
    "approved_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "safety_advice_pkey" PRIMARY KEY ("id")
);

CREATE UNIQUE INDEX "callback_intake_mail_key_key" ON "callback_intake"("mail_key");
CREATE INDEX "callback_duplicate_of_idx" ON "callback"("duplicate_of");
CREATE INDEX "callback_repeat_of_idx" ON "callback"("repeat_of");
CREATE INDEX "callback_photo_callback_id_idx" ON "callback_photo"("callback_id");
CREATE INDEX "callback_photo_original_sha256_idx" ON "callback_photo"("original_sha256");
CREATE INDEX "callback_photo_copy_sha256_idx" ON "callback_photo"("copy_sha256");
CREATE INDEX "safety_advice_danger_recorded_at_idx" ON "safety_advice"("danger", "recorded_at");

ALTER TABLE "callback" ADD CONSTRAINT "callback_duplicate_of_fkey" FOREIGN KEY ("duplicate_of") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "callback" ADD CONSTRAINT "callback_repeat_of_fkey" FOREIGN KEY ("repeat_of") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "callback_intake" ADD CONSTRAINT "callback_intake_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "callback_intake" ADD CONSTRAINT "callback_intake_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "callback_photo" ADD CONSTRAINT "callback_photo_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "callback_photo" ADD CONSTRAINT "callback_photo_original_sha256_fkey" FOREIGN KEY ("original_sha256") REFERENCES "stored_file"("sha256") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "callback_photo" ADD CONSTRAINT "callback_photo_copy_sha256_fkey" FOREIGN KEY ("copy_sha256") REFERENCES "stored_file"("sha256") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "callback_photo" ADD CONSTRAINT "callback_photo_added_by_fkey" FOREIGN KEY ("added_by") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "safety_advice" ADD CONSTRAINT "safety_advice_approved_by_fkey" FOREIGN KEY ("approved_by") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---------- rules ----------
ALTER TABLE callback_intake ADD CONSTRAINT callback_intake_known CHECK (
  way IN ('desk', 'mail', 'link', 'site') AND dangers <@ ARRAY['electric', 'gas', 'carbon_monoxide', 'other'] AND (caught_by IS NULL OR caught_by IN ('partner', 'lead', 'reviewer', 'client')));
-- What came by mail has the mail's reference, and nothing else has one.
ALTER TABLE callback_intake ADD CONSTRAINT callback_intake_mail CHECK ((way = 'mail') = (mail_key IS NOT NULL) AND (way = 'mail') = (text_id IS NOT NULL));
ALTER TABLE callback_photo ADD CONSTRAINT callback_photo_copy_is_another CHECK (copy_sha256 <> original_sha256);
ALTER TABLE safety_advice ADD CONSTRAINT safety_advice_known CHECK (danger IN ('electric', 'gas', 'carbon_monoxide', 'other') AND length(btrim(body)) BETWEEN 10 AND 600);

-- A duplicate has no clock: it is closed, and what it adds is in the first one.
ALTER TABLE callback ADD CONSTRAINT duplicate_is_closed CHECK (duplicate_of IS NULL OR (state = 'closed' AND duplicate_of <> id AND repeat_of IS NULL));
ALTER TABLE callback ADD CONSTRAINT repeat_of_another CHECK (repeat_of IS NULL OR repeat_of <> id);
-- No chains: what is the same as another stands for itself, and both are of one property.
CREATE FUNCTION check_callback_link() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.duplicate_of IS NOT NULL AND (
    EXISTS (SELECT FROM callback WHERE id = NEW.duplicate_of AND duplicate_of IS NOT NULL) OR EXISTS (SELECT FROM callback WHERE duplicate_of = NEW.id))
  THEN PERFORM rule_broken('duplicate_of_a_duplicate'); END IF;
  IF (SELECT property_id FROM job WHERE id = NEW.job_id) IS DISTINCT FROM
     (SELECT j.property_id FROM callback c JOIN job j ON j.id = c.job_id WHERE c.id = coalesce(NEW.duplicate_of, NEW.repeat_of))
  THEN PERFORM rule_broken('link_of_another_property'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER callback_link_fits BEFORE INSERT OR UPDATE ON callback FOR EACH ROW WHEN (NEW.duplicate_of IS NOT NULL OR NEW.repeat_of IS NOT NULL) EXECUTE FUNCTION check_callback_link();

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['callback_intake', 'callback_photo', 'safety_advice'] LOOP
    EXECUTE format('CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t);
    EXECUTE format('CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t);
    IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN EXECUTE format('REVOKE UPDATE, DELETE, TRUNCATE ON %I FROM backsight_app', t); END IF;
  END LOOP;
END $$;

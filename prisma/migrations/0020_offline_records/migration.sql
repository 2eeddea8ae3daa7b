-- Records that are opened and written without signal: what each phone was handed ahead, its clock and counter, names given twice, photos.
CREATE TABLE "site_offer" (
    "id" UUID NOT NULL,
    "visit_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "revisions" UUID[] NOT NULL,
    "gate_missing" TEXT[] NOT NULL,
    "body" JSONB NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "site_offer_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "site_device" (
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "clock_offset_ms" BIGINT NOT NULL,
    "first_seen_at" TIMESTAMPTZ(3) NOT NULL,
    "last_seen_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "site_device_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "record_alias" (
    "id" UUID NOT NULL,
    "record_id" UUID NOT NULL,
    "stands_for" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "record_alias_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "site_photo" (
    "id" UUID NOT NULL,
    "record_id" UUID NOT NULL,
    "entry_id" UUID NOT NULL,
    "original_sha256" TEXT NOT NULL,
    "copy_sha256" TEXT NOT NULL,
    "near_property" TEXT NOT NULL,
    "device_id" UUID,
    "clock_offset_ms" BIGINT,
    "taken_by" UUID NOT NULL,
    "taken_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "site_photo_pkey" PRIMARY KEY ("id")
);

-- The device's own time of writing, and by how much its clock was behind the service's when the entry came in.
ALTER TABLE "step_entry" ADD COLUMN "device_id" UUID, ADD COLUMN "written_at" TIMESTAMPTZ(3), ADD COLUMN "clock_offset_ms" BIGINT;

-- Two phones may correct the same entry without knowing of each other: both corrections are kept, the newest counts.
DROP INDEX "step_entry_supersedes_id_key";
CREATE INDEX "step_entry_supersedes_id_idx" ON "step_entry"("supersedes_id");

CREATE INDEX "site_offer_visit_id_person_id_idx" ON "site_offer"("visit_id", "person_id");
CREATE INDEX "record_alias_record_id_idx" ON "record_alias"("record_id");
CREATE INDEX "site_photo_record_id_idx" ON "site_photo"("record_id");
CREATE INDEX "site_photo_copy_sha256_idx" ON "site_photo"("copy_sha256");
CREATE INDEX "site_photo_original_sha256_idx" ON "site_photo"("original_sha256");

ALTER TABLE "site_offer" ADD CONSTRAINT "site_offer_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "site_offer" ADD CONSTRAINT "site_offer_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "site_device" ADD CONSTRAINT "site_device_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "record_alias" ADD CONSTRAINT "record_alias_record_id_fkey" FOREIGN KEY ("record_id") REFERENCES "site_record"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "step_entry" ADD CONSTRAINT "step_entry_device_id_fkey" FOREIGN KEY ("device_id") REFERENCES "site_device"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "site_photo" ADD CONSTRAINT "site_photo_record_id_fkey" FOREIGN KEY ("record_id") REFERENCES "site_record"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "site_photo" ADD CONSTRAINT "site_photo_entry_id_fkey" FOREIGN KEY ("entry_id") REFERENCES "step_entry"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "site_photo" ADD CONSTRAINT "site_photo_original_sha256_fkey" FOREIGN KEY ("original_sha256") REFERENCES "stored_file"("sha256") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "site_photo" ADD CONSTRAINT "site_photo_copy_sha256_fkey" FOREIGN KEY ("copy_sha256") REFERENCES "stored_file"("sha256") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "site_photo" ADD CONSTRAINT "site_photo_taken_by_fkey" FOREIGN KEY ("taken_by") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "site_photo" ADD CONSTRAINT "site_photo_device_id_fkey" FOREIGN KEY ("device_id") REFERENCES "site_device"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---------- rules ----------
ALTER TABLE site_photo ADD CONSTRAINT site_photo_near CHECK (near_property IN ('yes', 'no', 'unknown'));
-- A device belongs to one person for ever: its counter orders the entries of one hand.
CREATE FUNCTION keep_device_owner() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.person_id <> OLD.person_id THEN PERFORM rule_broken('device_of_another'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER device_of_another BEFORE UPDATE ON site_device FOR EACH ROW EXECUTE FUNCTION keep_device_owner();
-- Nothing is added to a sealed record, no photo either.
CREATE TRIGGER record_sealed BEFORE INSERT ON site_photo FOR EACH ROW EXECUTE FUNCTION check_entry_open();

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['site_offer', 'record_alias', 'site_photo'] LOOP
    EXECUTE format('CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t);
    EXECUTE format('CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t);
    IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN EXECUTE format('REVOKE UPDATE, DELETE, TRUNCATE ON %I FROM backsight_app', t); END IF;
  END LOOP;
END $$;

-- Photos of the site record: within which distance one counts as near the property, and who opened an original.
ALTER TABLE "site_photo" ADD COLUMN "near_limit_m" INTEGER NOT NULL;

CREATE TABLE "site_photo_opening" (
    "id" UUID NOT NULL,
    "photo_id" UUID NOT NULL,
    "text_id" UUID NOT NULL,
    "opened_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "site_photo_opening_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "site_photo_opening_photo_id_idx" ON "site_photo_opening"("photo_id");

ALTER TABLE "site_photo_opening" ADD CONSTRAINT "site_photo_opening_photo_id_fkey" FOREIGN KEY ("photo_id") REFERENCES "site_photo"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "site_photo_opening" ADD CONSTRAINT "site_photo_opening_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "site_photo_opening" ADD CONSTRAINT "site_photo_opening_opened_by_fkey" FOREIGN KEY ("opened_by") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---------- rules ----------
ALTER TABLE site_photo ADD CONSTRAINT site_photo_near_limit CHECK (near_limit_m > 0);
-- What is given out is never the original itself, which holds the place where it was taken.
ALTER TABLE site_photo ADD CONSTRAINT site_photo_copy_is_another CHECK (copy_sha256 <> original_sha256);

-- A photo belongs to an entry of its own record that names it, and comes from the hand that wrote the entry.
CREATE FUNCTION check_photo_named() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE e record;
BEGIN
  SELECT record_id, written_by, coalesce(value -> 'photos', '[]'::jsonb) ? NEW.id::text AS names INTO e FROM step_entry WHERE id = NEW.entry_id;
  IF NOT FOUND OR e.record_id <> NEW.record_id OR NOT e.names THEN PERFORM rule_broken('photo_not_announced'); END IF;
  IF e.written_by <> NEW.taken_by THEN PERFORM rule_broken('photo_of_another'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER photo_not_announced BEFORE INSERT ON site_photo FOR EACH ROW EXECUTE FUNCTION check_photo_named();

-- The seal names every photo by its fingerprints: none is still on its way, unless it was said that it will not come.
CREATE FUNCTION check_photos_have_come() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (
    SELECT FROM step_entry e CROSS JOIN LATERAL jsonb_array_elements_text(coalesce(e.value -> 'photos', '[]'::jsonb)) named(id)
    WHERE e.record_id = NEW.id
      AND NOT EXISTS (SELECT FROM site_photo h WHERE h.id = named.id::uuid AND h.record_id = NEW.id)
      AND NOT EXISTS (SELECT FROM step_entry l WHERE l.record_id = NEW.id AND l.value -> 'act' ->> 'do' = 'photo_lost' AND l.value -> 'act' ->> 'photo' = named.id)
  ) THEN PERFORM rule_broken('photo_on_its_way'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER photo_on_its_way BEFORE UPDATE ON site_record FOR EACH ROW WHEN (NEW.state = 'sealed' AND OLD.state <> 'sealed') EXECUTE FUNCTION check_photos_have_come();

CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON site_photo_opening FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON site_photo_opening FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
DO $$
BEGIN
  IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN REVOKE UPDATE, DELETE, TRUNCATE ON site_photo_opening FROM backsight_app; END IF;
END $$;

-- Spoken notes: recorded on a phone beside photos, named by an entry as photos are, and kept in their table. Such a file has no copy and no
-- place, and says how long it is.
ALTER TABLE "site_photo" ALTER COLUMN "copy_sha256" DROP NOT NULL, ALTER COLUMN "near_property" DROP NOT NULL, ALTER COLUMN "near_limit_m" DROP NOT NULL;
ALTER TABLE "site_photo" ADD COLUMN "seconds" INTEGER;

-- ---------- rules ----------
-- A photo has a copy and says whether it is near; a spoken note has neither, and lasts three minutes at most.
ALTER TABLE site_photo ADD CONSTRAINT site_photo_is_one_kind CHECK (
  CASE WHEN seconds IS NULL THEN copy_sha256 IS NOT NULL AND near_property IS NOT NULL AND near_limit_m IS NOT NULL
  ELSE seconds BETWEEN 1 AND 180 AND copy_sha256 IS NULL AND near_property IS NULL AND near_limit_m IS NULL END);

-- As before for photos. A spoken note is named among the spoken notes of its entry, and its file is a sound of at most 2 MB.
CREATE OR REPLACE FUNCTION check_photo_named() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE e record;
BEGIN
  SELECT record_id, written_by, coalesce(value -> CASE WHEN NEW.seconds IS NULL THEN 'photos' ELSE 'spoken' END, '[]'::jsonb) ? NEW.id::text AS names
    INTO e FROM step_entry WHERE id = NEW.entry_id;
  IF NOT FOUND OR e.record_id <> NEW.record_id OR NOT e.names THEN PERFORM rule_broken('photo_not_announced'); END IF;
  IF e.written_by <> NEW.taken_by THEN PERFORM rule_broken('photo_of_another'); END IF;
  IF NEW.seconds IS NOT NULL
    AND NOT EXISTS (SELECT FROM stored_file WHERE sha256 = NEW.original_sha256 AND media_type LIKE 'audio/%' AND bytes <= 2 * 1024 * 1024)
  THEN PERFORM rule_broken('spoken_not_a_sound'); END IF;
  RETURN NEW;
END $$;

-- The seal names every file by its fingerprint: no photo and no spoken note is still on its way, unless it was said that it will not come.
CREATE OR REPLACE FUNCTION check_photos_have_come() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (
    SELECT FROM step_entry e CROSS JOIN LATERAL jsonb_array_elements_text(coalesce(e.value -> 'photos', '[]'::jsonb) || coalesce(e.value -> 'spoken', '[]'::jsonb)) named(id)
    WHERE e.record_id = NEW.id
      AND NOT EXISTS (SELECT FROM site_photo h WHERE h.id = named.id::uuid AND h.record_id = NEW.id)
      AND NOT EXISTS (SELECT FROM step_entry l WHERE l.record_id = NEW.id AND l.value -> 'act' ->> 'do' = 'photo_lost' AND l.value -> 'act' ->> 'photo' = named.id)
  ) THEN PERFORM rule_broken('photo_on_its_way'); END IF;
  RETURN NEW;
END $$;

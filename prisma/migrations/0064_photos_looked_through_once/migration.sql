-- The same rule as in 0047: the entries of a record are gone through once each for what they name and what was lost, not once for each photo.
CREATE OR REPLACE FUNCTION check_photos_have_come() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (
    SELECT named.id::uuid FROM step_entry e CROSS JOIN LATERAL jsonb_array_elements_text(coalesce(e.value -> 'photos', '[]'::jsonb) || coalesce(e.value -> 'spoken', '[]'::jsonb)) named(id)
    WHERE e.record_id = NEW.id AND (e.value ? 'photos' OR e.value ? 'spoken')
    EXCEPT SELECT h.id FROM site_photo h WHERE h.record_id = NEW.id
    EXCEPT SELECT (l.value -> 'act' ->> 'photo')::uuid FROM step_entry l WHERE l.record_id = NEW.id AND l.value -> 'act' ->> 'do' = 'photo_lost'
  ) THEN PERFORM rule_broken('photo_on_its_way'); END IF;
  RETURN NEW;
END $$;

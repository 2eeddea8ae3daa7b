-- The words of a letter about a held job stay as they are, but for the secrets of private links, which go when it leaves. Until now noting
-- that such a letter had left was refused, so that it left again and again.
DROP TRIGGER evidence_held_words ON outgoing_mail;
CREATE TRIGGER evidence_held_words BEFORE UPDATE OF body, subject ON outgoing_mail FOR EACH ROW
  WHEN (NEW.subject IS DISTINCT FROM OLD.subject
    OR (NEW.body IS DISTINCT FROM OLD.body
      AND NEW.body IS DISTINCT FROM regexp_replace(OLD.body, '(/(?:client/(?:[a-z]+/)?|new-password/))[A-Za-z0-9_-]{20,}', '\1...', 'g')))
  EXECUTE FUNCTION refuse_while_held();

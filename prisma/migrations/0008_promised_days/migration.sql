-- A client may be promised a span of several days, within which plans may choose the day: 14 days at most.
ALTER TABLE visit DROP CONSTRAINT visit_promise;
ALTER TABLE visit ADD CONSTRAINT visit_promise CHECK ((promised_from IS NULL) = (promised_until IS NULL)
  AND (promised_from IS NULL OR (starts_at BETWEEN promised_from AND promised_until AND promised_until <= promised_from + interval '14 days'
    AND extract(epoch FROM promised_from) % 60 = 0 AND extract(epoch FROM promised_until) % 60 = 0)));

-- The effect of a change is counted from the records nearest to it.
CREATE INDEX site_record_opened_at_idx ON site_record (opened_at);

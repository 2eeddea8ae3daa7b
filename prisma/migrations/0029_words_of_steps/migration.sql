-- Steps are found by their words: likely steps of a complaint, and the search beside them.
CREATE EXTENSION IF NOT EXISTS pg_trgm; -- spelling (similarity)

-- The stems of a step, by where they stand: A title, B instruction, C why and answers. A written step never changes, so they are made
-- once; making them at each look would take half of its time. No index: a look reads the steps of one job, by their key.
ALTER TABLE revision_step ADD COLUMN words tsvector GENERATED ALWAYS AS (
  setweight(to_tsvector('english'::regconfig, coalesce(body ->> 'title', '')), 'A')
  || setweight(to_tsvector('english'::regconfig, coalesce(body ->> 'instruction', '')), 'B')
  || setweight(to_tsvector('english'::regconfig, coalesce(body ->> 'why', '')), 'C')
  || setweight(jsonb_to_tsvector('english'::regconfig, coalesce(body -> 'evidence', '{}'::jsonb), '["string"]'), 'C')) STORED;

-- The newest conclusion of a callback counts: looked up for every line of the list.
CREATE INDEX conclusion_callback_id_happened_at_idx ON conclusion (callback_id, happened_at);

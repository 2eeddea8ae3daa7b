-- What is typed into a search is looked for in any part of a word: indexes of three-letter pieces (pg_trgm), so that a search costs the
-- same at 200,000 jobs. The expressions are those of packages/store/src/find.ts.
CREATE INDEX property_words ON property USING gin (lower(address || ' ' || town || ' ' || zip) gin_trgm_ops);
CREATE INDEX party_words ON party USING gin (lower(name || ' ' || coalesce(email, '') || ' ' || coalesce(phone, '')) gin_trgm_ops);

-- From a client to the jobs.
CREATE INDEX "job_party_party_id_idx" ON "job_party"("party_id");

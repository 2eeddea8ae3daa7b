-- Outside providers beside the pair, observers who are busy too, holds extended once, the client's walk-through, marks and bars.
ALTER TABLE "provider" ADD COLUMN "offset_minutes" INTEGER NOT NULL DEFAULT 0, ADD COLUMN "version" INTEGER NOT NULL DEFAULT 1;
ALTER TABLE "job_service" ADD COLUMN "agreed_cents" INTEGER, ADD COLUMN "contracts_with_us" BOOLEAN;
ALTER TABLE "visit" ADD COLUMN "hold_extended" BOOLEAN NOT NULL DEFAULT false, ADD COLUMN "walk_through_minutes" INTEGER NOT NULL DEFAULT 0;
ALTER TABLE "property" ADD COLUMN "ask_owner" TEXT;
ALTER TABLE "visit_kind" ADD COLUMN "report_minutes" INTEGER NOT NULL DEFAULT 0;
UPDATE visit_kind SET report_minutes = 30 WHERE key = 'reinspection';

CREATE TABLE "provider_visit" (
    "visit_id" UUID NOT NULL,
    "service_key" TEXT NOT NULL,
    "provider_id" UUID NOT NULL,
    "offset_minutes" INTEGER NOT NULL,
    "minutes" INTEGER NOT NULL,
    "starts_at" TIMESTAMPTZ(3) NOT NULL,
    "ends_at" TIMESTAMPTZ(3) NOT NULL,
    "live" BOOLEAN NOT NULL,

    CONSTRAINT "provider_visit_pkey" PRIMARY KEY ("visit_id","service_key")
);
CREATE TABLE "person_party_bar" (
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "reason" TEXT,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "person_party_bar_pkey" PRIMARY KEY ("id")
);
CREATE TABLE "reinspection_item" (
    "job_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,
    "item" TEXT NOT NULL,

    CONSTRAINT "reinspection_item_pkey" PRIMARY KEY ("job_id","position")
);
CREATE INDEX "provider_visit_provider_id_starts_at_idx" ON "provider_visit"("provider_id", "starts_at");
CREATE UNIQUE INDEX "person_party_bar_person_id_party_id_key" ON "person_party_bar"("person_id", "party_id");
ALTER TABLE "provider_visit" ADD CONSTRAINT "provider_visit_visit_id_starts_at_ends_at_live_fkey" FOREIGN KEY ("visit_id", "starts_at", "ends_at", "live") REFERENCES "visit"("id", "starts_at", "ends_at", "live") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "provider_visit" ADD CONSTRAINT "provider_visit_provider_id_fkey" FOREIGN KEY ("provider_id") REFERENCES "provider"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "person_party_bar" ADD CONSTRAINT "person_party_bar_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "person_party_bar" ADD CONSTRAINT "person_party_bar_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "reinspection_item" ADD CONSTRAINT "reinspection_item_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---------- an observer is busy at the times of his visit ----------
ALTER TABLE "observer" ADD COLUMN "starts_at" TIMESTAMPTZ(3), ADD COLUMN "ends_at" TIMESTAMPTZ(3), ADD COLUMN "live" BOOLEAN;
UPDATE observer o SET starts_at = v.starts_at, ends_at = v.ends_at, live = v.live FROM visit v WHERE v.id = o.visit_id;
ALTER TABLE "observer" ALTER COLUMN "starts_at" SET NOT NULL, ALTER COLUMN "ends_at" SET NOT NULL, ALTER COLUMN "live" SET NOT NULL;
ALTER TABLE "observer" ADD COLUMN "during" tstzrange GENERATED ALWAYS AS (tstzrange(starts_at, ends_at, '[)'::text)) STORED;
ALTER TABLE "observer" DROP CONSTRAINT "observer_visit_id_fkey";
ALTER TABLE "observer" ADD CONSTRAINT "observer_visit_id_starts_at_ends_at_live_fkey" FOREIGN KEY ("visit_id", "starts_at", "ends_at", "live") REFERENCES "visit"("id", "starts_at", "ends_at", "live") ON DELETE RESTRICT ON UPDATE CASCADE;
CREATE INDEX "observer_person_id_starts_at_idx" ON "observer"("person_id", "starts_at");

-- ---------- rules that must never break ----------
ALTER TABLE observer ADD CONSTRAINT observer_reason CHECK (reason IN ('trainee', 'ride_along', 'other'));
ALTER TABLE observer ADD CONSTRAINT observer_taken EXCLUDE USING gist (person_id WITH =, during WITH &&) WHERE (live);
ALTER TABLE provider ADD CONSTRAINT provider_sane CHECK (offset_minutes BETWEEN 0 AND 720 AND minutes BETWEEN 1 AND 720 AND cost_cents >= 0);
ALTER TABLE job_service ADD CONSTRAINT job_service_agreed CHECK (agreed_cents >= 0 AND (provider_id IS NOT NULL OR (agreed_cents IS NULL AND contracts_with_us IS NULL)));
ALTER TABLE visit ADD CONSTRAINT visit_walk_through CHECK (walk_through_minutes BETWEEN 0 AND 240);
ALTER TABLE job_need DROP CONSTRAINT job_need_known;
ALTER TABLE job_need ADD CONSTRAINT job_need_known CHECK (kind IN ('access', 'utilities', 'signature', 'payer', 'payment', 'tenant_notice', 'client_address', 'results', 'provider_document', 'same_pair')
  AND state IN ('open', 'asked', 'settled', 'refused', 'not_needed'));

-- Minutes added to an instant do not depend on any time zone, so that the range may stand in a constraint.
CREATE FUNCTION part_of_visit(starts_at timestamptz, offset_minutes int, minutes int) RETURNS tstzrange LANGUAGE sql IMMUTABLE AS $$
  SELECT tstzrange(starts_at + offset_minutes * interval '1 minute', starts_at + (offset_minutes + minutes) * interval '1 minute', '[)')
$$;
ALTER TABLE provider_visit ADD CONSTRAINT provider_visit_sane CHECK (offset_minutes BETWEEN 0 AND 720 AND minutes BETWEEN 1 AND 720);
ALTER TABLE provider_visit ADD CONSTRAINT provider_taken EXCLUDE USING gist (provider_id WITH =, part_of_visit(starts_at, offset_minutes, minutes) WITH &&) WHERE (live);

-- A person is in one place, whether he goes as one of the pair or comes along. The lock makes two writers wait for each other.
CREATE FUNCTION check_person_elsewhere() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE elsewhere boolean;
BEGIN
  IF NOT NEW.live THEN RETURN NULL; END IF;
  PERFORM pg_advisory_xact_lock(hashtextextended('where ' || NEW.person_id::text, 0));
  IF TG_TABLE_NAME = 'observer' THEN
    SELECT EXISTS (SELECT FROM assignment a WHERE a.person_id = NEW.person_id AND a.live AND a.during && tstzrange(NEW.starts_at, NEW.ends_at, '[)')) INTO elsewhere;
  ELSE
    SELECT EXISTS (SELECT FROM observer o WHERE o.person_id = NEW.person_id AND o.live AND o.during && tstzrange(NEW.starts_at, NEW.ends_at, '[)')) INTO elsewhere;
  END IF;
  IF elsewhere THEN PERFORM rule_broken('person_elsewhere'); END IF;
  RETURN NULL;
END $$;
CREATE TRIGGER person_elsewhere AFTER INSERT OR UPDATE ON assignment FOR EACH ROW EXECUTE FUNCTION check_person_elsewhere();
CREATE TRIGGER person_elsewhere AFTER INSERT OR UPDATE ON observer FOR EACH ROW EXECUTE FUNCTION check_person_elsewhere();

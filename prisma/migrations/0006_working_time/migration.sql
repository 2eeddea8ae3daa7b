-- Working time of people: exceptions of their usual hours, absences that are asked first, education hours, miles driven,
-- a private calendar address; checks of kit; what was told of things that lapse.
-- AlterTable
ALTER TABLE "absence" ADD COLUMN     "decided_at" TIMESTAMPTZ(3),
ADD COLUMN     "decided_by" UUID,
ADD COLUMN     "decision" TEXT,
ADD COLUMN     "state" TEXT NOT NULL DEFAULT 'approved';

-- AlterTable
ALTER TABLE "firm" ADD COLUMN     "mileage_tenth_cents" INTEGER NOT NULL DEFAULT 700;

-- AlterTable
ALTER TABLE "kit_item" ADD COLUMN     "ladder_feet" INTEGER,
ADD COLUMN     "seats" INTEGER;

-- CreateTable
CREATE TABLE "work_exception" (
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "day" DATE NOT NULL,
    "start_minute" INTEGER,
    "end_minute" INTEGER,
    "note" TEXT NOT NULL,
    "withdrawn_at" TIMESTAMPTZ(3),
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "work_exception_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "education_entry" (
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "category" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "on_day" DATE NOT NULL,
    "minutes" INTEGER NOT NULL,
    "file_sha256" TEXT,
    "withdrawn_at" TIMESTAMPTZ(3),
    "recorded_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "education_entry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "mileage_entry" (
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "day" DATE NOT NULL,
    "tenths" INTEGER NOT NULL,
    "odometer_start" INTEGER,
    "odometer_end" INTEGER,
    "vehicle_id" UUID,
    "note" TEXT NOT NULL,
    "withdrawn_at" TIMESTAMPTZ(3),
    "recorded_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "mileage_entry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "calendar_feed" (
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "token_hash" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "revoked_at" TIMESTAMPTZ(3),

    CONSTRAINT "calendar_feed_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "lapse_notice" (
    "kind" TEXT NOT NULL,
    "thing_id" UUID NOT NULL,
    "on_day" DATE NOT NULL,
    "stage" INTEGER NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "lapse_notice_pkey" PRIMARY KEY ("kind","thing_id","on_day","stage")
);

-- CreateTable
CREATE TABLE "kit_check_need" (
    "kind" TEXT NOT NULL,
    "check_kind" TEXT NOT NULL,
    "every_days" INTEGER NOT NULL,

    CONSTRAINT "kit_check_need_pkey" PRIMARY KEY ("kind","check_kind")
);

-- CreateTable
CREATE TABLE "kit_check" (
    "id" UUID NOT NULL,
    "item_id" UUID NOT NULL,
    "check_kind" TEXT NOT NULL,
    "on_day" DATE NOT NULL,
    "passed" BOOLEAN NOT NULL,
    "note" TEXT NOT NULL,
    "by_id" UUID NOT NULL,
    "visit_id" UUID,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "kit_check_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "work_exception_person_id_day_idx" ON "work_exception"("person_id", "day");

-- CreateIndex
CREATE INDEX "education_entry_person_id_on_day_idx" ON "education_entry"("person_id", "on_day");

-- CreateIndex
CREATE INDEX "mileage_entry_person_id_day_idx" ON "mileage_entry"("person_id", "day");

-- CreateIndex
CREATE UNIQUE INDEX "calendar_feed_token_hash_key" ON "calendar_feed"("token_hash");

-- CreateIndex
CREATE INDEX "calendar_feed_person_id_idx" ON "calendar_feed"("person_id");

-- CreateIndex
CREATE INDEX "kit_check_item_id_check_kind_idx" ON "kit_check"("item_id", "check_kind");

-- AddForeignKey
ALTER TABLE "work_exception" ADD CONSTRAINT "work_exception_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "education_entry" ADD CONSTRAINT "education_entry_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "education_entry" ADD CONSTRAINT "education_entry_file_sha256_fkey" FOREIGN KEY ("file_sha256") REFERENCES "stored_file"("sha256") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "mileage_entry" ADD CONSTRAINT "mileage_entry_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "mileage_entry" ADD CONSTRAINT "mileage_entry_vehicle_id_fkey" FOREIGN KEY ("vehicle_id") REFERENCES "kit_item"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "calendar_feed" ADD CONSTRAINT "calendar_feed_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "kit_check_need" ADD CONSTRAINT "kit_check_need_kind_fkey" FOREIGN KEY ("kind") REFERENCES "kit_kind"("key") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "kit_check" ADD CONSTRAINT "kit_check_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "kit_item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;


-- ---------- rules that must never break ----------
ALTER TABLE work_exception ADD CONSTRAINT work_exception_hours CHECK ((start_minute IS NULL) = (end_minute IS NULL) AND (start_minute IS NULL OR (start_minute >= 0 AND end_minute <= 1440 AND end_minute > start_minute)));
ALTER TABLE work_exception ADD CONSTRAINT work_exception_once_a_day EXCLUDE USING gist (person_id WITH =, day WITH =) WHERE (withdrawn_at IS NULL);
ALTER TABLE absence ADD CONSTRAINT absence_known CHECK (state IN ('asked', 'approved', 'refused') AND (state <> 'refused' OR (decided_by IS NOT NULL AND decision <> '')));
ALTER TABLE kit_item ADD CONSTRAINT kit_item_vehicle CHECK (seats BETWEEN 1 AND 15 AND ladder_feet BETWEEN 1 AND 60);
ALTER TABLE kit_check_need ADD CONSTRAINT kit_check_need_known CHECK (check_kind IN ('battery', 'bump_test', 'ladder') AND every_days BETWEEN 1 AND 1100);
ALTER TABLE kit_check ADD CONSTRAINT kit_check_known CHECK (check_kind IN ('battery', 'bump_test', 'ladder', 'on_site'));
ALTER TABLE education_entry ADD CONSTRAINT education_entry_minutes CHECK (minutes BETWEEN 1 AND 14400);
ALTER TABLE mileage_entry ADD CONSTRAINT mileage_entry_miles CHECK (tenths BETWEEN 0 AND 20000);
ALTER TABLE mileage_entry ADD CONSTRAINT mileage_entry_odometer CHECK ((odometer_start IS NULL) = (odometer_end IS NULL) AND (odometer_start IS NULL OR (odometer_start >= 0 AND odometer_end >= odometer_start AND tenths = (odometer_end - odometer_start) * 10)));
ALTER TABLE mileage_entry ADD CONSTRAINT mileage_once_a_day EXCLUDE USING gist (person_id WITH =, day WITH =) WHERE (withdrawn_at IS NULL);
ALTER TABLE calendar_feed ADD CONSTRAINT calendar_feed_one_open EXCLUDE USING gist (person_id WITH =) WHERE (revoked_at IS NULL);
ALTER TABLE lapse_notice ADD CONSTRAINT lapse_notice_stage CHECK (stage IN (180, 90, 30));
ALTER TABLE firm ADD CONSTRAINT firm_mileage_rate CHECK (mileage_tenth_cents BETWEEN 0 AND 10000);

-- What was checked stays as it was written.
CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON kit_check FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON kit_check FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
DO $$
BEGIN
  IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN REVOKE UPDATE, DELETE, TRUNCATE ON kit_check FROM backsight_app; END IF;
END $$;

-- ---------- what a firm that is already set up gains ----------
INSERT INTO kit_kind (key, name, calibrated, carried_by_all)
  SELECT 'vehicle', 'Vehicle', false, false WHERE EXISTS (SELECT FROM kit_kind) ON CONFLICT (key) DO NOTHING;
INSERT INTO kit_check_need (kind, check_kind, every_days)
  SELECT need.kind, need.check_kind, need.every_days
  FROM (VALUES ('ladder', 'ladder', 90), ('gas_detector', 'bump_test', 30), ('gas_detector', 'battery', 90), ('carbon_monoxide_meter', 'bump_test', 30), ('carbon_monoxide_meter', 'battery', 90), ('moisture_meter', 'battery', 90)) AS need(kind, check_kind, every_days)
  JOIN kit_kind k ON k.key = need.kind;
UPDATE rule_pack SET body = body || '{"education": {"hours": 40, "everyYears": 2, "renewal": {"month": 12, "day": 15, "years": "even"}, "supervised": null, "sources": ["40 hours in each two years: trade summary of the 2021 act (a second-hand source)", "15 December of even years: from memory, to be read in the official source"]}}'
  WHERE jurisdiction = 'US-WI' AND NOT body ? 'education';

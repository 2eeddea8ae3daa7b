-- AlterTable
ALTER TABLE "fee_schedule" ADD COLUMN     "version" INTEGER NOT NULL DEFAULT 1;

-- AlterTable
ALTER TABLE "service" ADD COLUMN     "ended_on" DATE,
ADD COLUMN     "version" INTEGER NOT NULL DEFAULT 1;

-- CreateTable
CREATE TABLE "inquiry" (
    "id" UUID NOT NULL,
    "caller" TEXT NOT NULL,
    "phone" TEXT NOT NULL,
    "email" TEXT NOT NULL,
    "address" TEXT NOT NULL,
    "draft" JSONB NOT NULL,
    "schedule_id" UUID NOT NULL,
    "lines" JSONB NOT NULL,
    "total_cents" INTEGER NOT NULL,
    "follow_up_on" DATE,
    "note" TEXT NOT NULL,
    "outcome" TEXT,
    "outcome_note" TEXT NOT NULL DEFAULT '',
    "job_id" UUID,
    "closed_at" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 1,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "inquiry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "pay_rule" (
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "from_day" DATE NOT NULL,
    "body" JSONB NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "pay_rule_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "visit_pay" (
    "visit_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "part" TEXT NOT NULL,
    "rule_id" UUID,
    "fee_cents" INTEGER NOT NULL,
    "minutes" INTEGER NOT NULL,
    "cents" INTEGER NOT NULL,
    "reason" TEXT NOT NULL,
    "happened_on" DATE NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "visit_pay_pkey" PRIMARY KEY ("visit_id","part")
);

-- CreateIndex
CREATE INDEX "inquiry_follow_up_on_idx" ON "inquiry"("follow_up_on");

-- CreateIndex
CREATE INDEX "pay_rule_person_id_from_day_idx" ON "pay_rule"("person_id", "from_day");

-- CreateIndex
CREATE INDEX "visit_pay_person_id_happened_on_idx" ON "visit_pay"("person_id", "happened_on");

-- AddForeignKey
ALTER TABLE "inquiry" ADD CONSTRAINT "inquiry_schedule_id_fkey" FOREIGN KEY ("schedule_id") REFERENCES "fee_schedule"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "inquiry" ADD CONSTRAINT "inquiry_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "inquiry" ADD CONSTRAINT "inquiry_recorded_by_fkey" FOREIGN KEY ("recorded_by") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "pay_rule" ADD CONSTRAINT "pay_rule_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "pay_rule" ADD CONSTRAINT "pay_rule_recorded_by_fkey" FOREIGN KEY ("recorded_by") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "visit_pay" ADD CONSTRAINT "visit_pay_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "visit_pay" ADD CONSTRAINT "visit_pay_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "visit_pay" ADD CONSTRAINT "visit_pay_rule_id_fkey" FOREIGN KEY ("rule_id") REFERENCES "pay_rule"("id") ON DELETE SET NULL ON UPDATE CASCADE;


-- ---------- rules that must never break ----------
-- A schedule is written as a draft; once in force, what it says stays, for jobs were priced by it.
CREATE FUNCTION check_fee_schedule() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'DELETE' THEN
    IF OLD.state <> 'draft' THEN PERFORM rule_broken('fee_schedule_fixed'); END IF;
    RETURN OLD;
  END IF;
  IF OLD.state <> 'draft' AND (NEW.number, NEW.name, NEW.body, NEW.in_force_from) IS DISTINCT FROM (OLD.number, OLD.name, OLD.body, OLD.in_force_from) THEN PERFORM rule_broken('fee_schedule_fixed'); END IF;
  IF OLD.state = 'withdrawn' AND NEW.state <> 'withdrawn' OR OLD.state = 'in_force' AND NEW.state = 'draft' THEN PERFORM rule_broken('fee_schedule_fixed'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER fee_schedule_fixed BEFORE UPDATE OR DELETE ON fee_schedule FOR EACH ROW EXECUTE FUNCTION check_fee_schedule();

ALTER TABLE inquiry ADD CONSTRAINT inquiry_outcome CHECK (outcome IN ('booked', 'price', 'date', 'other', 'unknown') AND (outcome = 'booked') = (job_id IS NOT NULL) OR outcome IS NULL AND job_id IS NULL);
ALTER TABLE inquiry ADD CONSTRAINT inquiry_closed CHECK ((outcome IS NULL) = (closed_at IS NULL));
ALTER TABLE inquiry ADD CONSTRAINT inquiry_total CHECK (total_cents >= 0);

-- Pay rests on the fee, the minutes, the part taken and the rule alone, and is never below zero: nothing may be taken off it for faulty
-- work (Wis. Stat. 103.455, from memory).
ALTER TABLE pay_rule ADD CONSTRAINT pay_rule_sees CHECK (jsonb_typeof(body) = 'object' AND body - ARRAY['basis', 'writer'] = '{}'::jsonb AND body ?& ARRAY['basis', 'writer']
  AND body->'basis'->>'kind' IN ('share', 'job', 'hours') AND body->'writer'->>'kind' IN ('none', 'percent', 'amount')
  AND (body->'basis') - ARRAY['kind', 'firstPercent', 'secondPercent', 'firstCents', 'secondCents'] = '{}'::jsonb AND (body->'writer') - ARRAY['kind', 'percent', 'cents'] = '{}'::jsonb);
ALTER TABLE visit_pay ADD CONSTRAINT visit_pay_known CHECK (part IN ('first', 'second', 'writer') AND cents >= 0 AND minutes >= 0);

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['pay_rule', 'visit_pay'] LOOP
    EXECUTE format('CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t);
    EXECUTE format('CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t);
    IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN EXECUTE format('REVOKE UPDATE, DELETE, TRUNCATE ON %I FROM backsight_app', t); END IF;
  END LOOP;
END $$;

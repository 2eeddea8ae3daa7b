-- AlterTable
ALTER TABLE "approval_limit" ADD COLUMN     "discount_cents" INTEGER;

-- AlterTable
ALTER TABLE "money_rules" ADD COLUMN     "deposit_closes_gate" BOOLEAN NOT NULL DEFAULT false,
ADD COLUMN     "paid_before_hand_over" BOOLEAN NOT NULL DEFAULT true;

-- AlterTable
ALTER TABLE "visit_kind" ADD COLUMN     "version" INTEGER NOT NULL DEFAULT 1;

-- CreateTable
CREATE TABLE "job_discount" (
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "cents" INTEGER,
    "percent_hundredths" INTEGER,
    "reason" TEXT NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_by" UUID,

    CONSTRAINT "job_discount_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "job_discount_job_id_recorded_at_idx" ON "job_discount"("job_id", "recorded_at");

-- AddForeignKey
ALTER TABLE "job_discount" ADD CONSTRAINT "job_discount_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---------- rules that must never break ----------
ALTER TABLE approval_limit ADD CONSTRAINT approval_limit_discount CHECK (discount_cents >= 0 AND (role <> 'owner' OR discount_cents IS NULL));
ALTER TABLE visit_kind ADD CONSTRAINT visit_kind_minutes CHECK (minutes BETWEEN 5 AND 720 AND report_minutes BETWEEN 0 AND 720);

-- What was said of the discount of a job: an amount, a percentage, or neither, which takes it off again. The newest counts; none is ever changed.
ALTER TABLE job_discount ADD CONSTRAINT job_discount_one_amount CHECK (reason <> '' AND (cents IS NULL OR percent_hundredths IS NULL) AND (cents IS NULL OR cents > 0) AND (percent_hundredths IS NULL OR percent_hundredths BETWEEN 1 AND 10000));
CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON job_discount FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON job_discount FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
DO $$
BEGIN
  IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN
    GRANT SELECT, INSERT ON job_discount TO backsight_app;
    REVOKE UPDATE, DELETE, TRUNCATE ON job_discount FROM backsight_app;
  END IF;
END $$;

-- CreateTable
CREATE TABLE "sealed_paper" (
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "agreement_id" UUID,
    "report_id" UUID,
    "signatures" INTEGER NOT NULL DEFAULT 0,
    "name" TEXT NOT NULL,
    "sha256" TEXT NOT NULL,
    "content" BYTEA NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "sealed_paper_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "sealed_paper_report_id_key" ON "sealed_paper"("report_id");

-- CreateIndex
CREATE UNIQUE INDEX "sealed_paper_sha256_key" ON "sealed_paper"("sha256");

-- CreateIndex
CREATE UNIQUE INDEX "sealed_paper_agreement_id_signatures_key" ON "sealed_paper"("agreement_id", "signatures");

-- AddForeignKey
ALTER TABLE "sealed_paper" ADD CONSTRAINT "sealed_paper_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sealed_paper" ADD CONSTRAINT "sealed_paper_report_id_fkey" FOREIGN KEY ("report_id") REFERENCES "report"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- A sealed paper is what its fingerprint says, belongs to one thing, and stays as it is.
ALTER TABLE sealed_paper ADD CONSTRAINT sealed_paper_fits_fingerprint CHECK (sha256 = encode(sha256(content), 'hex'));
ALTER TABLE sealed_paper ADD CONSTRAINT sealed_paper_of_one_thing CHECK (
  (kind = 'agreement' AND agreement_id IS NOT NULL AND report_id IS NULL AND signatures > 0) OR
  (kind = 'report' AND report_id IS NOT NULL AND agreement_id IS NULL AND signatures = 0));
CREATE INDEX agreement_sha256 ON agreement (sha256);
CREATE INDEX report_file_sha256 ON report (file_sha256);
CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON sealed_paper FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON sealed_paper FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
DO $$
BEGIN
  IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN REVOKE UPDATE, DELETE, TRUNCATE ON sealed_paper FROM backsight_app; END IF;
END $$;

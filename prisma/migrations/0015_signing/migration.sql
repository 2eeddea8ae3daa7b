-- AlterTable
ALTER TABLE "report" ADD COLUMN     "register_no" INTEGER;

-- AlterTable
ALTER TABLE "signature" ADD COLUMN     "address_text_id" UUID,
ADD COLUMN     "consent_text" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "format_word" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "interpreter_text_id" UUID,
ADD COLUMN     "kept_where" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "link_hash" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "photo_sha256" TEXT,
ADD COLUMN     "strokes_text_id" UUID;

-- AlterTable
ALTER TABLE "signer" ADD COLUMN     "authority_sha256" TEXT,
ADD COLUMN     "revoked_at" TIMESTAMPTZ(3),
ADD COLUMN     "shared_with" TEXT NOT NULL DEFAULT '';

-- CreateTable
CREATE TABLE "signer_answer" (
    "id" UUID NOT NULL,
    "signer_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "reason_text_id" UUID NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "signer_answer_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "report_consent" (
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "client_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "how" TEXT NOT NULL,
    "note" TEXT NOT NULL DEFAULT '',
    "given_on" DATE NOT NULL,
    "taken_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "report_consent_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "hand_over_override" (
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "missing" TEXT[],
    "reason" TEXT NOT NULL,
    "actor_id" UUID NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "hand_over_override_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "signer_answer_signer_id_idx" ON "signer_answer"("signer_id");

-- CreateIndex
CREATE INDEX "report_consent_job_id_idx" ON "report_consent"("job_id");

-- CreateIndex
CREATE INDEX "hand_over_override_job_id_idx" ON "hand_over_override"("job_id");

-- CreateIndex
CREATE UNIQUE INDEX "report_register_no_key" ON "report"("register_no");

-- AddForeignKey
ALTER TABLE "signature" ADD CONSTRAINT "signature_photo_sha256_fkey" FOREIGN KEY ("photo_sha256") REFERENCES "stored_file"("sha256") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signer" ADD CONSTRAINT "signer_authority_sha256_fkey" FOREIGN KEY ("authority_sha256") REFERENCES "stored_file"("sha256") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signer_answer" ADD CONSTRAINT "signer_answer_signer_id_fkey" FOREIGN KEY ("signer_id") REFERENCES "signer"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signer_answer" ADD CONSTRAINT "signer_answer_reason_text_id_fkey" FOREIGN KEY ("reason_text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "report_consent" ADD CONSTRAINT "report_consent_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "hand_over_override" ADD CONSTRAINT "hand_over_override_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signature" ADD CONSTRAINT "signature_strokes_text_id_fkey" FOREIGN KEY ("strokes_text_id") REFERENCES "kept_text"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signature" ADD CONSTRAINT "signature_address_text_id_fkey" FOREIGN KEY ("address_text_id") REFERENCES "kept_text"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signature" ADD CONSTRAINT "signature_interpreter_text_id_fkey" FOREIGN KEY ("interpreter_text_id") REFERENCES "kept_text"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "report_consent" ADD CONSTRAINT "report_consent_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "report_consent" ADD CONSTRAINT "report_consent_client_id_fkey" FOREIGN KEY ("client_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- The consent that was shown is what its digest says; rows from before kept the digest alone.
ALTER TABLE signature ADD CONSTRAINT signature_consent_fits CHECK (consent_text = '' OR consent_sha256 = encode(sha256(convert_to(consent_text, 'UTF8')), 'hex'));
-- Who signs for somebody else has the paper on file, or the reason why not is recorded.
ALTER TABLE signer DROP CONSTRAINT signer_capacity;
ALTER TABLE signer ADD CONSTRAINT signer_capacity CHECK (capacity IN ('self', 'attorney_in_fact', 'personal_representative', 'trustee', 'guardian', 'company_officer') AND (capacity = 'self' OR authority <> '' OR authority_sha256 IS NOT NULL));
ALTER TABLE signer_answer ADD CONSTRAINT signer_answer_kind CHECK (kind IN ('declined', 'wants_paper'));
ALTER TABLE report_consent ADD CONSTRAINT report_consent_known CHECK (kind IN ('given', 'withdrawn') AND how IN ('mail', 'paper', 'agreement'));
ALTER TABLE hand_over_override ADD CONSTRAINT hand_over_override_says CHECK (cardinality(missing) > 0 AND length(btrim(reason)) >= 10);

-- The register of reports runs in sequence: the first version of a job's report takes the next number.
UPDATE report r SET register_no = n.no FROM (SELECT id, row_number() OVER (ORDER BY recorded_at, id) AS no FROM report WHERE version = 1) n WHERE n.id = r.id;
ALTER TABLE report ADD CONSTRAINT report_in_register CHECK ((version = 1) = (register_no IS NOT NULL));
INSERT INTO number_counter (kind, next) SELECT 'report', coalesce(max(register_no), 0) + 1 FROM report HAVING max(register_no) IS NOT NULL;

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['signer_answer', 'report_consent', 'hand_over_override'] LOOP
    EXECUTE format('CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t);
    EXECUTE format('CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t);
    IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN EXECUTE format('REVOKE UPDATE, DELETE, TRUNCATE ON %I FROM backsight_app', t); END IF;
  END LOOP;
END $$;

-- Somebody said that the record is to be sealed as soon as everything of both phones is there.
ALTER TABLE "site_record" ADD COLUMN "seal_asked_at" TIMESTAMPTZ(3), ADD COLUMN "seal_asked_by" UUID;
ALTER TABLE "site_record" ADD CONSTRAINT "site_record_seal_asked_by_fkey" FOREIGN KEY ("seal_asked_by") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "site_record" ADD CONSTRAINT "site_record_seal_asked" CHECK (("seal_asked_at" IS NULL) = ("seal_asked_by" IS NULL));

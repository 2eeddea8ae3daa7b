-- The second factor of signing in, codes for whoever lost it, and what a session may do before it is set up.

-- AlterTable
ALTER TABLE "session" ADD COLUMN     "agent" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "stage" TEXT NOT NULL DEFAULT 'whole';

-- AlterTable
ALTER TABLE "sign_in_attempt" ADD COLUMN     "from_hash" TEXT NOT NULL DEFAULT '';

-- CreateTable
CREATE TABLE "second_factor" (
    "person_id" UUID NOT NULL,
    "secret" BYTEA NOT NULL,
    "confirmed_at" TIMESTAMPTZ(3),
    "last_step" BIGINT NOT NULL DEFAULT 0,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "second_factor_pkey" PRIMARY KEY ("person_id")
);

-- CreateTable
CREATE TABLE "recovery_code" (
    "digest" TEXT NOT NULL,
    "person_id" UUID NOT NULL,
    "used_at" TIMESTAMPTZ(3),
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "recovery_code_pkey" PRIMARY KEY ("digest")
);

-- CreateIndex
CREATE INDEX "recovery_code_person_id_idx" ON "recovery_code"("person_id");

-- CreateIndex
CREATE INDEX "sign_in_attempt_from_hash_at_idx" ON "sign_in_attempt"("from_hash", "at");

-- AddForeignKey
ALTER TABLE "second_factor" ADD CONSTRAINT "second_factor_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "recovery_code" ADD CONSTRAINT "recovery_code_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---------- rules ----------
ALTER TABLE session ADD CONSTRAINT session_stage_known CHECK (stage IN ('whole', 'factor_needed') AND length(agent) <= 300);
-- A secret of 20 bytes (RFC 4226, 4: 160 bits), encrypted: 12 bytes of nonce before it and 16 of tag behind it.
ALTER TABLE second_factor ADD CONSTRAINT second_factor_encrypted CHECK (octet_length(secret) = 48);
ALTER TABLE recovery_code ADD CONSTRAINT recovery_code_digest CHECK (digest ~ '^[0-9a-f]{64}$');

-- A one-time code is good once (RFC 6238, 5.2): the step of the newest that was taken never goes back. A code for whoever lost the phone is used once.
CREATE FUNCTION second_factor_goes_on() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.secret = OLD.secret AND NEW.last_step < OLD.last_step THEN PERFORM rule_broken('one_time_code_once'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER second_factor_goes_on BEFORE UPDATE ON second_factor FOR EACH ROW EXECUTE FUNCTION second_factor_goes_on();
CREATE FUNCTION recovery_code_once() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.used_at IS NOT NULL THEN PERFORM rule_broken('recovery_code_once'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER recovery_code_once BEFORE UPDATE ON recovery_code FOR EACH ROW EXECUTE FUNCTION recovery_code_once();

-- DropIndex
DROP INDEX "remedy_approval_remedy_id_actor_id_key";

-- AlterTable
ALTER TABLE "agreement" ADD COLUMN     "remedy_id" UUID;

-- AlterTable
ALTER TABLE "insurance_policy" ADD COLUMN     "aggregate_cents" INTEGER,
ADD COLUMN     "claim_means" TEXT NOT NULL DEFAULT '';

-- AlterTable
ALTER TABLE "remedy" ADD COLUMN     "estimate_id" UUID,
ADD COLUMN     "round" INTEGER NOT NULL DEFAULT 1,
ADD COLUMN     "waits_for_release" BOOLEAN NOT NULL DEFAULT false;

-- AlterTable
ALTER TABLE "remedy_approval" ADD COLUMN     "reviewer" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "round" INTEGER NOT NULL DEFAULT 1,
ADD COLUMN     "text_id" UUID,
ADD COLUMN     "total_cents" INTEGER;

-- CreateTable
CREATE TABLE "estimate" (
    "id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,
    "contractor" TEXT NOT NULL,
    "license" TEXT NOT NULL DEFAULT '',
    "cents" INTEGER NOT NULL,
    "scope" TEXT NOT NULL,
    "estimated_on" DATE NOT NULL,
    "file_sha256" TEXT,
    "recorded_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "estimate_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "remedy_conflict" (
    "id" UUID NOT NULL,
    "remedy_id" UUID NOT NULL,
    "code" TEXT NOT NULL,
    "sentence" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "actor_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "remedy_conflict_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "remedy_payment" (
    "entry_id" UUID NOT NULL,
    "remedy_id" UUID NOT NULL,
    "invoice_id" UUID,
    "method" TEXT NOT NULL DEFAULT '',
    "reference" TEXT NOT NULL DEFAULT '',

    CONSTRAINT "remedy_payment_pkey" PRIMARY KEY ("entry_id")
);

-- CreateTable
CREATE TABLE "callback_recovery" (
    "id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,
    "source" TEXT NOT NULL,
    "direct" BOOLEAN NOT NULL DEFAULT false,
    "cents" INTEGER NOT NULL,
    "received_on" DATE NOT NULL,
    "entry_id" UUID,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "callback_recovery_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "insurer_notice" (
    "id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,
    "remedy_id" UUID,
    "policy_id" UUID,
    "notified_on" DATE NOT NULL,
    "way" TEXT NOT NULL,
    "reference" TEXT NOT NULL DEFAULT '',
    "text_id" UUID NOT NULL,
    "recorded_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "insurer_notice_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "settlement_offer" (
    "id" UUID NOT NULL,
    "remedy_id" UUID NOT NULL,
    "cents" INTEGER NOT NULL,
    "valid_until" DATE NOT NULL,
    "recorded_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "settlement_offer_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "settlement_offer_end" (
    "offer_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "text_id" UUID,
    "actor_id" UUID,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "settlement_offer_end_pkey" PRIMARY KEY ("offer_id")
);

-- CreateTable
CREATE TABLE "court_case" (
    "id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,
    "court" TEXT NOT NULL,
    "reference" TEXT NOT NULL,
    "filed_on" DATE NOT NULL,
    "answer_due_on" DATE,
    "claimed_cents" INTEGER NOT NULL,
    "recorded_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "court_case_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "court_outcome" (
    "id" UUID NOT NULL,
    "case_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "decided_on" DATE NOT NULL,
    "owed_cents" INTEGER NOT NULL,
    "costs_cents" INTEGER NOT NULL,
    "text_id" UUID,
    "recorded_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "court_outcome_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "court_payment" (
    "entry_id" UUID NOT NULL,
    "case_id" UUID NOT NULL,
    "what" TEXT NOT NULL,

    CONSTRAINT "court_payment_pkey" PRIMARY KEY ("entry_id")
);

-- CreateIndex
CREATE INDEX "estimate_callback_id_idx" ON "estimate"("callback_id");

-- CreateIndex
CREATE INDEX "remedy_conflict_remedy_id_idx" ON "remedy_conflict"("remedy_id");

-- CreateIndex
CREATE INDEX "remedy_payment_remedy_id_idx" ON "remedy_payment"("remedy_id");

-- CreateIndex
CREATE INDEX "remedy_payment_invoice_id_idx" ON "remedy_payment"("invoice_id");

-- CreateIndex
CREATE UNIQUE INDEX "callback_recovery_entry_id_key" ON "callback_recovery"("entry_id");

-- CreateIndex
CREATE INDEX "callback_recovery_callback_id_idx" ON "callback_recovery"("callback_id");

-- CreateIndex
CREATE INDEX "insurer_notice_callback_id_idx" ON "insurer_notice"("callback_id");

-- CreateIndex
CREATE INDEX "settlement_offer_remedy_id_idx" ON "settlement_offer"("remedy_id");

-- CreateIndex
CREATE INDEX "court_case_callback_id_idx" ON "court_case"("callback_id");

-- CreateIndex
CREATE INDEX "court_outcome_case_id_idx" ON "court_outcome"("case_id");

-- CreateIndex
CREATE INDEX "court_payment_case_id_idx" ON "court_payment"("case_id");

-- CreateIndex
CREATE INDEX "agreement_remedy_id_idx" ON "agreement"("remedy_id");

-- CreateIndex
CREATE UNIQUE INDEX "remedy_approval_remedy_id_actor_id_round_key" ON "remedy_approval"("remedy_id", "actor_id", "round");

-- AddForeignKey
ALTER TABLE "agreement" ADD CONSTRAINT "agreement_remedy_id_fkey" FOREIGN KEY ("remedy_id") REFERENCES "remedy"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "remedy" ADD CONSTRAINT "remedy_estimate_id_fkey" FOREIGN KEY ("estimate_id") REFERENCES "estimate"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "remedy_approval" ADD CONSTRAINT "remedy_approval_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "estimate" ADD CONSTRAINT "estimate_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "estimate" ADD CONSTRAINT "estimate_file_sha256_fkey" FOREIGN KEY ("file_sha256") REFERENCES "stored_file"("sha256") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "remedy_conflict" ADD CONSTRAINT "remedy_conflict_remedy_id_fkey" FOREIGN KEY ("remedy_id") REFERENCES "remedy"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "remedy_payment" ADD CONSTRAINT "remedy_payment_entry_id_fkey" FOREIGN KEY ("entry_id") REFERENCES "ledger_entry"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "remedy_payment" ADD CONSTRAINT "remedy_payment_remedy_id_fkey" FOREIGN KEY ("remedy_id") REFERENCES "remedy"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "remedy_payment" ADD CONSTRAINT "remedy_payment_invoice_id_fkey" FOREIGN KEY ("invoice_id") REFERENCES "invoice"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "callback_recovery" ADD CONSTRAINT "callback_recovery_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "callback_recovery" ADD CONSTRAINT "callback_recovery_entry_id_fkey" FOREIGN KEY ("entry_id") REFERENCES "ledger_entry"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "insurer_notice" ADD CONSTRAINT "insurer_notice_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "insurer_notice" ADD CONSTRAINT "insurer_notice_remedy_id_fkey" FOREIGN KEY ("remedy_id") REFERENCES "remedy"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "insurer_notice" ADD CONSTRAINT "insurer_notice_policy_id_fkey" FOREIGN KEY ("policy_id") REFERENCES "insurance_policy"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "insurer_notice" ADD CONSTRAINT "insurer_notice_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "settlement_offer" ADD CONSTRAINT "settlement_offer_remedy_id_fkey" FOREIGN KEY ("remedy_id") REFERENCES "remedy"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "settlement_offer_end" ADD CONSTRAINT "settlement_offer_end_offer_id_fkey" FOREIGN KEY ("offer_id") REFERENCES "settlement_offer"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "settlement_offer_end" ADD CONSTRAINT "settlement_offer_end_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "court_case" ADD CONSTRAINT "court_case_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "court_outcome" ADD CONSTRAINT "court_outcome_case_id_fkey" FOREIGN KEY ("case_id") REFERENCES "court_case"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "court_outcome" ADD CONSTRAINT "court_outcome_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "court_payment" ADD CONSTRAINT "court_payment_entry_id_fkey" FOREIGN KEY ("entry_id") REFERENCES "ledger_entry"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "court_payment" ADD CONSTRAINT "court_payment_case_id_fkey" FOREIGN KEY ("case_id") REFERENCES "court_case"("id") ON DELETE RESTRICT ON UPDATE CASCADE;


-- ---------- rules that must never break ----------
ALTER TABLE insurance_policy ADD CONSTRAINT insurance_policy_amounts CHECK (limit_cents >= 0 AND deductible_cents >= 0 AND (aggregate_cents IS NULL OR aggregate_cents >= limit_cents));
ALTER TABLE estimate ADD CONSTRAINT estimate_says CHECK (cents > 0 AND length(btrim(contractor)) > 0 AND length(btrim(scope)) > 0);
ALTER TABLE remedy ADD CONSTRAINT remedy_estimate_of_contractor CHECK (estimate_id IS NULL OR kind = 'independent_contractor');
ALTER TABLE remedy_conflict ADD CONSTRAINT remedy_conflict_says CHECK (length(btrim(reason)) >= 10);
ALTER TABLE remedy_approval ADD CONSTRAINT remedy_approval_outside CHECK (reviewer = '' OR text_id IS NOT NULL);
ALTER TABLE callback_recovery ADD CONSTRAINT callback_recovery_known CHECK (source IN ('insurer', 'contractor', 'other') AND cents > 0 AND direct = (entry_id IS NULL) AND (NOT direct OR source = 'insurer'));
ALTER TABLE settlement_offer ADD CONSTRAINT settlement_offer_says CHECK (cents > 0);
ALTER TABLE settlement_offer_end ADD CONSTRAINT settlement_offer_end_known CHECK (kind IN ('accepted', 'declined', 'withdrawn'));
ALTER TABLE court_case ADD CONSTRAINT court_case_says CHECK (claimed_cents >= 0 AND (answer_due_on IS NULL OR answer_due_on >= filed_on));
ALTER TABLE court_outcome ADD CONSTRAINT court_outcome_known CHECK (kind IN ('judgment', 'settlement', 'dismissed') AND owed_cents >= 0 AND costs_cents >= 0 AND (kind <> 'dismissed' OR owed_cents = 0));
ALTER TABLE court_payment ADD CONSTRAINT court_payment_known CHECK (what IN ('owed', 'costs'));
ALTER TABLE agreement_text DROP CONSTRAINT agreement_text_states;
ALTER TABLE agreement_text ADD CONSTRAINT agreement_text_states CHECK (state IN ('draft', 'approved', 'withdrawn') AND kind IN ('inspection', 'reinspection', 'settlement_release'));

-- No offer and no release leaves before the insurer's consent or the owner's reason is on file; payments are held by check_entry.
CREATE FUNCTION check_offer() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.remedy_id IS NOT NULL AND NOT EXISTS (SELECT FROM remedy r JOIN clearance c ON c.callback_id = r.callback_id WHERE r.id = NEW.remedy_id)
  THEN PERFORM rule_broken('payment_needs_clearance'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER offer_needs_clearance BEFORE INSERT ON settlement_offer FOR EACH ROW EXECUTE FUNCTION check_offer();
CREATE TRIGGER offer_needs_clearance BEFORE INSERT ON agreement FOR EACH ROW WHEN (NEW.remedy_id IS NOT NULL) EXECUTE FUNCTION check_offer();

-- A remedy is paid once, only when it was approved, and after the signed release where it waits for one.
CREATE FUNCTION check_remedy_payment() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE r remedy;
BEGIN
  SELECT * INTO r FROM remedy WHERE id = NEW.remedy_id FOR UPDATE;
  IF r.state NOT IN ('approved', 'done') THEN PERFORM rule_broken('payment_needs_approval'); END IF;
  IF EXISTS (SELECT FROM remedy_payment p WHERE p.remedy_id = NEW.remedy_id AND p.entry_id <> NEW.entry_id AND NOT EXISTS (SELECT FROM ledger_entry v WHERE v.reverses_id = p.entry_id))
  THEN PERFORM rule_broken('remedy_paid_once'); END IF;
  IF r.waits_for_release AND NOT EXISTS (SELECT FROM agreement a JOIN sealed_paper s ON s.agreement_id = a.id WHERE a.remedy_id = r.id AND NOT EXISTS (SELECT FROM agreement n WHERE n.supersedes_id = a.id))
  THEN PERFORM rule_broken('payment_waits_for_release'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER remedy_payment_fits BEFORE INSERT ON remedy_payment FOR EACH ROW EXECUTE FUNCTION check_remedy_payment();

-- Never more comes back for a callback than was paid.
CREATE FUNCTION check_recovered() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.account = 'bank' AND NEW.callback_id IS NOT NULL THEN
    PERFORM pg_advisory_xact_lock(hashtextextended('reserve:' || NEW.callback_id::text, 0));
    IF (SELECT sum(cents) > 0 FROM ledger_line WHERE account = 'bank' AND callback_id = NEW.callback_id) THEN PERFORM rule_broken('recovered_within_paid'); END IF;
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER recovered_within_paid AFTER INSERT ON ledger_line DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION check_recovered();

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['estimate', 'remedy_conflict', 'remedy_payment', 'callback_recovery', 'insurer_notice', 'settlement_offer', 'settlement_offer_end', 'court_case', 'court_outcome', 'court_payment'] LOOP
    EXECUTE format('CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t);
    EXECUTE format('CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t);
    IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN EXECUTE format('REVOKE UPDATE, DELETE, TRUNCATE ON %I FROM backsight_app', t); END IF;
  END LOOP;
END $$;

-- ---------- what a firm that is already set up gains ----------
-- Payments and recoveries of before, as far as the ledger and the events tell.
INSERT INTO remedy_payment (entry_id, remedy_id)
  SELECT DISTINCT ON (e.details->>'remedyId') (e.details->>'entryId')::uuid, (e.details->>'remedyId')::uuid FROM callback_event e
  JOIN ledger_entry l ON l.id = (e.details->>'entryId')::uuid JOIN remedy r ON r.id = (e.details->>'remedyId')::uuid WHERE e.kind = 'paid' ORDER BY e.details->>'remedyId', e.seq;
INSERT INTO callback_recovery (id, callback_id, source, cents, received_on, entry_id, recorded_at)
  SELECT gen_random_uuid(), e.callback_id, 'other', (SELECT sum(cents) FROM ledger_line WHERE entry_id = l.id AND account = 'bank'), l.happened_on, l.id, l.recorded_at FROM callback_event e
  JOIN ledger_entry l ON l.id = (e.details->>'entryId')::uuid WHERE e.kind = 'recovered';
-- An example of a settlement release, which no attorney has reviewed.
INSERT INTO agreement_text (id, number, kind, state, title, clauses, consent_text, reason, approved_at, in_force_from, recorded_at)
  SELECT gen_random_uuid(), (SELECT coalesce(max(number), 0) + 1 FROM agreement_text), 'settlement_release', 'approved', 'Settlement release', '[{"key":"parties","title":"","body":"Between **{{firm}}** (\"the firm\") and **{{client}}** (\"the claimant\").","applies":{"always":true},"client":"anybody"},{"key":"matter","title":"What this is about","body":"The claimant brought callback {{callback}} about the inspection of {{address}}, job {{job}}.","applies":{"always":true},"client":"anybody"},{"key":"payment","title":"What is paid","body":"The firm pays {{amount}} to {{payee}} within 14 days after this paper is signed.","applies":{"always":true},"client":"anybody"},{"key":"ends","title":"What ends with it","body":"With that payment the claim that callback {{callback}} describes is settled, against the firm, its owners and its inspectors. What it does not describe, and what nobody could know when this was signed, is not settled by it.","applies":{"always":true},"client":"anybody"},{"key":"no_admission","title":"No admission","body":"The payment is made to settle what is in dispute. Neither side admits by it that anything was done wrong or that anything was owed.","applies":{"always":true},"client":"anybody"},{"key":"advice","title":"Before signing","body":"The claimant may show this paper to an attorney, and need not sign it. Nothing in it keeps anybody from speaking with the board that licenses inspectors.","applies":{"always":true},"client":"anybody"}]'::jsonb, 'Signing and receiving papers electronically
You may have this paper and later papers on paper instead: tell the office, without charge.
Your consent covers this paper only.
You may withdraw it at any time by telling the office; what was signed before stays valid.
Tell the office when your e-mail address changes.
To read and keep these papers you need a device with an internet browser, and a way to save or print pages. By opening this page you show that you can.', '', t.approved_at, t.in_force_from, t.recorded_at
  FROM agreement_text t WHERE t.kind = 'inspection' AND t.in_force_from IS NOT NULL ORDER BY t.in_force_from LIMIT 1;

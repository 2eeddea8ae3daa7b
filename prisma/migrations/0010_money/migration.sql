-- AlterTable
ALTER TABLE "invoice" ADD COLUMN     "deposit_cents" INTEGER NOT NULL DEFAULT 0,
ADD COLUMN     "tax_cents" INTEGER NOT NULL DEFAULT 0;

-- AlterTable
ALTER TABLE "invoice_line" ADD COLUMN     "tax_cents" INTEGER NOT NULL DEFAULT 0;

-- AlterTable
ALTER TABLE "ledger_account" ADD COLUMN     "own" BOOLEAN NOT NULL DEFAULT false;

-- AlterTable
ALTER TABLE "ledger_entry" ADD COLUMN     "real_on" DATE;

-- CreateTable
CREATE TABLE "invoice_act" (
    "id" UUID NOT NULL,
    "invoice_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "number" INTEGER,
    "cents" INTEGER NOT NULL,
    "tax_cents" INTEGER NOT NULL DEFAULT 0,
    "reason" TEXT NOT NULL,
    "method" TEXT,
    "reference" TEXT NOT NULL DEFAULT '',
    "entry_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_by" UUID,

    CONSTRAINT "invoice_act_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "job_terms" (
    "job_id" UUID NOT NULL,
    "deposit_cents" INTEGER,
    "deposit_percent" INTEGER,
    "due_on" DATE,

    CONSTRAINT "job_terms_pkey" PRIMARY KEY ("job_id")
);

-- CreateTable
CREATE TABLE "payer_share" (
    "job_id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "weight" INTEGER NOT NULL,

    CONSTRAINT "payer_share_pkey" PRIMARY KEY ("job_id","party_id")
);

-- CreateTable
CREATE TABLE "money_rules" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "several_payers" BOOLEAN NOT NULL DEFAULT false,
    "deposit_percent" INTEGER NOT NULL DEFAULT 50,
    "closing_days" INTEGER NOT NULL DEFAULT 30,
    "returned_fee_cents" INTEGER NOT NULL DEFAULT 0,
    "tax_name" TEXT NOT NULL DEFAULT 'Sales tax',
    "tax_thousandths" INTEGER NOT NULL DEFAULT 0,
    "tax_services" TEXT[],
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "money_rules_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "book_closing" (
    "id" UUID NOT NULL,
    "through" DATE,
    "reason" TEXT NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "book_closing_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "invoice_act_entry_id_key" ON "invoice_act"("entry_id");

-- CreateIndex
CREATE INDEX "invoice_act_invoice_id_idx" ON "invoice_act"("invoice_id");

-- CreateIndex
CREATE UNIQUE INDEX "invoice_act_kind_number_key" ON "invoice_act"("kind", "number");

-- CreateIndex
CREATE INDEX "ledger_entry_happened_on_idx" ON "ledger_entry"("happened_on");

-- CreateIndex
CREATE INDEX "ledger_line_party_id_idx" ON "ledger_line"("party_id");

-- AddForeignKey
ALTER TABLE "invoice_act" ADD CONSTRAINT "invoice_act_invoice_id_fkey" FOREIGN KEY ("invoice_id") REFERENCES "invoice"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "invoice_act" ADD CONSTRAINT "invoice_act_entry_id_fkey" FOREIGN KEY ("entry_id") REFERENCES "ledger_entry"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_terms" ADD CONSTRAINT "job_terms_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "payer_share" ADD CONSTRAINT "payer_share_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "payer_share" ADD CONSTRAINT "payer_share_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---------- rules ----------
ALTER TABLE invoice ADD CONSTRAINT invoice_parts CHECK (tax_cents BETWEEN 0 AND total_cents AND deposit_cents BETWEEN 0 AND total_cents);
ALTER TABLE invoice_act ADD CONSTRAINT invoice_act_known CHECK (kind IN ('credit_note', 'write_off', 'refund', 'returned_fee') AND cents > 0 AND tax_cents BETWEEN 0 AND cents
  AND reason <> '' AND (kind = 'credit_note') = (number IS NOT NULL) AND (kind = 'refund') = (method IS NOT NULL) AND (method IS NULL OR method IN ('cash', 'check', 'card', 'bank')));
ALTER TABLE job_terms ADD CONSTRAINT job_terms_deposit CHECK (deposit_cents > 0 AND deposit_percent IS NULL OR deposit_percent BETWEEN 1 AND 100 AND deposit_cents IS NULL OR deposit_cents IS NULL AND deposit_percent IS NULL);
ALTER TABLE payer_share ADD CONSTRAINT payer_share_weight CHECK (weight BETWEEN 0 AND 1000000);
ALTER TABLE money_rules ADD CONSTRAINT money_rules_sound CHECK (id = 1 AND deposit_percent BETWEEN 1 AND 100 AND closing_days BETWEEN 0 AND 365 AND returned_fee_cents BETWEEN 0 AND 100000
  AND tax_thousandths BETWEEN 0 AND 30000 AND tax_name <> '');
ALTER TABLE book_closing ADD CONSTRAINT book_closing_month CHECK (through IS NULL OR (through + 1) = date_trunc('month', through + 1)::date);

-- An invoice that was issued keeps its tax and what it asks for ahead, besides what 0002 holds fast.
CREATE FUNCTION check_invoice_tax() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.number IS NOT NULL AND NEW.tax_cents <> OLD.tax_cents THEN PERFORM rule_broken('invoice_issued_is_fixed'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER invoice_tax_is_fixed BEFORE UPDATE ON invoice FOR EACH ROW EXECUTE FUNCTION check_invoice_tax();

-- Numbers without a gap: whoever takes a number finds the one before it. The counter row keeps two takers apart.
CREATE FUNCTION check_number_follows() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_TABLE_NAME = 'invoice' THEN
    IF NEW.number > 1001 AND NOT EXISTS (SELECT FROM invoice WHERE number = NEW.number - 1) THEN PERFORM rule_broken('number_without_gap'); END IF;
  ELSIF NEW.number > 1001 AND NOT EXISTS (SELECT FROM invoice_act WHERE kind = NEW.kind AND number = NEW.number - 1) THEN PERFORM rule_broken('number_without_gap');
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER number_without_gap AFTER INSERT ON invoice DEFERRABLE INITIALLY DEFERRED FOR EACH ROW WHEN (NEW.number IS NOT NULL) EXECUTE FUNCTION check_number_follows();
CREATE CONSTRAINT TRIGGER number_without_gap AFTER INSERT ON invoice_act DEFERRABLE INITIALLY DEFERRED FOR EACH ROW WHEN (NEW.number IS NOT NULL) EXECUTE FUNCTION check_number_follows();

-- The books are closed through the day that the newest closing names. Closing waits for entries that are being written, and they for it.
CREATE FUNCTION books_closed_through() RETURNS date LANGUAGE sql VOLATILE AS $$
  SELECT through FROM book_closing ORDER BY recorded_at DESC, id DESC LIMIT 1
$$;
CREATE FUNCTION check_day_open() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM pg_advisory_xact_lock_shared(hashtextextended('closing of the books', 0));
  IF NEW.happened_on <= books_closed_through() THEN PERFORM rule_broken('ledger_day_closed'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER ledger_day_closed BEFORE INSERT ON ledger_entry FOR EACH ROW EXECUTE FUNCTION check_day_open();

-- What belongs to an invoice, and what each kind of it comes to. What is open is never stored.
CREATE VIEW invoice_entry AS
  SELECT id AS invoice_id, id AS entry_id, 'invoice'::text AS kind FROM invoice WHERE number IS NOT NULL
  UNION ALL SELECT invoice_id, entry_id, 'payment' FROM payment
  UNION ALL SELECT invoice_id, entry_id, kind FROM invoice_act;
CREATE VIEW invoice_money AS
  SELECT o.invoice_id, o.kind, l.cents FROM invoice_entry o
  CROSS JOIN LATERAL (SELECT o.entry_id AS id UNION ALL SELECT r.id FROM ledger_entry r WHERE r.reverses_id = o.entry_id) e
  JOIN ledger_line l ON l.entry_id = e.id AND l.account IN ('receivable', 'deposits-held');

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['invoice_act', 'book_closing'] LOOP
    EXECUTE format('CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t);
    EXECUTE format('CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t);
    IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN EXECUTE format('REVOKE UPDATE, DELETE, TRUNCATE ON %I FROM backsight_app', t); END IF;
  END LOOP;
END $$;

-- Accounts that a firm which began earlier does not have yet.
INSERT INTO ledger_account (code, name, kind)
SELECT code, name, kind FROM (VALUES ('sales-tax', 'Sales tax owed to the state', 'liability'), ('returned-fees', 'Charges for returned payments', 'income'),
  ('owner-equity', 'Owner''s equity', 'equity'), ('other-expense', 'Other expenses', 'expense')) AS new(code, name, kind)
WHERE EXISTS (SELECT FROM ledger_account) ON CONFLICT (code) DO NOTHING;

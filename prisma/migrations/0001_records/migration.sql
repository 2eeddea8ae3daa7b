-- The firm's records, as prisma/schema.prisma describes them.
-- CreateTable
CREATE TABLE "firm" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "name" TEXT NOT NULL,
    "phone" TEXT NOT NULL,
    "email" TEXT NOT NULL,
    "address" TEXT NOT NULL,
    "zone" TEXT NOT NULL,
    "demo" BOOLEAN NOT NULL DEFAULT false,
    "hold_minutes" INTEGER NOT NULL DEFAULT 20,
    "grace_days" INTEGER NOT NULL DEFAULT 2,
    "every_signer" BOOLEAN NOT NULL DEFAULT true,
    "report_due_days" INTEGER NOT NULL DEFAULT 2,
    "on_call_phone" TEXT NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,
    "set_up_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "firm_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "office" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "zone" TEXT NOT NULL,
    "jurisdiction" TEXT NOT NULL,
    "address" TEXT NOT NULL,
    "lat" DOUBLE PRECISION NOT NULL,
    "lon" DOUBLE PRECISION NOT NULL,
    "hours" JSONB NOT NULL,

    CONSTRAINT "office_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "town" (
    "name" TEXT NOT NULL,
    "zip" TEXT NOT NULL,
    "lat" DOUBLE PRECISION NOT NULL,
    "lon" DOUBLE PRECISION NOT NULL,

    CONSTRAINT "town_pkey" PRIMARY KEY ("name")
);

-- CreateTable
CREATE TABLE "closed_day" (
    "day" DATE NOT NULL,
    "name" TEXT NOT NULL,

    CONSTRAINT "closed_day_pkey" PRIMARY KEY ("day")
);

-- CreateTable
CREATE TABLE "rule_pack" (
    "id" UUID NOT NULL,
    "jurisdiction" TEXT NOT NULL,
    "version_day" DATE NOT NULL,
    "body" JSONB NOT NULL,

    CONSTRAINT "rule_pack_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "approval_limit" (
    "role" TEXT NOT NULL,
    "limit_cents" INTEGER,

    CONSTRAINT "approval_limit_pkey" PRIMARY KEY ("role")
);

-- CreateTable
CREATE TABLE "approval_loan" (
    "id" UUID NOT NULL,
    "lender_id" UUID NOT NULL,
    "borrower_id" UUID NOT NULL,
    "role" TEXT NOT NULL,
    "from_day" DATE NOT NULL,
    "until_day" DATE NOT NULL,
    "reason" TEXT NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "approval_loan_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "insurance_policy" (
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "insurer" TEXT NOT NULL,
    "number" TEXT NOT NULL,
    "basis" TEXT NOT NULL,
    "starts_on" DATE NOT NULL,
    "ends_on" DATE NOT NULL,
    "retroactive_on" DATE,
    "limit_cents" INTEGER NOT NULL,
    "deductible_cents" INTEGER NOT NULL,
    "reportable" TEXT NOT NULL,
    "notice_address" TEXT NOT NULL,

    CONSTRAINT "insurance_policy_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "person" (
    "id" UUID NOT NULL,
    "office_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "email" TEXT NOT NULL,
    "phone" TEXT NOT NULL,
    "password_hash" TEXT,
    "trainee" BOOLEAN NOT NULL DEFAULT false,
    "may_lead" BOOLEAN NOT NULL DEFAULT true,
    "home_address" TEXT NOT NULL,
    "home_lat" DOUBLE PRECISION NOT NULL,
    "home_lon" DOUBLE PRECISION NOT NULL,
    "started_on" DATE NOT NULL,
    "ended_on" DATE,
    "version" INTEGER NOT NULL DEFAULT 1,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "person_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "person_role" (
    "person_id" UUID NOT NULL,
    "role" TEXT NOT NULL,

    CONSTRAINT "person_role_pkey" PRIMARY KEY ("person_id","role")
);

-- CreateTable
CREATE TABLE "license" (
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "number" TEXT NOT NULL,
    "from_day" DATE NOT NULL,
    "until_day" DATE NOT NULL,

    CONSTRAINT "license_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "qualification_kind" (
    "key" TEXT NOT NULL,
    "name" TEXT NOT NULL,

    CONSTRAINT "qualification_kind_pkey" PRIMARY KEY ("key")
);

-- CreateTable
CREATE TABLE "person_qualification" (
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "from_day" DATE NOT NULL,
    "until_day" DATE,

    CONSTRAINT "person_qualification_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "work_pattern" (
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "weekday" INTEGER NOT NULL,
    "start_minute" INTEGER NOT NULL,
    "end_minute" INTEGER NOT NULL,
    "from_day" DATE NOT NULL,
    "until_day" DATE,

    CONSTRAINT "work_pattern_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "absence" (
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "starts_at" TIMESTAMPTZ(3) NOT NULL,
    "ends_at" TIMESTAMPTZ(3) NOT NULL,
    "reason" TEXT NOT NULL,
    "withdrawn_at" TIMESTAMPTZ(3),
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "absence_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "pairing_rule" (
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "a_id" UUID NOT NULL,
    "b_id" UUID NOT NULL,
    "reason" TEXT NOT NULL,
    "ended_on" DATE,

    CONSTRAINT "pairing_rule_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "person_bar" (
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "property_id" UUID NOT NULL,
    "reason" TEXT,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "person_bar_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "kit_kind" (
    "key" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "calibrated" BOOLEAN NOT NULL DEFAULT false,
    "carried_by_all" BOOLEAN NOT NULL DEFAULT false,

    CONSTRAINT "kit_kind_pkey" PRIMARY KEY ("key")
);

-- CreateTable
CREATE TABLE "kit_item" (
    "id" UUID NOT NULL,
    "office_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "serial" TEXT NOT NULL,
    "calibrated_until" DATE,
    "ended_on" DATE,
    "note" TEXT NOT NULL,

    CONSTRAINT "kit_item_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "session" (
    "id" UUID NOT NULL,
    "token_hash" TEXT NOT NULL,
    "person_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3),

    CONSTRAINT "session_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "sign_in_attempt" (
    "id" UUID NOT NULL,
    "email_hash" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "succeeded" BOOLEAN NOT NULL,

    CONSTRAINT "sign_in_attempt_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "property" (
    "id" UUID NOT NULL,
    "address" TEXT NOT NULL,
    "town" TEXT NOT NULL,
    "zip" TEXT NOT NULL,
    "address_key" TEXT NOT NULL,
    "lat" DOUBLE PRECISION NOT NULL,
    "lon" DOUBLE PRECISION NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "property_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "fact_sheet" (
    "id" UUID NOT NULL,
    "property_id" UUID NOT NULL,
    "facts" JSONB NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_by" UUID,

    CONSTRAINT "fact_sheet_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "party" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "email" TEXT,
    "phone" TEXT,
    "minor" BOOLEAN NOT NULL DEFAULT false,
    "wishes" TEXT NOT NULL DEFAULT '',
    "ask_owner" TEXT,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "party_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "service" (
    "key" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "search_words" TEXT[],
    "position" INTEGER NOT NULL,
    "base" BOOLEAN NOT NULL DEFAULT false,
    "provider_only" BOOLEAN NOT NULL DEFAULT false,
    "offered_when" JSONB NOT NULL,
    "extra_visit" TEXT,

    CONSTRAINT "service_pkey" PRIMARY KEY ("key")
);

-- CreateTable
CREATE TABLE "provider" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "phone" TEXT NOT NULL,
    "service_key" TEXT NOT NULL,
    "contracts_with_us" BOOLEAN NOT NULL,
    "cost_cents" INTEGER NOT NULL,
    "minutes" INTEGER NOT NULL,
    "license_until" DATE,
    "insurance_until" DATE,
    "ended_on" DATE,

    CONSTRAINT "provider_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "booking_rules" (
    "id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "body" JSONB NOT NULL,
    "in_force_from" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "booking_rules_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "job" (
    "id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "office_id" UUID NOT NULL,
    "property_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "facts" JSONB NOT NULL,
    "schedule_id" UUID NOT NULL,
    "rules_id" UUID NOT NULL,
    "parent_id" UUID,
    "terms" TEXT NOT NULL,
    "objection_on" DATE,
    "source" TEXT NOT NULL DEFAULT '',
    "client_attends" BOOLEAN NOT NULL DEFAULT true,
    "version" INTEGER NOT NULL DEFAULT 1,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "job_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "job_event" (
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "seq" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "details" JSONB NOT NULL,
    "text_id" UUID,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "actor_id" UUID,

    CONSTRAINT "job_event_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "job_party" (
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "role" TEXT NOT NULL,
    "may_receive_report" BOOLEAN NOT NULL DEFAULT false,
    "consent_at" TIMESTAMPTZ(3),

    CONSTRAINT "job_party_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "job_service" (
    "job_id" UUID NOT NULL,
    "service_key" TEXT NOT NULL,
    "provider_id" UUID,

    CONSTRAINT "job_service_pkey" PRIMARY KEY ("job_id","service_key")
);

-- CreateTable
CREATE TABLE "job_need" (
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "due_at" TIMESTAMPTZ(3) NOT NULL,
    "details" JSONB NOT NULL,
    "asked_at" TIMESTAMPTZ(3),
    "settled_at" TIMESTAMPTZ(3),
    "settled_by" UUID,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "job_need_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "job_fee_line" (
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,
    "rule_key" TEXT NOT NULL,
    "label" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "assumption" TEXT,
    "cents" INTEGER NOT NULL,
    "withdrawn_at" TIMESTAMPTZ(3),
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "job_fee_line_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "visit_kind" (
    "key" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "crew_size" INTEGER NOT NULL,
    "minutes" INTEGER NOT NULL,
    "on_site_hazard" BOOLEAN NOT NULL DEFAULT false,

    CONSTRAINT "visit_kind_pkey" PRIMARY KEY ("key")
);

-- CreateTable
CREATE TABLE "visit" (
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "crew_size" INTEGER NOT NULL,
    "state" TEXT NOT NULL,
    "live" BOOLEAN NOT NULL,
    "starts_at" TIMESTAMPTZ(3) NOT NULL,
    "ends_at" TIMESTAMPTZ(3) NOT NULL,
    "during" tstzrange GENERATED ALWAYS AS (tstzrange("starts_at", "ends_at", '[)')) STORED,
    "hold_ends_at" TIMESTAMPTZ(3),
    "report_minutes" INTEGER NOT NULL DEFAULT 60,
    "because" JSONB NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "visit_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "assignment" (
    "visit_id" UUID NOT NULL,
    "place" TEXT NOT NULL,
    "person_id" UUID NOT NULL,
    "starts_at" TIMESTAMPTZ(3) NOT NULL,
    "ends_at" TIMESTAMPTZ(3) NOT NULL,
    "live" BOOLEAN NOT NULL,
    "during" tstzrange GENERATED ALWAYS AS (tstzrange("starts_at", "ends_at", '[)')) STORED,

    CONSTRAINT "assignment_pkey" PRIMARY KEY ("visit_id","place")
);

-- CreateTable
CREATE TABLE "observer" (
    "visit_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "reason" TEXT NOT NULL,

    CONSTRAINT "observer_pkey" PRIMARY KEY ("visit_id","person_id")
);

-- CreateTable
CREATE TABLE "visit_kit" (
    "visit_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,

    CONSTRAINT "visit_kit_pkey" PRIMARY KEY ("visit_id","kind")
);

-- CreateTable
CREATE TABLE "person_day" (
    "person_id" UUID NOT NULL,
    "day" DATE NOT NULL,

    CONSTRAINT "person_day_pkey" PRIMARY KEY ("person_id","day")
);

-- CreateTable
CREATE TABLE "kit_day" (
    "kind" TEXT NOT NULL,
    "day" DATE NOT NULL,

    CONSTRAINT "kit_day_pkey" PRIMARY KEY ("kind","day")
);

-- CreateTable
CREATE TABLE "fee_schedule" (
    "id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "body" JSONB NOT NULL,
    "state" TEXT NOT NULL,
    "in_force_from" TIMESTAMPTZ(3),
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "fee_schedule_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "invoice" (
    "id" UUID NOT NULL,
    "number" INTEGER,
    "job_id" UUID NOT NULL,
    "payer_id" UUID NOT NULL,
    "state" TEXT NOT NULL,
    "total_cents" INTEGER NOT NULL,
    "due_on" DATE NOT NULL,
    "issued_at" TIMESTAMPTZ(3),
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "invoice_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "invoice_line" (
    "invoice_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,
    "label" TEXT NOT NULL,
    "cents" INTEGER NOT NULL,

    CONSTRAINT "invoice_line_pkey" PRIMARY KEY ("invoice_id","position")
);

-- CreateTable
CREATE TABLE "payment" (
    "id" UUID NOT NULL,
    "invoice_id" UUID NOT NULL,
    "method" TEXT NOT NULL,
    "reference" TEXT NOT NULL,
    "cents" INTEGER NOT NULL,
    "received_on" DATE NOT NULL,
    "entry_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_by" UUID,

    CONSTRAINT "payment_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ledger_account" (
    "code" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,

    CONSTRAINT "ledger_account_pkey" PRIMARY KEY ("code")
);

-- CreateTable
CREATE TABLE "ledger_entry" (
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "happened_on" DATE NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "actor_id" UUID,
    "reverses_id" UUID,
    "memo" TEXT NOT NULL,

    CONSTRAINT "ledger_entry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "ledger_line" (
    "entry_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,
    "account" TEXT NOT NULL,
    "cents" INTEGER NOT NULL,
    "party_id" UUID,
    "job_id" UUID,
    "callback_id" UUID,

    CONSTRAINT "ledger_line_pkey" PRIMARY KEY ("entry_id","position")
);

-- CreateTable
CREATE TABLE "agreement_text" (
    "id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "title" TEXT NOT NULL,
    "body" TEXT NOT NULL,
    "consent_text" TEXT NOT NULL,
    "in_force_from" TIMESTAMPTZ(3),
    "attorney" TEXT,
    "attorney_on" DATE,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "agreement_text_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "agreement" (
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "text_id" UUID NOT NULL,
    "body" TEXT NOT NULL,
    "sha256" TEXT NOT NULL,
    "issued_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "supersedes_id" UUID,

    CONSTRAINT "agreement_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "signer" (
    "id" UUID NOT NULL,
    "agreement_id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "capacity" TEXT NOT NULL,
    "authority" TEXT NOT NULL DEFAULT '',
    "token_hash" TEXT NOT NULL,
    "token_ends_at" TIMESTAMPTZ(3) NOT NULL,
    "sent_at" TIMESTAMPTZ(3),
    "shared_address" BOOLEAN NOT NULL DEFAULT false,

    CONSTRAINT "signer_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "signature" (
    "id" UUID NOT NULL,
    "signer_id" UUID NOT NULL,
    "name_text_id" UUID NOT NULL,
    "sha256" TEXT NOT NULL,
    "consent_sha256" TEXT NOT NULL,
    "method" TEXT NOT NULL,
    "device" TEXT NOT NULL,
    "ip_hash" TEXT NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "signature_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "gate_override" (
    "id" UUID NOT NULL,
    "visit_id" UUID NOT NULL,
    "missing" TEXT[],
    "reason" TEXT NOT NULL,
    "actor_id" UUID NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "gate_override_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "procedure" (
    "id" UUID NOT NULL,
    "key" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "system" TEXT NOT NULL,
    "position" INTEGER NOT NULL,

    CONSTRAINT "procedure_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "step_key" (
    "key" TEXT NOT NULL,
    "procedure_id" UUID NOT NULL,
    "derived_from" TEXT,

    CONSTRAINT "step_key_pkey" PRIMARY KEY ("key")
);

-- CreateTable
CREATE TABLE "procedure_revision" (
    "id" UUID NOT NULL,
    "procedure_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "state" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "based_on_id" UUID,
    "author_id" UUID NOT NULL,
    "approver_id" UUID,
    "approved_at" TIMESTAMPTZ(3),
    "in_force_from" TIMESTAMPTZ(3),
    "acknowledge_by" TIMESTAMPTZ(3),
    "version" INTEGER NOT NULL DEFAULT 1,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "procedure_revision_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "revision_step" (
    "revision_id" UUID NOT NULL,
    "step_key" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "body" JSONB NOT NULL,

    CONSTRAINT "revision_step_pkey" PRIMARY KEY ("revision_id","step_key")
);

-- CreateTable
CREATE TABLE "in_force_period" (
    "id" UUID NOT NULL,
    "procedure_id" UUID NOT NULL,
    "revision_id" UUID NOT NULL,
    "from_at" TIMESTAMPTZ(3) NOT NULL,
    "until_at" TIMESTAMPTZ(3),
    "during" tstzrange GENERATED ALWAYS AS (tstzrange("from_at", "until_at", '[)')) STORED,

    CONSTRAINT "in_force_period_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "acknowledgement" (
    "revision_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "where" TEXT NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "acknowledgement_pkey" PRIMARY KEY ("revision_id","person_id")
);

-- CreateTable
CREATE TABLE "site_record" (
    "id" UUID NOT NULL,
    "visit_id" UUID NOT NULL,
    "state" TEXT NOT NULL,
    "opened_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_as" TEXT,
    "sealed_at" TIMESTAMPTZ(3),
    "seal_sha256" TEXT,
    "sealed_by" UUID,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "site_record_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "site_package" (
    "id" UUID NOT NULL,
    "record_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "body" JSONB NOT NULL,
    "sha256" TEXT NOT NULL,
    "start_despite_gate" BOOLEAN NOT NULL DEFAULT false,
    "issued_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "site_package_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "package_step" (
    "id" UUID NOT NULL,
    "package_id" UUID NOT NULL,
    "step_key" TEXT NOT NULL,
    "revision_id" UUID NOT NULL,
    "item_id" UUID,
    "position" INTEGER NOT NULL,
    "partner_check" BOOLEAN NOT NULL,

    CONSTRAINT "package_step_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "record_item" (
    "id" UUID NOT NULL,
    "record_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "label" TEXT NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "record_item_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "step_entry" (
    "id" UUID NOT NULL,
    "record_id" UUID NOT NULL,
    "package_id" UUID NOT NULL,
    "step_key" TEXT NOT NULL,
    "item_id" UUID,
    "outcome" TEXT NOT NULL,
    "value" JSONB NOT NULL,
    "match" TEXT NOT NULL,
    "text_id" UUID,
    "observed_by" UUID NOT NULL,
    "written_by" UUID NOT NULL,
    "observed_at" TIMESTAMPTZ(3) NOT NULL,
    "observed_approx" BOOLEAN NOT NULL DEFAULT false,
    "device_seq" INTEGER NOT NULL,
    "supersedes_id" UUID,
    "reason" TEXT,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "step_entry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "report" (
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "version" INTEGER NOT NULL,
    "source" TEXT NOT NULL,
    "body" JSONB NOT NULL,
    "file_sha256" TEXT,
    "inspected_on" DATE NOT NULL,
    "completed_on" DATE NOT NULL,
    "report_on" DATE NOT NULL,
    "revised_on" DATE,
    "inspected_by" UUID[],
    "prepared_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "report_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "report_delivery" (
    "id" UUID NOT NULL,
    "report_id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "delivered_at" TIMESTAMPTZ(3) NOT NULL,
    "method" TEXT NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "report_delivery_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "callback" (
    "id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "job_id" UUID NOT NULL,
    "party_id" UUID,
    "speaker" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "safety" BOOLEAN NOT NULL DEFAULT false,
    "system" TEXT NOT NULL,
    "place" TEXT NOT NULL,
    "remedy_sought" TEXT NOT NULL,
    "received_at" TIMESTAMPTZ(3) NOT NULL,
    "discovered_on" DATE,
    "served_on" DATE,
    "service_way" TEXT,
    "deadline_on" DATE,
    "binding" BOOLEAN NOT NULL,
    "policy_id" UUID,
    "text_id" UUID NOT NULL,
    "owner_only" BOOLEAN NOT NULL DEFAULT false,
    "acknowledge_due_at" TIMESTAMPTZ(3) NOT NULL,
    "triage_due_at" TIMESTAMPTZ(3) NOT NULL,
    "decision_due_at" TIMESTAMPTZ(3) NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "callback_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "callback_event" (
    "id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,
    "seq" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "details" JSONB NOT NULL,
    "text_id" UUID,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "actor_id" UUID,

    CONSTRAINT "callback_event_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "conclusion" (
    "id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,
    "cause" TEXT NOT NULL,
    "step_key" TEXT,
    "revision_id" UUID,
    "entry_id" UUID,
    "text_id" UUID,
    "actor_id" UUID NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "conclusion_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "remedy" (
    "id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "cents" INTEGER NOT NULL,
    "payee" TEXT NOT NULL,
    "text_id" UUID,
    "proposed_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "remedy_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "remedy_approval" (
    "id" UUID NOT NULL,
    "remedy_id" UUID NOT NULL,
    "actor_id" UUID NOT NULL,
    "decision" TEXT NOT NULL,
    "limit_cents" INTEGER,
    "on_the_job" BOOLEAN NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "remedy_approval_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "remedy_visit" (
    "remedy_id" UUID NOT NULL,
    "job_id" UUID NOT NULL,

    CONSTRAINT "remedy_visit_pkey" PRIMARY KEY ("remedy_id","job_id")
);

-- CreateTable
CREATE TABLE "clearance" (
    "id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "text_id" UUID NOT NULL,
    "actor_id" UUID NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "clearance_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "corrective_action" (
    "id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "why" TEXT NOT NULL,
    "owner_id" UUID NOT NULL,
    "due_on" DATE NOT NULL,
    "revision_id" UUID,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "done_at" TIMESTAMPTZ(3),

    CONSTRAINT "corrective_action_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "corrective_action_callback" (
    "action_id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,

    CONSTRAINT "corrective_action_callback_pkey" PRIMARY KEY ("action_id","callback_id")
);

-- CreateTable
CREATE TABLE "outgoing_mail" (
    "id" UUID NOT NULL,
    "message_key" TEXT NOT NULL,
    "to_address" TEXT NOT NULL,
    "to_name" TEXT NOT NULL,
    "subject" TEXT NOT NULL,
    "body" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "attempts" INTEGER NOT NULL DEFAULT 0,
    "last_error" TEXT,
    "next_try_at" TIMESTAMPTZ(3) NOT NULL,
    "sent_at" TIMESTAMPTZ(3),
    "about_kind" TEXT NOT NULL,
    "about_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "outgoing_mail_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "audit_row" (
    "id" UUID NOT NULL,
    "actor_kind" TEXT NOT NULL,
    "actor_id" UUID,
    "operation" TEXT NOT NULL,
    "thing_kind" TEXT NOT NULL,
    "thing_id" UUID NOT NULL,
    "details" JSONB NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "audit_row_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "audit_seal" (
    "seal_no" BIGINT NOT NULL,
    "audit_id" UUID NOT NULL,
    "hash" TEXT NOT NULL,

    CONSTRAINT "audit_seal_pkey" PRIMARY KEY ("seal_no")
);

-- CreateTable
CREATE TABLE "kept_text" (
    "id" UUID NOT NULL,
    "salt" BYTEA,
    "body" TEXT,
    "digest" TEXT NOT NULL,
    "erased_at" TIMESTAMPTZ(3),
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "kept_text_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "idempotency_key" (
    "actor" TEXT NOT NULL,
    "operation" TEXT NOT NULL,
    "key" TEXT NOT NULL,
    "input_hash" TEXT NOT NULL,
    "reply" JSONB,
    "for_ever" BOOLEAN NOT NULL DEFAULT false,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "idempotency_key_pkey" PRIMARY KEY ("actor","operation","key")
);

-- CreateTable
CREATE TABLE "number_counter" (
    "kind" TEXT NOT NULL,
    "next" INTEGER NOT NULL,

    CONSTRAINT "number_counter_pkey" PRIMARY KEY ("kind")
);

-- CreateTable
CREATE TABLE "stored_file" (
    "sha256" TEXT NOT NULL,
    "media_type" TEXT NOT NULL,
    "bytes" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "stored_file_pkey" PRIMARY KEY ("sha256")
);

-- CreateIndex
CREATE UNIQUE INDEX "rule_pack_jurisdiction_version_day_key" ON "rule_pack"("jurisdiction", "version_day");

-- CreateIndex
CREATE UNIQUE INDEX "insurance_policy_number_key" ON "insurance_policy"("number");

-- CreateIndex
CREATE UNIQUE INDEX "person_email_key" ON "person"("email");

-- CreateIndex
CREATE INDEX "license_person_id_idx" ON "license"("person_id");

-- CreateIndex
CREATE UNIQUE INDEX "license_kind_number_from_day_key" ON "license"("kind", "number", "from_day");

-- CreateIndex
CREATE UNIQUE INDEX "person_qualification_person_id_kind_from_day_key" ON "person_qualification"("person_id", "kind", "from_day");

-- CreateIndex
CREATE INDEX "work_pattern_person_id_idx" ON "work_pattern"("person_id");

-- CreateIndex
CREATE INDEX "absence_person_id_starts_at_idx" ON "absence"("person_id", "starts_at");

-- CreateIndex
CREATE UNIQUE INDEX "pairing_rule_kind_a_id_b_id_key" ON "pairing_rule"("kind", "a_id", "b_id");

-- CreateIndex
CREATE UNIQUE INDEX "person_bar_person_id_property_id_key" ON "person_bar"("person_id", "property_id");

-- CreateIndex
CREATE UNIQUE INDEX "kit_item_serial_key" ON "kit_item"("serial");

-- CreateIndex
CREATE UNIQUE INDEX "session_token_hash_key" ON "session"("token_hash");

-- CreateIndex
CREATE INDEX "session_person_id_idx" ON "session"("person_id");

-- CreateIndex
CREATE INDEX "sign_in_attempt_email_hash_at_idx" ON "sign_in_attempt"("email_hash", "at");

-- CreateIndex
CREATE UNIQUE INDEX "property_address_key_key" ON "property"("address_key");

-- CreateIndex
CREATE INDEX "fact_sheet_property_id_recorded_at_idx" ON "fact_sheet"("property_id", "recorded_at");

-- CreateIndex
CREATE UNIQUE INDEX "booking_rules_number_key" ON "booking_rules"("number");

-- CreateIndex
CREATE UNIQUE INDEX "job_number_key" ON "job"("number");

-- CreateIndex
CREATE INDEX "job_property_id_idx" ON "job"("property_id");

-- CreateIndex
CREATE UNIQUE INDEX "job_event_job_id_seq_key" ON "job_event"("job_id", "seq");

-- CreateIndex
CREATE UNIQUE INDEX "job_party_job_id_party_id_role_key" ON "job_party"("job_id", "party_id", "role");

-- CreateIndex
CREATE UNIQUE INDEX "job_need_job_id_kind_key" ON "job_need"("job_id", "kind");

-- CreateIndex
CREATE INDEX "job_fee_line_job_id_idx" ON "job_fee_line"("job_id");

-- CreateIndex
CREATE INDEX "visit_job_id_idx" ON "visit"("job_id");

-- CreateIndex
CREATE INDEX "visit_starts_at_idx" ON "visit"("starts_at");

-- CreateIndex
CREATE UNIQUE INDEX "visit_id_starts_at_ends_at_live_key" ON "visit"("id", "starts_at", "ends_at", "live");

-- CreateIndex
CREATE INDEX "assignment_person_id_starts_at_idx" ON "assignment"("person_id", "starts_at");

-- CreateIndex
CREATE UNIQUE INDEX "assignment_visit_id_person_id_key" ON "assignment"("visit_id", "person_id");

-- CreateIndex
CREATE UNIQUE INDEX "fee_schedule_number_key" ON "fee_schedule"("number");

-- CreateIndex
CREATE UNIQUE INDEX "invoice_number_key" ON "invoice"("number");

-- CreateIndex
CREATE INDEX "invoice_job_id_idx" ON "invoice"("job_id");

-- CreateIndex
CREATE UNIQUE INDEX "payment_entry_id_key" ON "payment"("entry_id");

-- CreateIndex
CREATE INDEX "payment_invoice_id_idx" ON "payment"("invoice_id");

-- CreateIndex
CREATE UNIQUE INDEX "ledger_entry_reverses_id_key" ON "ledger_entry"("reverses_id");

-- CreateIndex
CREATE INDEX "ledger_line_account_idx" ON "ledger_line"("account");

-- CreateIndex
CREATE INDEX "ledger_line_job_id_idx" ON "ledger_line"("job_id");

-- CreateIndex
CREATE INDEX "ledger_line_callback_id_idx" ON "ledger_line"("callback_id");

-- CreateIndex
CREATE UNIQUE INDEX "agreement_text_number_key" ON "agreement_text"("number");

-- CreateIndex
CREATE UNIQUE INDEX "agreement_supersedes_id_key" ON "agreement"("supersedes_id");

-- CreateIndex
CREATE INDEX "agreement_job_id_idx" ON "agreement"("job_id");

-- CreateIndex
CREATE UNIQUE INDEX "signer_token_hash_key" ON "signer"("token_hash");

-- CreateIndex
CREATE UNIQUE INDEX "signer_agreement_id_party_id_key" ON "signer"("agreement_id", "party_id");

-- CreateIndex
CREATE UNIQUE INDEX "signature_signer_id_key" ON "signature"("signer_id");

-- CreateIndex
CREATE UNIQUE INDEX "procedure_key_key" ON "procedure"("key");

-- CreateIndex
CREATE UNIQUE INDEX "procedure_revision_procedure_id_number_key" ON "procedure_revision"("procedure_id", "number");

-- CreateIndex
CREATE UNIQUE INDEX "procedure_revision_id_procedure_id_key" ON "procedure_revision"("id", "procedure_id");

-- CreateIndex
CREATE UNIQUE INDEX "revision_step_revision_id_position_key" ON "revision_step"("revision_id", "position");

-- CreateIndex
CREATE UNIQUE INDEX "in_force_period_revision_id_key" ON "in_force_period"("revision_id");

-- CreateIndex
CREATE INDEX "in_force_period_procedure_id_idx" ON "in_force_period"("procedure_id");

-- CreateIndex
CREATE UNIQUE INDEX "site_record_visit_id_key" ON "site_record"("visit_id");

-- CreateIndex
CREATE UNIQUE INDEX "site_package_record_id_number_key" ON "site_package"("record_id", "number");

-- CreateIndex
CREATE INDEX "package_step_package_id_idx" ON "package_step"("package_id");

-- CreateIndex
CREATE INDEX "package_step_step_key_revision_id_idx" ON "package_step"("step_key", "revision_id");

-- CreateIndex
CREATE UNIQUE INDEX "record_item_record_id_kind_label_key" ON "record_item"("record_id", "kind", "label");

-- CreateIndex
CREATE UNIQUE INDEX "step_entry_supersedes_id_key" ON "step_entry"("supersedes_id");

-- CreateIndex
CREATE INDEX "step_entry_record_id_idx" ON "step_entry"("record_id");

-- CreateIndex
CREATE INDEX "step_entry_step_key_idx" ON "step_entry"("step_key");

-- CreateIndex
CREATE UNIQUE INDEX "report_job_id_version_key" ON "report"("job_id", "version");

-- CreateIndex
CREATE UNIQUE INDEX "callback_number_key" ON "callback"("number");

-- CreateIndex
CREATE INDEX "callback_job_id_idx" ON "callback"("job_id");

-- CreateIndex
CREATE UNIQUE INDEX "callback_event_callback_id_seq_key" ON "callback_event"("callback_id", "seq");

-- CreateIndex
CREATE INDEX "conclusion_step_key_idx" ON "conclusion"("step_key");

-- CreateIndex
CREATE UNIQUE INDEX "remedy_approval_remedy_id_actor_id_key" ON "remedy_approval"("remedy_id", "actor_id");

-- CreateIndex
CREATE UNIQUE INDEX "corrective_action_number_key" ON "corrective_action"("number");

-- CreateIndex
CREATE UNIQUE INDEX "outgoing_mail_message_key_key" ON "outgoing_mail"("message_key");

-- CreateIndex
CREATE INDEX "outgoing_mail_state_next_try_at_idx" ON "outgoing_mail"("state", "next_try_at");

-- CreateIndex
CREATE INDEX "outgoing_mail_about_kind_about_id_idx" ON "outgoing_mail"("about_kind", "about_id");

-- CreateIndex
CREATE INDEX "audit_row_thing_kind_thing_id_idx" ON "audit_row"("thing_kind", "thing_id");

-- CreateIndex
CREATE INDEX "audit_row_recorded_at_idx" ON "audit_row"("recorded_at");

-- CreateIndex
CREATE UNIQUE INDEX "audit_seal_audit_id_key" ON "audit_seal"("audit_id");

-- AddForeignKey
ALTER TABLE "approval_loan" ADD CONSTRAINT "approval_loan_lender_id_fkey" FOREIGN KEY ("lender_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "approval_loan" ADD CONSTRAINT "approval_loan_borrower_id_fkey" FOREIGN KEY ("borrower_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "person" ADD CONSTRAINT "person_office_id_fkey" FOREIGN KEY ("office_id") REFERENCES "office"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "person_role" ADD CONSTRAINT "person_role_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "license" ADD CONSTRAINT "license_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "person_qualification" ADD CONSTRAINT "person_qualification_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "person_qualification" ADD CONSTRAINT "person_qualification_kind_fkey" FOREIGN KEY ("kind") REFERENCES "qualification_kind"("key") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "work_pattern" ADD CONSTRAINT "work_pattern_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "absence" ADD CONSTRAINT "absence_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "pairing_rule" ADD CONSTRAINT "pairing_rule_a_id_fkey" FOREIGN KEY ("a_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "pairing_rule" ADD CONSTRAINT "pairing_rule_b_id_fkey" FOREIGN KEY ("b_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "person_bar" ADD CONSTRAINT "person_bar_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "person_bar" ADD CONSTRAINT "person_bar_property_id_fkey" FOREIGN KEY ("property_id") REFERENCES "property"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "kit_item" ADD CONSTRAINT "kit_item_office_id_fkey" FOREIGN KEY ("office_id") REFERENCES "office"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "kit_item" ADD CONSTRAINT "kit_item_kind_fkey" FOREIGN KEY ("kind") REFERENCES "kit_kind"("key") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "session" ADD CONSTRAINT "session_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "fact_sheet" ADD CONSTRAINT "fact_sheet_property_id_fkey" FOREIGN KEY ("property_id") REFERENCES "property"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "provider" ADD CONSTRAINT "provider_service_key_fkey" FOREIGN KEY ("service_key") REFERENCES "service"("key") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job" ADD CONSTRAINT "job_office_id_fkey" FOREIGN KEY ("office_id") REFERENCES "office"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job" ADD CONSTRAINT "job_property_id_fkey" FOREIGN KEY ("property_id") REFERENCES "property"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job" ADD CONSTRAINT "job_schedule_id_fkey" FOREIGN KEY ("schedule_id") REFERENCES "fee_schedule"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job" ADD CONSTRAINT "job_rules_id_fkey" FOREIGN KEY ("rules_id") REFERENCES "booking_rules"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job" ADD CONSTRAINT "job_parent_id_fkey" FOREIGN KEY ("parent_id") REFERENCES "job"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_event" ADD CONSTRAINT "job_event_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_event" ADD CONSTRAINT "job_event_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_party" ADD CONSTRAINT "job_party_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_party" ADD CONSTRAINT "job_party_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_service" ADD CONSTRAINT "job_service_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_service" ADD CONSTRAINT "job_service_service_key_fkey" FOREIGN KEY ("service_key") REFERENCES "service"("key") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_service" ADD CONSTRAINT "job_service_provider_id_fkey" FOREIGN KEY ("provider_id") REFERENCES "provider"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_need" ADD CONSTRAINT "job_need_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "job_fee_line" ADD CONSTRAINT "job_fee_line_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "visit" ADD CONSTRAINT "visit_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "visit" ADD CONSTRAINT "visit_kind_fkey" FOREIGN KEY ("kind") REFERENCES "visit_kind"("key") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "assignment" ADD CONSTRAINT "assignment_visit_id_starts_at_ends_at_live_fkey" FOREIGN KEY ("visit_id", "starts_at", "ends_at", "live") REFERENCES "visit"("id", "starts_at", "ends_at", "live") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "assignment" ADD CONSTRAINT "assignment_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "observer" ADD CONSTRAINT "observer_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "observer" ADD CONSTRAINT "observer_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "visit_kit" ADD CONSTRAINT "visit_kit_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "person_day" ADD CONSTRAINT "person_day_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "invoice" ADD CONSTRAINT "invoice_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "invoice" ADD CONSTRAINT "invoice_payer_id_fkey" FOREIGN KEY ("payer_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "invoice_line" ADD CONSTRAINT "invoice_line_invoice_id_fkey" FOREIGN KEY ("invoice_id") REFERENCES "invoice"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "payment" ADD CONSTRAINT "payment_invoice_id_fkey" FOREIGN KEY ("invoice_id") REFERENCES "invoice"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "payment" ADD CONSTRAINT "payment_entry_id_fkey" FOREIGN KEY ("entry_id") REFERENCES "ledger_entry"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ledger_entry" ADD CONSTRAINT "ledger_entry_reverses_id_fkey" FOREIGN KEY ("reverses_id") REFERENCES "ledger_entry"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ledger_line" ADD CONSTRAINT "ledger_line_entry_id_fkey" FOREIGN KEY ("entry_id") REFERENCES "ledger_entry"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ledger_line" ADD CONSTRAINT "ledger_line_account_fkey" FOREIGN KEY ("account") REFERENCES "ledger_account"("code") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ledger_line" ADD CONSTRAINT "ledger_line_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ledger_line" ADD CONSTRAINT "ledger_line_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ledger_line" ADD CONSTRAINT "ledger_line_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "agreement" ADD CONSTRAINT "agreement_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "agreement" ADD CONSTRAINT "agreement_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "agreement_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "agreement" ADD CONSTRAINT "agreement_supersedes_id_fkey" FOREIGN KEY ("supersedes_id") REFERENCES "agreement"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signer" ADD CONSTRAINT "signer_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signer" ADD CONSTRAINT "signer_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signature" ADD CONSTRAINT "signature_signer_id_fkey" FOREIGN KEY ("signer_id") REFERENCES "signer"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signature" ADD CONSTRAINT "signature_name_text_id_fkey" FOREIGN KEY ("name_text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "gate_override" ADD CONSTRAINT "gate_override_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "step_key" ADD CONSTRAINT "step_key_procedure_id_fkey" FOREIGN KEY ("procedure_id") REFERENCES "procedure"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "step_key" ADD CONSTRAINT "step_key_derived_from_fkey" FOREIGN KEY ("derived_from") REFERENCES "step_key"("key") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "procedure_revision" ADD CONSTRAINT "procedure_revision_procedure_id_fkey" FOREIGN KEY ("procedure_id") REFERENCES "procedure"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "procedure_revision" ADD CONSTRAINT "procedure_revision_based_on_id_fkey" FOREIGN KEY ("based_on_id") REFERENCES "procedure_revision"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "revision_step" ADD CONSTRAINT "revision_step_revision_id_fkey" FOREIGN KEY ("revision_id") REFERENCES "procedure_revision"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "revision_step" ADD CONSTRAINT "revision_step_step_key_fkey" FOREIGN KEY ("step_key") REFERENCES "step_key"("key") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "in_force_period" ADD CONSTRAINT "in_force_period_procedure_id_fkey" FOREIGN KEY ("procedure_id") REFERENCES "procedure"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "in_force_period" ADD CONSTRAINT "in_force_period_revision_id_procedure_id_fkey" FOREIGN KEY ("revision_id", "procedure_id") REFERENCES "procedure_revision"("id", "procedure_id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "acknowledgement" ADD CONSTRAINT "acknowledgement_revision_id_fkey" FOREIGN KEY ("revision_id") REFERENCES "procedure_revision"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "acknowledgement" ADD CONSTRAINT "acknowledgement_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "site_record" ADD CONSTRAINT "site_record_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "site_package" ADD CONSTRAINT "site_package_record_id_fkey" FOREIGN KEY ("record_id") REFERENCES "site_record"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "package_step" ADD CONSTRAINT "package_step_package_id_fkey" FOREIGN KEY ("package_id") REFERENCES "site_package"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "package_step" ADD CONSTRAINT "package_step_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "record_item"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "record_item" ADD CONSTRAINT "record_item_record_id_fkey" FOREIGN KEY ("record_id") REFERENCES "site_record"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "step_entry" ADD CONSTRAINT "step_entry_record_id_fkey" FOREIGN KEY ("record_id") REFERENCES "site_record"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "step_entry" ADD CONSTRAINT "step_entry_package_id_fkey" FOREIGN KEY ("package_id") REFERENCES "site_package"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "step_entry" ADD CONSTRAINT "step_entry_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "record_item"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "step_entry" ADD CONSTRAINT "step_entry_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "step_entry" ADD CONSTRAINT "step_entry_supersedes_id_fkey" FOREIGN KEY ("supersedes_id") REFERENCES "step_entry"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "report" ADD CONSTRAINT "report_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "report_delivery" ADD CONSTRAINT "report_delivery_report_id_fkey" FOREIGN KEY ("report_id") REFERENCES "report"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "report_delivery" ADD CONSTRAINT "report_delivery_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "callback" ADD CONSTRAINT "callback_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "callback" ADD CONSTRAINT "callback_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "callback" ADD CONSTRAINT "callback_policy_id_fkey" FOREIGN KEY ("policy_id") REFERENCES "insurance_policy"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "callback" ADD CONSTRAINT "callback_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "callback_event" ADD CONSTRAINT "callback_event_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "callback_event" ADD CONSTRAINT "callback_event_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "conclusion" ADD CONSTRAINT "conclusion_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "conclusion" ADD CONSTRAINT "conclusion_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "remedy" ADD CONSTRAINT "remedy_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "remedy" ADD CONSTRAINT "remedy_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "remedy_approval" ADD CONSTRAINT "remedy_approval_remedy_id_fkey" FOREIGN KEY ("remedy_id") REFERENCES "remedy"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "remedy_visit" ADD CONSTRAINT "remedy_visit_remedy_id_fkey" FOREIGN KEY ("remedy_id") REFERENCES "remedy"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "remedy_visit" ADD CONSTRAINT "remedy_visit_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "clearance" ADD CONSTRAINT "clearance_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "clearance" ADD CONSTRAINT "clearance_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "corrective_action" ADD CONSTRAINT "corrective_action_revision_id_fkey" FOREIGN KEY ("revision_id") REFERENCES "procedure_revision"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "corrective_action_callback" ADD CONSTRAINT "corrective_action_callback_action_id_fkey" FOREIGN KEY ("action_id") REFERENCES "corrective_action"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "corrective_action_callback" ADD CONSTRAINT "corrective_action_callback_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "audit_seal" ADD CONSTRAINT "audit_seal_audit_id_fkey" FOREIGN KEY ("audit_id") REFERENCES "audit_row"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

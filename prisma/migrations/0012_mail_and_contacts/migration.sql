-- AlterTable
ALTER TABLE "outgoing_mail" ADD COLUMN     "calendar" TEXT,
ADD COLUMN     "kind" TEXT NOT NULL DEFAULT 'note',
ADD COLUMN     "lease_until" TIMESTAMPTZ(3),
ADD COLUMN     "maybe_twice" INTEGER NOT NULL DEFAULT 0,
ADD COLUMN     "resend_of" UUID,
ADD COLUMN     "urgent" BOOLEAN NOT NULL DEFAULT false;

-- AlterTable
ALTER TABLE "party" ADD COLUMN     "assistance" TEXT NOT NULL DEFAULT 'none',
ADD COLUMN     "language" TEXT NOT NULL DEFAULT '',
ADD COLUMN     "large_print" BOOLEAN NOT NULL DEFAULT false;

-- CreateTable
CREATE TABLE "mail_attachment" (
    "mail_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,
    "sha256" TEXT NOT NULL,
    "name" TEXT NOT NULL,

    CONSTRAINT "mail_attachment_pkey" PRIMARY KEY ("mail_id","position")
);

-- CreateTable
CREATE TABLE "mail_wording" (
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "subject" TEXT,
    "body" TEXT,
    "recorded_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "mail_wording_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "mail_settings" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "paused_at" TIMESTAMPTZ(3),
    "paused_by" UUID,
    "pause_reason" TEXT,
    "quiet_from_minute" INTEGER NOT NULL DEFAULT 1260,
    "quiet_until_minute" INTEGER NOT NULL DEFAULT 420,
    "sign_after_days" INTEGER NOT NULL DEFAULT 2,
    "pay_before_days" INTEGER NOT NULL DEFAULT 2,
    "pay_overdue_days" INTEGER NOT NULL DEFAULT 7,
    "day_before" BOOLEAN NOT NULL DEFAULT true,
    "version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "mail_settings_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "bad_address" (
    "id" UUID NOT NULL,
    "address" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "mail_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "cleared_at" TIMESTAMPTZ(3),

    CONSTRAINT "bad_address_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "contact_note" (
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "callback_id" UUID,
    "party_id" UUID NOT NULL,
    "channel" TEXT NOT NULL,
    "outcome" TEXT NOT NULL,
    "text_id" UUID,
    "actor_id" UUID NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "contact_note_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "insurance_certificate" (
    "id" UUID NOT NULL,
    "policy_id" UUID NOT NULL,
    "file_sha256" TEXT NOT NULL,
    "recorded_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "insurance_certificate_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "mail_wording_kind_recorded_at_idx" ON "mail_wording"("kind", "recorded_at");

-- CreateIndex
CREATE INDEX "contact_note_job_id_idx" ON "contact_note"("job_id");

-- CreateIndex
CREATE INDEX "insurance_certificate_policy_id_idx" ON "insurance_certificate"("policy_id");

-- AddForeignKey
ALTER TABLE "outgoing_mail" ADD CONSTRAINT "outgoing_mail_resend_of_fkey" FOREIGN KEY ("resend_of") REFERENCES "outgoing_mail"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "mail_attachment" ADD CONSTRAINT "mail_attachment_mail_id_fkey" FOREIGN KEY ("mail_id") REFERENCES "outgoing_mail"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "mail_attachment" ADD CONSTRAINT "mail_attachment_sha256_fkey" FOREIGN KEY ("sha256") REFERENCES "stored_file"("sha256") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "mail_wording" ADD CONSTRAINT "mail_wording_recorded_by_fkey" FOREIGN KEY ("recorded_by") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "mail_settings" ADD CONSTRAINT "mail_settings_paused_by_fkey" FOREIGN KEY ("paused_by") REFERENCES "person"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "bad_address" ADD CONSTRAINT "bad_address_mail_id_fkey" FOREIGN KEY ("mail_id") REFERENCES "outgoing_mail"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "contact_note" ADD CONSTRAINT "contact_note_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "contact_note" ADD CONSTRAINT "contact_note_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "contact_note" ADD CONSTRAINT "contact_note_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "contact_note" ADD CONSTRAINT "contact_note_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "contact_note" ADD CONSTRAINT "contact_note_actor_id_fkey" FOREIGN KEY ("actor_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "insurance_certificate" ADD CONSTRAINT "insurance_certificate_policy_id_fkey" FOREIGN KEY ("policy_id") REFERENCES "insurance_policy"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "insurance_certificate" ADD CONSTRAINT "insurance_certificate_file_sha256_fkey" FOREIGN KEY ("file_sha256") REFERENCES "stored_file"("sha256") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "insurance_certificate" ADD CONSTRAINT "insurance_certificate_recorded_by_fkey" FOREIGN KEY ("recorded_by") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;


-- ---------- rules that must never break ----------
ALTER TABLE outgoing_mail DROP CONSTRAINT outgoing_mail_known;
ALTER TABLE outgoing_mail ADD CONSTRAINT outgoing_mail_known CHECK (state IN ('waiting', 'sent', 'kept', 'given_up', 'refused', 'bounced') AND (state IN ('sent', 'bounced')) = (sent_at IS NOT NULL));
UPDATE outgoing_mail SET subject = regexp_replace(subject, '[[:cntrl:]]+', ' ', 'g'), to_name = regexp_replace(to_name, '[[:cntrl:]]+', ' ', 'g'), to_address = regexp_replace(to_address, '[[:cntrl:]]+', '', 'g')
  WHERE subject || to_name || to_address ~ '[[:cntrl:]]';
-- A line end in a header would begin another header (RFC 5322, 2.2).
ALTER TABLE outgoing_mail ADD CONSTRAINT outgoing_mail_one_line CHECK (subject || to_name || to_address !~ '[[:cntrl:]]');
ALTER TABLE mail_wording ADD CONSTRAINT mail_wording_whole CHECK ((subject IS NULL) = (body IS NULL));
ALTER TABLE mail_settings ADD CONSTRAINT mail_settings_one CHECK (id = 1);
ALTER TABLE mail_settings ADD CONSTRAINT mail_settings_pause CHECK ((paused_at IS NULL) = (paused_by IS NULL) AND (paused_at IS NULL) = (pause_reason IS NULL));
-- Both ends lie away from the hours in which clocks change.
ALTER TABLE mail_settings ADD CONSTRAINT mail_settings_quiet CHECK (quiet_from_minute BETWEEN 1080 AND 1439 AND quiet_until_minute BETWEEN 240 AND 720);
ALTER TABLE mail_settings ADD CONSTRAINT mail_settings_days CHECK (sign_after_days BETWEEN 0 AND 30 AND pay_before_days BETWEEN 0 AND 30 AND pay_overdue_days BETWEEN 0 AND 90);
ALTER TABLE bad_address ADD CONSTRAINT bad_address_once EXCLUDE USING gist (address WITH =) WHERE (cleared_at IS NULL);
ALTER TABLE bad_address ADD CONSTRAINT bad_address_lower CHECK (address = lower(address));
ALTER TABLE contact_note ADD CONSTRAINT contact_note_known CHECK (channel IN ('call', 'text', 'doorstep') AND outcome IN ('reached', 'left_word', 'no_answer') AND happened_at <= recorded_at);
ALTER TABLE party ADD CONSTRAINT party_assistance CHECK (assistance IN ('none', 'relay', 'interpreter'));

INSERT INTO mail_settings (id) VALUES (1);

-- What a mail server has accepted is never offered to it again.
CREATE FUNCTION mail_sent_once() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.sent_at IS NOT NULL AND NEW.sent_at IS DISTINCT FROM OLD.sent_at THEN
    RAISE EXCEPTION USING ERRCODE = '23514', MESSAGE = 'rule "mail_sent_once": this mail was accepted and is not sent again';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER mail_sent_once BEFORE UPDATE ON outgoing_mail FOR EACH ROW EXECUTE FUNCTION mail_sent_once();

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['mail_wording', 'mail_attachment', 'contact_note', 'insurance_certificate'] LOOP
    EXECUTE format('CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t);
    EXECUTE format('CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t);
    IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN EXECUTE format('REVOKE UPDATE, DELETE, TRUNCATE ON %I FROM backsight_app', t); END IF;
  END LOOP;
END $$;

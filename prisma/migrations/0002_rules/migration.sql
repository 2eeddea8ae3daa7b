-- The rules that must never break, by name: the name is what a person is told when one of them says no.
CREATE EXTENSION IF NOT EXISTS btree_gist;

-- ---------- closed lists that the program switches on ----------
ALTER TABLE firm ADD CONSTRAINT firm_only_one CHECK (id = 1);
ALTER TABLE firm ADD CONSTRAINT firm_settings_sane CHECK (hold_minutes BETWEEN 1 AND 240 AND grace_days BETWEEN 0 AND 60 AND report_due_days BETWEEN 0 AND 60);
ALTER TABLE person_role ADD CONSTRAINT person_role_known CHECK (role IN ('owner', 'lead_inspector', 'office_manager', 'inspector'));
ALTER TABLE approval_limit ADD CONSTRAINT approval_limit_known CHECK (role IN ('owner', 'lead_inspector', 'office_manager') AND limit_cents >= 0);
ALTER TABLE approval_loan ADD CONSTRAINT approval_loan_days CHECK (until_day >= from_day AND lender_id <> borrower_id);
ALTER TABLE insurance_policy ADD CONSTRAINT insurance_policy_known CHECK (kind IN ('professional', 'general') AND basis IN ('claims_made', 'occurrence') AND ends_on > starts_on);
ALTER TABLE license ADD CONSTRAINT license_days CHECK (until_day >= from_day);
ALTER TABLE license ADD CONSTRAINT license_once_at_a_time EXCLUDE USING gist (person_id WITH =, kind WITH =, daterange(from_day, until_day, '[]') WITH &&);
ALTER TABLE work_pattern ADD CONSTRAINT work_pattern_sane CHECK (weekday BETWEEN 1 AND 7 AND start_minute >= 0 AND end_minute <= 1440 AND end_minute > start_minute);
ALTER TABLE work_pattern ADD CONSTRAINT work_pattern_once_at_a_time EXCLUDE USING gist (person_id WITH =, weekday WITH =, int4range(start_minute, end_minute) WITH &&, daterange(from_day, until_day, '[)') WITH &&);
ALTER TABLE absence ADD CONSTRAINT absence_times CHECK (ends_at > starts_at);
-- The search for starts counts in whole minutes of the wall clock.
ALTER TABLE absence ADD CONSTRAINT absence_whole_minutes CHECK (extract(epoch FROM starts_at) % 60 = 0 AND extract(epoch FROM ends_at) % 60 = 0);
ALTER TABLE pairing_rule ADD CONSTRAINT pairing_rule_known CHECK (kind IN ('never_together', 'must_together') AND a_id < b_id);
ALTER TABLE job ADD CONSTRAINT job_known CHECK (kind IN ('inspection', 'reinspection', 'callback_visit') AND state IN ('held', 'booked', 'on_site', 'visited', 'reported', 'cancelled', 'lapsed')
  AND terms IN ('due_at_booking', 'due_at_visit', 'deposit', 'billed_to_closing'));
ALTER TABLE job_party ADD CONSTRAINT job_party_known CHECK (role IN ('client', 'buyers_agent', 'listing_agent', 'seller', 'occupant', 'opener', 'attorney', 'payer'));
ALTER TABLE job_party ADD CONSTRAINT job_party_consent CHECK (role = 'client' OR NOT may_receive_report OR consent_at IS NOT NULL);
ALTER TABLE job_need ADD CONSTRAINT job_need_known CHECK (kind IN ('access', 'utilities', 'signature', 'payer', 'payment', 'tenant_notice', 'client_address', 'results') AND state IN ('open', 'asked', 'settled', 'refused', 'not_needed'));
ALTER TABLE visit_kind ADD CONSTRAINT visit_kind_crew CHECK (crew_size IN (1, 2) AND (crew_size = 2 OR NOT on_site_hazard));
ALTER TABLE visit ADD CONSTRAINT visit_known CHECK (state IN ('held', 'booked', 'on_site', 'done', 'cancelled', 'lapsed') AND crew_size IN (1, 2));
ALTER TABLE visit ADD CONSTRAINT visit_live_by_state CHECK (live = (state IN ('held', 'booked', 'on_site', 'done')));
ALTER TABLE visit ADD CONSTRAINT visit_times CHECK (ends_at > starts_at AND ends_at <= starts_at + interval '24 hours');
ALTER TABLE visit ADD CONSTRAINT visit_whole_minutes CHECK (extract(epoch FROM starts_at) % 60 = 0 AND extract(epoch FROM ends_at) % 60 = 0);
ALTER TABLE visit ADD CONSTRAINT visit_hold_ends CHECK (state <> 'held' OR hold_ends_at IS NOT NULL);
ALTER TABLE assignment ADD CONSTRAINT assignment_place CHECK (place IN ('first', 'second'));
ALTER TABLE fee_schedule ADD CONSTRAINT fee_schedule_known CHECK (state IN ('draft', 'in_force', 'withdrawn') AND (state = 'draft' OR in_force_from IS NOT NULL));
ALTER TABLE invoice ADD CONSTRAINT invoice_known CHECK (state IN ('draft', 'issued', 'paid', 'withdrawn') AND (state = 'draft') = (number IS NULL) AND total_cents >= 0);
ALTER TABLE payment ADD CONSTRAINT payment_known CHECK (method IN ('cash', 'check', 'card', 'bank') AND cents > 0);
ALTER TABLE ledger_account ADD CONSTRAINT ledger_account_known CHECK (kind IN ('asset', 'liability', 'income', 'expense', 'equity'));
ALTER TABLE ledger_line ADD CONSTRAINT ledger_line_not_zero CHECK (cents <> 0);
ALTER TABLE signer ADD CONSTRAINT signer_capacity CHECK (capacity IN ('self', 'attorney_in_fact', 'personal_representative', 'trustee', 'guardian', 'company_officer') AND (capacity = 'self' OR authority <> ''));
ALTER TABLE signature ADD CONSTRAINT signature_method CHECK (method IN ('link', 'on_site_device', 'paper'));
ALTER TABLE procedure_revision ADD CONSTRAINT procedure_revision_known CHECK (state IN ('draft', 'approved', 'withdrawn'));
ALTER TABLE procedure_revision ADD CONSTRAINT revision_second_person CHECK (approver_id IS NULL OR approver_id <> author_id);
ALTER TABLE procedure_revision ADD CONSTRAINT revision_approved_whole CHECK (state <> 'approved' OR (approver_id IS NOT NULL AND approved_at IS NOT NULL AND in_force_from IS NOT NULL AND acknowledge_by IS NOT NULL AND acknowledge_by >= in_force_from));
ALTER TABLE in_force_period ADD CONSTRAINT in_force_period_times CHECK (until_at IS NULL OR until_at > from_at);
ALTER TABLE acknowledgement ADD CONSTRAINT acknowledgement_where CHECK ("where" IN ('ahead', 'at_the_start'));
ALTER TABLE site_record ADD CONSTRAINT site_record_known CHECK (state IN ('open', 'sealed') AND (state = 'sealed') = (sealed_at IS NOT NULL AND seal_sha256 IS NOT NULL)
  AND (ended_as IS NULL OR ended_as IN ('complete', 'refused_at_the_door', 'nobody_came', 'stopped_for_safety', 'stopped_by_client')));
ALTER TABLE step_entry ADD CONSTRAINT step_entry_known CHECK (outcome IN ('done', 'none_at_property', 'could_not', 'ended_before') AND match IN ('not_asked', 'as_expected', 'outside', 'differs'));
ALTER TABLE step_entry ADD CONSTRAINT step_entry_reason CHECK (outcome <> 'could_not' OR reason IS NOT NULL);
ALTER TABLE report ADD CONSTRAINT report_known CHECK (source IN ('drafted', 'taken_in') AND version >= 1 AND completed_on >= inspected_on);
ALTER TABLE callback ADD CONSTRAINT callback_known CHECK (
  speaker IN ('client', 'seller', 'occupant', 'tenant', 'agent', 'later_buyer', 'attorney', 'board', 'insurer')
  AND kind IN ('missed', 'damage_or_injury', 'conduct', 'fee', 'board_complaint', 'demand_or_suit', 'records_request', 'question', 'near_miss')
  AND state IN ('received', 'acknowledged', 'looking_into', 'concluded', 'remedy_agreed', 'closed'));
ALTER TABLE callback ADD CONSTRAINT callback_legal_paper CHECK (kind NOT IN ('board_complaint', 'demand_or_suit') OR (served_on IS NOT NULL AND service_way IS NOT NULL AND deadline_on IS NOT NULL));
ALTER TABLE conclusion ADD CONSTRAINT conclusion_cause CHECK (cause IN ('skipped', 'done_wrongly', 'not_in_procedure', 'unclear', 'not_accessible', 'arose_later', 'was_reported', 'out_of_scope', 'damaged_on_visit', 'service_or_conduct', 'nothing_shown'));
ALTER TABLE conclusion ADD CONSTRAINT conclusion_names_step CHECK (cause NOT IN ('skipped', 'done_wrongly', 'unclear') OR (step_key IS NOT NULL AND revision_id IS NOT NULL));
ALTER TABLE remedy ADD CONSTRAINT remedy_known CHECK (kind IN ('revisit', 'supplement', 'fee_refund', 'goodwill_payment', 'independent_contractor', 'declined', 'insurer_notice') AND state IN ('proposed', 'approved', 'refused', 'done') AND cents >= 0);
ALTER TABLE remedy_approval ADD CONSTRAINT remedy_approval_known CHECK (decision IN ('approved', 'refused'));
ALTER TABLE clearance ADD CONSTRAINT clearance_known CHECK (kind IN ('insurer_consent', 'owner_reason'));
ALTER TABLE corrective_action ADD CONSTRAINT corrective_action_known CHECK (kind IN ('revision', 'training', 'kit') AND state IN ('open', 'done', 'dropped') AND (state = 'done') = (done_at IS NOT NULL));
ALTER TABLE outgoing_mail ADD CONSTRAINT outgoing_mail_known CHECK (state IN ('waiting', 'sent', 'kept', 'given_up') AND (state = 'sent') = (sent_at IS NOT NULL));
ALTER TABLE audit_row ADD CONSTRAINT audit_row_actor CHECK (actor_kind IN ('person', 'client', 'service') AND (actor_kind <> 'person' OR actor_id IS NOT NULL));
ALTER TABLE kept_text ADD CONSTRAINT kept_text_whole CHECK ((erased_at IS NULL) = (body IS NOT NULL AND salt IS NOT NULL));

-- ---------- two visits never share a person at one time ----------
ALTER TABLE assignment ADD CONSTRAINT person_taken EXCLUDE USING gist (person_id WITH =, during WITH &&) WHERE (live);

CREATE FUNCTION rule_broken(rule text) RETURNS void LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'violates rule "%"', rule USING ERRCODE = '23514', CONSTRAINT = rule;
END $$;

-- A live visit has exactly the people that its kind takes, checked when the transaction ends.
CREATE FUNCTION check_crew(the_visit uuid) RETURNS void LANGUAGE plpgsql AS $$
DECLARE short boolean;
BEGIN
  SELECT v.live AND v.crew_size <> (SELECT count(*) FROM assignment a WHERE a.visit_id = v.id) INTO short FROM visit v WHERE v.id = the_visit;
  IF short THEN PERFORM rule_broken('visit_crew_complete'); END IF;
END $$;
CREATE FUNCTION check_crew_of_visit() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN PERFORM check_crew(NEW.id); RETURN NULL; END $$;
CREATE FUNCTION check_crew_of_assignment() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN PERFORM check_crew(coalesce(NEW.visit_id, OLD.visit_id)); RETURN NULL; END $$;
CREATE CONSTRAINT TRIGGER visit_crew_complete AFTER INSERT OR UPDATE ON visit DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION check_crew_of_visit();
CREATE CONSTRAINT TRIGGER visit_crew_complete AFTER INSERT OR UPDATE OR DELETE ON assignment DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION check_crew_of_assignment();

-- A lone visit is never one with crawl space, roof or attic: the crew size comes from the kind of visit.
CREATE FUNCTION check_crew_size() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.crew_size <> (SELECT crew_size FROM visit_kind WHERE key = NEW.kind) THEN PERFORM rule_broken('visit_crew_size_of_kind'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER visit_crew_size_of_kind BEFORE INSERT OR UPDATE OF crew_size, kind ON visit FOR EACH ROW EXECUTE FUNCTION check_crew_size();

-- ---------- the ledger balances ----------
CREATE FUNCTION check_entry() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE the_entry uuid; the_kind text;
BEGIN
  IF TG_TABLE_NAME = 'ledger_entry' THEN the_entry := NEW.id; ELSE the_entry := NEW.entry_id; END IF;
  IF (SELECT count(*) < 2 OR sum(cents) <> 0 FROM ledger_line WHERE entry_id = the_entry) THEN PERFORM rule_broken('ledger_entry_balances'); END IF;
  SELECT kind INTO the_kind FROM ledger_entry WHERE id = the_entry;
  IF the_kind IN ('callback_payment', 'fee_refund') AND EXISTS (
    SELECT FROM ledger_line l WHERE l.entry_id = the_entry AND l.callback_id IS NOT NULL AND NOT EXISTS (SELECT FROM clearance c WHERE c.callback_id = l.callback_id))
  THEN PERFORM rule_broken('payment_needs_clearance'); END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER ledger_entry_balances AFTER INSERT ON ledger_entry DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION check_entry();
CREATE CONSTRAINT TRIGGER ledger_entry_balances AFTER INSERT ON ledger_line DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION check_entry();

-- The money set aside for a callback is never below nothing (a liability: credits are negative).
CREATE FUNCTION check_reserve() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.account = 'callback-reserve' THEN
    PERFORM pg_advisory_xact_lock(hashtextextended('reserve:' || coalesce(NEW.callback_id::text, ''), 0));
    IF NEW.callback_id IS NULL OR (SELECT sum(cents) > 0 FROM ledger_line WHERE account = 'callback-reserve' AND callback_id = NEW.callback_id) THEN PERFORM rule_broken('reserve_not_negative'); END IF;
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER reserve_not_negative AFTER INSERT ON ledger_line DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION check_reserve();

-- ---------- one revision in force at any instant ----------
ALTER TABLE in_force_period ADD CONSTRAINT one_revision_in_force EXCLUDE USING gist (procedure_id WITH =, during WITH &&);
CREATE FUNCTION check_period() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'INSERT' THEN
    IF (SELECT state <> 'approved' FROM procedure_revision WHERE id = NEW.revision_id) THEN PERFORM rule_broken('only_approved_in_force'); END IF;
  ELSIF OLD.until_at IS NOT NULL OR NEW.until_at IS NULL OR (NEW.id, NEW.procedure_id, NEW.revision_id, NEW.from_at) IS DISTINCT FROM (OLD.id, OLD.procedure_id, OLD.revision_id, OLD.from_at) THEN
    PERFORM rule_broken('period_closed_once');
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER period_closed_once BEFORE INSERT OR UPDATE ON in_force_period FOR EACH ROW EXECUTE FUNCTION check_period();
CREATE FUNCTION check_revision() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.state <> 'draft' AND NOT (OLD.state = 'approved' AND NEW.state = 'withdrawn' AND NOT EXISTS (SELECT FROM in_force_period WHERE revision_id = OLD.id AND from_at <= NEW.recorded_at)
    AND (NEW.id, NEW.procedure_id, NEW.number, NEW.author_id) IS NOT DISTINCT FROM (OLD.id, OLD.procedure_id, OLD.number, OLD.author_id)) THEN
    PERFORM rule_broken('revision_immutable');
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER revision_immutable BEFORE UPDATE ON procedure_revision FOR EACH ROW EXECUTE FUNCTION check_revision();
CREATE FUNCTION check_revision_step() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF (SELECT state <> 'draft' FROM procedure_revision WHERE id = coalesce(OLD.revision_id, NEW.revision_id)) THEN PERFORM rule_broken('revision_immutable'); END IF;
  RETURN coalesce(NEW, OLD);
END $$;
CREATE TRIGGER revision_immutable BEFORE INSERT OR UPDATE OR DELETE ON revision_step FOR EACH ROW EXECUTE FUNCTION check_revision_step();

-- A sealed site record takes no more entries, and is not opened again.
CREATE FUNCTION check_sealed() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.state = 'sealed' THEN PERFORM rule_broken('record_sealed'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER record_sealed BEFORE UPDATE ON site_record FOR EACH ROW EXECUTE FUNCTION check_sealed();
CREATE FUNCTION check_entry_open() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF (SELECT state = 'sealed' FROM site_record WHERE id = NEW.record_id FOR SHARE) THEN PERFORM rule_broken('record_sealed'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER record_sealed BEFORE INSERT ON step_entry FOR EACH ROW EXECUTE FUNCTION check_entry_open();

-- ---------- history is only ever added to ----------
CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN PERFORM rule_broken('history_is_kept'); RETURN NULL; END $$;
DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['ledger_entry','ledger_line','payment','audit_row','audit_seal','agreement','signature','gate_override','step_key','acknowledgement','site_package','package_step','record_item','step_entry','report_delivery','callback_event','job_event','conclusion','remedy_approval','clearance','fact_sheet'] LOOP
    EXECUTE format('CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t);
    EXECUTE format('CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t);
  END LOOP;
END $$;

-- Words that were kept are never reworded; they may be erased whole, by the function below only.
CREATE FUNCTION check_text() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'DELETE' OR NEW.body IS NOT NULL OR NEW.salt IS NOT NULL OR NEW.erased_at IS NULL OR (NEW.id, NEW.digest, NEW.recorded_at) IS DISTINCT FROM (OLD.id, OLD.digest, OLD.recorded_at) THEN PERFORM rule_broken('history_is_kept'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON kept_text FOR EACH ROW EXECUTE FUNCTION check_text();
CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON kept_text FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE FUNCTION erase_text(the_text uuid, at timestamptz) RETURNS void LANGUAGE sql SECURITY DEFINER SET search_path = public AS $$
  UPDATE kept_text SET body = NULL, salt = NULL, erased_at = at WHERE id = the_text AND erased_at IS NULL;
$$;

-- An invoice that was issued keeps its number, payer and amount.
CREATE FUNCTION check_invoice() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.number IS NOT NULL AND (NEW.number, NEW.job_id, NEW.payer_id, NEW.total_cents, NEW.issued_at) IS DISTINCT FROM (OLD.number, OLD.job_id, OLD.payer_id, OLD.total_cents, OLD.issued_at) THEN PERFORM rule_broken('invoice_issued_is_fixed'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER invoice_issued_is_fixed BEFORE UPDATE ON invoice FOR EACH ROW EXECUTE FUNCTION check_invoice();

-- ---------- the service works as a role that lacks the right to change history ----------
DO $$ BEGIN
  CREATE ROLE backsight_app NOLOGIN;
EXCEPTION WHEN duplicate_object OR unique_violation OR insufficient_privilege THEN NULL;
END $$;
DO $$
DECLARE t text;
BEGIN
  IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN RETURN; END IF;
  BEGIN
    EXECUTE format('GRANT backsight_app TO %I', session_user);
  EXCEPTION WHEN insufficient_privilege OR invalid_grant_operation THEN NULL;
  END;
  GRANT USAGE ON SCHEMA public TO backsight_app;
  GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA public TO backsight_app;
  ALTER DEFAULT PRIVILEGES IN SCHEMA public GRANT SELECT, INSERT, UPDATE, DELETE ON TABLES TO backsight_app;
  REVOKE INSERT, UPDATE, DELETE ON "_prisma_migrations" FROM backsight_app;
  FOREACH t IN ARRAY ARRAY['ledger_entry','ledger_line','payment','audit_row','audit_seal','agreement','signature','gate_override','step_key','acknowledgement','site_package','package_step','record_item','step_entry','report_delivery','callback_event','job_event','conclusion','remedy_approval','clearance','fact_sheet','kept_text'] LOOP
    EXECUTE format('REVOKE UPDATE, DELETE, TRUNCATE ON %I FROM backsight_app', t);
  END LOOP;
END $$;

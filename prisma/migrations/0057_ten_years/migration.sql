-- Mails are looked for by what they are about, often by ids of several kinds at once: the id comes first.
DROP INDEX outgoing_mail_about_kind_about_id_idx;
CREATE INDEX outgoing_mail_about_id_about_kind_idx ON outgoing_mail (about_id, about_kind);
-- Whether a mail was sent again is asked of every mail that failed; hardly any was.
CREATE INDEX outgoing_mail_resent ON outgoing_mail (resend_of) WHERE resend_of IS NOT NULL;
-- Fee schedules say how many jobs they priced.
CREATE INDEX job_schedule_id_idx ON job (schedule_id);
-- Of ten years of invoices and site records those few are asked for that are not settled.
CREATE INDEX invoice_unsettled ON invoice (state, due_on) WHERE state IN ('issued', 'withdrawn');
CREATE INDEX site_record_open ON site_record (visit_id) WHERE state = 'open';
-- Rules, wordings and policies are a few dozen rows for ever: no plan takes these.
DROP INDEX mail_wording_kind_recorded_at_idx;
DROP INDEX safety_advice_danger_recorded_at_idx;
DROP INDEX retention_rule_kind_recorded_at_idx;
DROP INDEX clock_policy_kind_clock_from_at_idx;
DROP INDEX weather_closure_ends_at_idx;

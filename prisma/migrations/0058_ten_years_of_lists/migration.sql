-- Of ten years of jobs, visits and needs those few are asked for that are not over.
CREATE INDEX job_not_reported ON job (state) WHERE state <> 'reported';
CREATE INDEX visit_held ON visit (hold_ends_at) WHERE state = 'held';
CREATE INDEX visit_to_come ON visit (starts_at) WHERE state IN ('booked', 'on_site');
CREATE INDEX job_need_to_decide ON job_need (job_id) WHERE kind IN ('ending_fee', 'report_owed', 'walk_through') AND state IN ('open', 'asked');
DROP INDEX later_look_remind_on_idx;
CREATE INDEX later_look_offered ON later_look (remind_on) WHERE state = 'offered';
CREATE INDEX job_event_waived ON job_event (happened_at DESC, id) WHERE kind IN ('fee_decided', 'cancelled') AND details->>'waived' = 'true';
CREATE INDEX step_entry_told ON step_entry (record_id) WHERE (value->'act'->>'do') = 'told';
-- Sums of the ledger are read from indexes alone: balances by account, deposits by job and payer, payments by invoice.
DROP INDEX ledger_line_account_idx;
CREATE INDEX ledger_line_account_cents_idx ON ledger_line (account, cents);
CREATE INDEX ledger_line_deposits ON ledger_line (job_id, party_id) INCLUDE (cents) WHERE account = 'deposits-held';
DROP INDEX payment_invoice_id_idx;
CREATE INDEX payment_invoice_id_cents_idx ON payment (invoice_id, cents);
-- How many jobs each service is ordered on.
CREATE INDEX job_service_service_key_idx ON job_service (service_key);
-- People and mails by their address.
CREATE INDEX party_email ON party (lower(email));
CREATE INDEX outgoing_mail_to ON outgoing_mail (lower(to_address));

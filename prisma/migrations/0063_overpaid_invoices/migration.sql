-- What the firm has to give back is little beside all that was ever paid. On which invoices more came in than they ask for is marked by the
-- database alone, at the end of whatever posted to one, so that lists need not go through the others; how much it is the lines of the ledger say.
ALTER TABLE invoice ADD COLUMN overpaid boolean NOT NULL DEFAULT false;

-- An invoice that was just issued asks for something or nothing, so its own entry marks none.
CREATE FUNCTION mark_overpaid() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE which uuid;
BEGIN
  IF TG_TABLE_NAME = 'ledger_entry' THEN
    SELECT o.invoice_id INTO which FROM invoice_entry o WHERE o.entry_id = NEW.reverses_id;
  ELSE
    which := NEW.invoice_id;
  END IF;
  UPDATE invoice SET overpaid = NOT overpaid WHERE id = which AND overpaid <> (SELECT coalesce(sum(m.cents), 0) < 0 FROM invoice_money m WHERE m.invoice_id = which);
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER invoice_overpaid AFTER INSERT ON payment DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION mark_overpaid();
CREATE CONSTRAINT TRIGGER invoice_overpaid AFTER INSERT ON invoice_act DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION mark_overpaid();
CREATE CONSTRAINT TRIGGER invoice_overpaid AFTER INSERT ON ledger_entry DEFERRABLE INITIALLY DEFERRED FOR EACH ROW WHEN (NEW.reverses_id IS NOT NULL) EXECUTE FUNCTION mark_overpaid();

UPDATE invoice SET overpaid = true FROM (SELECT invoice_id FROM invoice_money GROUP BY 1 HAVING sum(cents) < 0) m WHERE m.invoice_id = invoice.id;
CREATE INDEX invoice_overpaid ON invoice (number) WHERE overpaid;

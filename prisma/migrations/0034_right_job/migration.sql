-- What was decided, signed or paid stands under the job of a callback: from then on it stays with that job.
CREATE FUNCTION check_callback_job() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (SELECT FROM conclusion WHERE callback_id = NEW.id)
    OR EXISTS (SELECT FROM agreement g JOIN remedy r ON r.id = g.remedy_id WHERE r.callback_id = NEW.id)
    OR EXISTS (SELECT FROM ledger_line WHERE callback_id = NEW.id GROUP BY account HAVING sum(cents) <> 0)
  THEN PERFORM rule_broken('decided_under_its_job'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER callback_keeps_its_job BEFORE UPDATE OF job_id ON callback FOR EACH ROW WHEN (OLD.job_id IS DISTINCT FROM NEW.job_id) EXECUTE FUNCTION check_callback_job();

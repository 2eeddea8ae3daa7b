-- How visits end, devices and samples, getting in, lateness, later looks.
ALTER TABLE "visit" ADD COLUMN "expected_at" TIMESTAMPTZ(3);
ALTER TABLE "visit_kind" ADD COLUMN "after_hours" INTEGER NOT NULL DEFAULT 0;
ALTER TABLE "job" ADD COLUMN "arrives" TEXT NOT NULL DEFAULT 'walk_through', ADD COLUMN "attendees" TEXT NOT NULL DEFAULT '';

CREATE TABLE "visit_ending" (
    "visit_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "waited_minutes" INTEGER,
    "calls_made" INTEGER,
    "text_id" UUID,
    "photo_sha256" TEXT,
    "report_owed" TEXT NOT NULL,
    "ended_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "visit_ending_pkey" PRIMARY KEY ("visit_id")
);
CREATE TABLE "late_notice" (
    "id" UUID NOT NULL,
    "visit_id" UUID NOT NULL,
    "minutes" INTEGER NOT NULL,
    "told" JSONB NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "late_notice_pkey" PRIMARY KEY ("id")
);
CREATE TABLE "test_item" (
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "serial" TEXT NOT NULL,
    "what" TEXT NOT NULL,
    "test_from" TIMESTAMPTZ(3),
    "shortest_hours" INTEGER NOT NULL,
    "holding_hours" INTEGER,
    "awaited" BOOLEAN NOT NULL DEFAULT true,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "test_item_pkey" PRIMARY KEY ("id")
);
CREATE TABLE "test_step" (
    "item_id" UUID NOT NULL,
    "step" TEXT NOT NULL,
    "details" JSONB NOT NULL,
    "text_id" UUID,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "test_step_pkey" PRIMARY KEY ("item_id","step")
);
CREATE TABLE "job_access" (
    "job_id" UUID NOT NULL,
    "opener" TEXT NOT NULL,
    "phone" TEXT NOT NULL,
    "opens_at" TIMESTAMPTZ(3),
    "key_box" TEXT,
    "alarm" TEXT,
    "pets" TEXT NOT NULL,
    "changed_at" TIMESTAMPTZ(3) NOT NULL,
    "changed_by" UUID NOT NULL,

    CONSTRAINT "job_access_pkey" PRIMARY KEY ("job_id")
);
CREATE TABLE "later_look" (
    "id" UUID NOT NULL,
    "job_id" UUID NOT NULL,
    "rule_key" TEXT NOT NULL,
    "label" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "visit_kind" TEXT NOT NULL,
    "cents" INTEGER NOT NULL,
    "remind_on" DATE NOT NULL,
    "state" TEXT NOT NULL,
    "visit_id" UUID,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "later_look_pkey" PRIMARY KEY ("id")
);
CREATE INDEX "late_notice_visit_id_idx" ON "late_notice"("visit_id");
CREATE INDEX "test_item_job_id_idx" ON "test_item"("job_id");
CREATE INDEX "later_look_remind_on_idx" ON "later_look"("remind_on");
CREATE UNIQUE INDEX "later_look_job_id_rule_key_key" ON "later_look"("job_id", "rule_key");
ALTER TABLE "visit_ending" ADD CONSTRAINT "visit_ending_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "visit_ending" ADD CONSTRAINT "visit_ending_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE "visit_ending" ADD CONSTRAINT "visit_ending_photo_sha256_fkey" FOREIGN KEY ("photo_sha256") REFERENCES "stored_file"("sha256") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE "late_notice" ADD CONSTRAINT "late_notice_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "test_item" ADD CONSTRAINT "test_item_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "test_step" ADD CONSTRAINT "test_step_item_id_fkey" FOREIGN KEY ("item_id") REFERENCES "test_item"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "test_step" ADD CONSTRAINT "test_step_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE "job_access" ADD CONSTRAINT "job_access_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "later_look" ADD CONSTRAINT "later_look_job_id_fkey" FOREIGN KEY ("job_id") REFERENCES "job"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "later_look" ADD CONSTRAINT "later_look_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visit"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- ---------- closed lists ----------
ALTER TABLE visit DROP CONSTRAINT visit_known, DROP CONSTRAINT visit_live_by_state;
ALTER TABLE visit ADD CONSTRAINT visit_known CHECK (state IN ('held', 'booked', 'on_site', 'done', 'ended', 'cancelled', 'lapsed') AND crew_size IN (1, 2));
ALTER TABLE visit ADD CONSTRAINT visit_live_by_state CHECK (live = (state IN ('held', 'booked', 'on_site', 'done', 'ended')));
ALTER TABLE job DROP CONSTRAINT job_known;
ALTER TABLE job ADD CONSTRAINT job_known CHECK (kind IN ('inspection', 'reinspection', 'callback_visit') AND state IN ('held', 'booked', 'on_site', 'visited', 'ended', 'reported', 'cancelled', 'lapsed')
  AND terms IN ('due_at_booking', 'due_at_visit', 'deposit', 'billed_to_closing') AND arrives IN ('start', 'walk_through', 'not_at_all'));
ALTER TABLE job_need DROP CONSTRAINT job_need_known;
ALTER TABLE job_need ADD CONSTRAINT job_need_known CHECK (kind IN ('access', 'utilities', 'signature', 'payer', 'payment', 'tenant_notice', 'client_address', 'results', 'provider_document', 'same_pair', 'closed_house', 'ending_fee', 'report_owed', 'walk_through')
  AND state IN ('open', 'asked', 'settled', 'refused', 'not_needed'));
ALTER TABLE visit_kind ADD CONSTRAINT visit_kind_after_hours CHECK (after_hours BETWEEN 0 AND 2000);
ALTER TABLE visit_ending ADD CONSTRAINT visit_ending_known CHECK (kind IN ('refused_at_the_door', 'nobody_came', 'stopped_for_safety', 'stopped_by_client') AND report_owed IN ('yes', 'no', 'later')
  AND (kind <> 'nobody_came' OR (waited_minutes IS NOT NULL AND calls_made IS NOT NULL)) AND waited_minutes BETWEEN 0 AND 600 AND calls_made BETWEEN 0 AND 100);
ALTER TABLE late_notice ADD CONSTRAINT late_notice_minutes CHECK (minutes BETWEEN 1 AND 600);
ALTER TABLE test_item ADD CONSTRAINT test_item_known CHECK (kind IN ('device', 'sample') AND serial <> '' AND shortest_hours BETWEEN 0 AND 2000 AND holding_hours > 0 AND (kind = 'sample') = (test_from IS NULL));
ALTER TABLE test_step ADD CONSTRAINT test_step_known CHECK (step IN ('placed', 'collected', 'sent', 'received', 'told', 'given_up'));
ALTER TABLE later_look ADD CONSTRAINT later_look_known CHECK (state IN ('offered', 'declined', 'booked') AND (state = 'booked') = (visit_id IS NOT NULL) AND cents >= 0);

-- ---------- a visit and a job go through their states in one order ----------
CREATE FUNCTION check_visit_state() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.state <> NEW.state AND (OLD.state, NEW.state) NOT IN (('held', 'booked'), ('held', 'cancelled'), ('held', 'lapsed'), ('lapsed', 'booked'), ('lapsed', 'cancelled'),
    ('booked', 'on_site'), ('booked', 'done'), ('booked', 'ended'), ('booked', 'cancelled'), ('on_site', 'done'), ('on_site', 'ended')) THEN PERFORM rule_broken('visit_state_order'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER visit_state_order BEFORE UPDATE OF state ON visit FOR EACH ROW EXECUTE FUNCTION check_visit_state();
CREATE FUNCTION check_job_state() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.state <> NEW.state AND (OLD.state, NEW.state) NOT IN (('held', 'booked'), ('held', 'lapsed'), ('held', 'cancelled'), ('lapsed', 'booked'), ('lapsed', 'cancelled'),
    ('booked', 'on_site'), ('booked', 'visited'), ('booked', 'ended'), ('booked', 'cancelled'), ('on_site', 'visited'), ('on_site', 'ended'), ('on_site', 'reported'),
    ('visited', 'reported'), ('ended', 'booked'), ('ended', 'visited')) THEN PERFORM rule_broken('job_state_order'); END IF;
  IF NEW.state = 'reported' AND OLD.state <> 'reported' AND EXISTS (SELECT FROM test_item WHERE job_id = NEW.id AND awaited) THEN PERFORM rule_broken('results_awaited'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER job_state_order BEFORE UPDATE OF state ON job FOR EACH ROW EXECUTE FUNCTION check_job_state();

-- A visit that ended early says how, checked when the transaction ends.
CREATE FUNCTION check_ending() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.state = 'ended' AND NOT EXISTS (SELECT FROM visit_ending WHERE visit_id = NEW.id) THEN PERFORM rule_broken('visit_ending_recorded'); END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER visit_ending_recorded AFTER INSERT OR UPDATE OF state ON visit DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION check_ending();

-- ---------- a device stays as long as its test takes ----------
-- A pick-up that is still ahead begins no sooner than its kind says after the inspection, whichever of the two moves.
CREATE FUNCTION check_pickup() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (SELECT FROM visit v JOIN visit_kind k ON k.key = v.kind AND k.after_hours > 0 WHERE v.job_id = NEW.job_id AND v.state IN ('held', 'booked')
    AND v.starts_at < (SELECT max(i.ends_at) FROM visit i WHERE i.job_id = v.job_id AND i.kind = 'inspection' AND i.live) + k.after_hours * interval '1 hour') THEN PERFORM rule_broken('pickup_too_early'); END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER pickup_too_early AFTER INSERT OR UPDATE ON visit DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION check_pickup();

-- Steps of a device or sample follow each other; a device is collected when its test has run long enough.
CREATE FUNCTION check_test_step() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE item test_item; before text[]; last timestamptz; ranks text[] := ARRAY['placed', 'collected', 'sent', 'received', 'told', 'given_up'];
BEGIN
  SELECT * INTO item FROM test_item WHERE id = NEW.item_id FOR UPDATE;
  SELECT coalesce(array_agg(step), '{}'), max(happened_at) INTO before, last FROM test_step WHERE item_id = NEW.item_id;
  IF NEW.happened_at < last OR before && ARRAY['told', 'given_up'] OR EXISTS (SELECT FROM unnest(before) s WHERE array_position(ranks, s) >= array_position(ranks, NEW.step))
    OR (NEW.step = 'placed' AND item.kind <> 'device') OR (NEW.step = 'collected' AND item.kind = 'device' AND NOT 'placed' = ANY (before))
    OR (NEW.step IN ('sent', 'told') AND NOT 'collected' = ANY (before)) OR (NEW.step = 'received' AND NOT 'sent' = ANY (before)) THEN PERFORM rule_broken('test_step_order'); END IF;
  IF NEW.step = 'collected' AND NEW.happened_at < item.test_from + item.shortest_hours * interval '1 hour' THEN PERFORM rule_broken('test_too_short'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER test_step_order BEFORE INSERT ON test_step FOR EACH ROW EXECUTE FUNCTION check_test_step();
-- One device is at one house at a time.
CREATE FUNCTION check_device_out() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM pg_advisory_xact_lock(hashtextextended('device ' || NEW.serial, 0));
  IF NEW.kind = 'device' AND EXISTS (SELECT FROM test_item o WHERE o.kind = 'device' AND o.serial = NEW.serial AND o.id <> NEW.id AND o.awaited AND NOT EXISTS (SELECT FROM test_step s WHERE s.item_id = o.id AND s.step = 'collected'))
  THEN PERFORM rule_broken('device_out_elsewhere'); END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER device_out_elsewhere BEFORE INSERT ON test_item FOR EACH ROW EXECUTE FUNCTION check_device_out();

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['visit_ending', 'late_notice', 'test_step'] LOOP
    EXECUTE format('CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t);
    EXECUTE format('CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t);
    IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN EXECUTE format('REVOKE UPDATE, DELETE, TRUNCATE ON %I FROM backsight_app', t); END IF;
  END LOOP;
END $$;

-- A radon test runs 48 hours at least (Wisconsin Department of Health Services).
UPDATE visit_kind SET after_hours = 48 WHERE key = 'radon_pickup';

-- Clocks of callbacks in business time with the policy of their reception, pauses, the on-call list, and alerts until somebody answers.
CREATE TABLE "clock_policy" (
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "clock" TEXT NOT NULL,
    "amount" INTEGER NOT NULL,
    "unit" TEXT NOT NULL,
    "source" TEXT NOT NULL,
    "from_at" TIMESTAMPTZ(3) NOT NULL,
    "actor_id" UUID NOT NULL,

    CONSTRAINT "clock_policy_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "callback_clock" (
    "id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,
    "clock" TEXT NOT NULL,
    "amount" INTEGER NOT NULL,
    "unit" TEXT NOT NULL,
    "source" TEXT NOT NULL,
    "started_at" TIMESTAMPTZ(3) NOT NULL,
    "due_at" TIMESTAMPTZ(3) NOT NULL,
    "met_at" TIMESTAMPTZ(3),
    "met_by" UUID,
    "dropped_at" TIMESTAMPTZ(3),

    CONSTRAINT "callback_clock_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "callback_pause" (
    "id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,
    "text_id" UUID NOT NULL,
    "from_at" TIMESTAMPTZ(3) NOT NULL,
    "from_by" UUID NOT NULL,
    "until_at" TIMESTAMPTZ(3),
    "until_by" UUID,

    CONSTRAINT "callback_pause_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "on_call_duty" (
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "is_on" BOOLEAN NOT NULL,
    "position" INTEGER NOT NULL,
    "weekdays" INTEGER[],
    "start_minute" INTEGER NOT NULL,
    "end_minute" INTEGER NOT NULL,
    "from_day" DATE NOT NULL,
    "until_day" DATE,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_by" UUID NOT NULL,
    "ended_at" TIMESTAMPTZ(3),
    "ended_by" UUID,

    CONSTRAINT "on_call_duty_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "danger_chain" (
    "id" UUID NOT NULL,
    "callback_id" UUID NOT NULL,
    "started_at" TIMESTAMPTZ(3) NOT NULL,
    "answered_at" TIMESTAMPTZ(3),
    "answered_by" UUID,
    "ended_at" TIMESTAMPTZ(3),

    CONSTRAINT "danger_chain_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "danger_alert" (
    "id" UUID NOT NULL,
    "chain_id" UUID NOT NULL,
    "n" INTEGER NOT NULL,
    "person_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "danger_alert_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "clock_policy_kind_clock_from_at_idx" ON "clock_policy"("kind", "clock", "from_at");
CREATE INDEX "callback_clock_callback_id_idx" ON "callback_clock"("callback_id");
CREATE INDEX "callback_pause_callback_id_idx" ON "callback_pause"("callback_id");
CREATE INDEX "on_call_duty_person_id_idx" ON "on_call_duty"("person_id");
CREATE INDEX "danger_chain_callback_id_idx" ON "danger_chain"("callback_id");
CREATE UNIQUE INDEX "danger_alert_chain_id_n_key" ON "danger_alert"("chain_id", "n");

ALTER TABLE "callback_clock" ADD CONSTRAINT "callback_clock_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "callback_pause" ADD CONSTRAINT "callback_pause_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "callback_pause" ADD CONSTRAINT "callback_pause_text_id_fkey" FOREIGN KEY ("text_id") REFERENCES "kept_text"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "on_call_duty" ADD CONSTRAINT "on_call_duty_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "danger_chain" ADD CONSTRAINT "danger_chain_callback_id_fkey" FOREIGN KEY ("callback_id") REFERENCES "callback"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "danger_alert" ADD CONSTRAINT "danger_alert_chain_id_fkey" FOREIGN KEY ("chain_id") REFERENCES "danger_chain"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "danger_alert" ADD CONSTRAINT "danger_alert_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---------- rules ----------
ALTER TABLE clock_policy ADD CONSTRAINT clock_policy_known CHECK (
  amount > 0 AND unit IN ('minutes', 'businessMinutes', 'businessDays', 'days')
  AND clock IN ('acknowledge', 'triage', 'answer', 'visit', 'decision', 'insurer', 'waiting', 'on_call'));
ALTER TABLE callback_clock ADD CONSTRAINT callback_clock_known CHECK (
  amount > 0 AND unit IN ('businessMinutes', 'businessDays', 'days') AND due_at >= started_at
  AND clock IN ('acknowledge', 'triage', 'answer', 'visit', 'decision', 'insurer') AND (met_at IS NULL OR dropped_at IS NULL));
-- One of a kind runs at a time, one pause is open at a time, one chain of alerts runs at a time.
CREATE UNIQUE INDEX callback_clock_runs_once ON callback_clock (callback_id, clock) WHERE met_at IS NULL AND dropped_at IS NULL;
CREATE UNIQUE INDEX pause_open_already ON callback_pause (callback_id) WHERE until_at IS NULL;
CREATE UNIQUE INDEX danger_chain_runs_once ON danger_chain (callback_id) WHERE answered_at IS NULL AND ended_at IS NULL;
-- Pauses of one callback never lie over each other: no minute is given back twice.
ALTER TABLE callback_pause ADD CONSTRAINT pause_open_already_over EXCLUDE USING gist (callback_id WITH =, tstzrange(from_at, until_at) WITH &&);
ALTER TABLE callback_pause ADD CONSTRAINT callback_pause_known CHECK ((until_at IS NULL) = (until_by IS NULL) AND (until_at IS NULL OR until_at >= from_at));
ALTER TABLE on_call_duty ADD CONSTRAINT on_call_duty_known CHECK (
  start_minute BETWEEN 0 AND 1439 AND end_minute BETWEEN 1 AND 1440 AND (until_day IS NULL OR until_day >= from_day) AND weekdays <@ ARRAY[1, 2, 3, 4, 5, 6, 7] AND cardinality(weekdays) > 0
  AND (ended_at IS NULL) = (ended_by IS NULL));
ALTER TABLE danger_chain ADD CONSTRAINT danger_chain_known CHECK ((answered_at IS NULL) = (answered_by IS NULL) AND (answered_at IS NULL OR ended_at IS NULL));

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['clock_policy', 'danger_alert'] LOOP
    EXECUTE format('CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t);
    EXECUTE format('CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t);
    IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN EXECUTE format('REVOKE UPDATE, DELETE, TRUNCATE ON %I FROM backsight_app', t); END IF;
  END LOOP;
END $$;

-- Callbacks of before go on under the customary times under which they were taken in. Near-misses and legal papers have none of these.
INSERT INTO callback_clock (id, callback_id, clock, amount, unit, source, started_at, due_at, met_at, met_by, dropped_at)
SELECT gen_random_uuid(), c.id, k.clock, k.amount, 'businessDays', 'common practice', c.received_at, greatest(k.due_at, c.received_at),
    CASE WHEN k.at IS NOT NULL OR c.state <> 'closed' THEN k.at END,
    (SELECT e.actor_id FROM callback_event e WHERE e.callback_id = c.id AND e.kind = ANY (k.kinds) ORDER BY e.seq LIMIT 1),
    CASE WHEN k.at IS NULL AND c.state = 'closed' THEN c.received_at END
FROM callback c CROSS JOIN LATERAL (
  SELECT x.clock, x.amount, x.due_at, x.kinds, (SELECT min(e.happened_at) FROM callback_event e WHERE e.callback_id = c.id AND e.kind = ANY (x.kinds)) AS at
  FROM (VALUES ('acknowledge', 1, c.acknowledge_due_at, ARRAY['acknowledged', 'looking_into', 'concluded', 'closed']),
               ('triage', 2, c.triage_due_at, ARRAY['looking_into', 'concluded', 'closed']),
               ('decision', 15, c.decision_due_at, ARRAY['closed'])) AS x (clock, amount, due_at, kinds)
  WHERE x.clock = 'acknowledge' OR c.kind <> 'question') k
WHERE c.kind NOT IN ('near_miss', 'board_complaint', 'demand_or_suit', 'records_request');
UPDATE callback_clock k SET met_at = m.at, dropped_at = NULL FROM (
  SELECT about_id, min(recorded_at) AS at FROM outgoing_mail WHERE about_kind = 'callback' AND kind = 'decision' GROUP BY about_id) m
WHERE k.clock = 'decision' AND k.callback_id = m.about_id AND (k.met_at IS NULL OR k.met_at > m.at);
ALTER TABLE callback DROP COLUMN acknowledge_due_at, DROP COLUMN triage_due_at, DROP COLUMN decision_due_at;

-- Plans of days, what clients were promised, visits that stay as they are, times closed for weather, clients to be called.
-- AlterTable
ALTER TABLE "visit" ADD COLUMN     "locked_at" TIMESTAMPTZ(3),
ADD COLUMN     "locked_because" TEXT,
ADD COLUMN     "locked_by" UUID,
ADD COLUMN     "promised_from" TIMESTAMPTZ(3),
ADD COLUMN     "promised_until" TIMESTAMPTZ(3);

-- CreateTable
CREATE TABLE "plan" (
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "from_day" DATE NOT NULL,
    "to_day" DATE NOT NULL,
    "ask" JSONB NOT NULL,
    "state" TEXT NOT NULL,
    "note" TEXT,
    "fingerprint" TEXT,
    "result" JSONB,
    "accepted" TEXT[],
    "asked_by" UUID NOT NULL,
    "asked_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3),

    CONSTRAINT "plan_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "plan_call" (
    "id" UUID NOT NULL,
    "plan_id" UUID NOT NULL,
    "visit_id" UUID NOT NULL,
    "position" INTEGER NOT NULL,
    "because" TEXT NOT NULL,
    "was_at" TIMESTAMPTZ(3) NOT NULL,
    "will_be_at" TIMESTAMPTZ(3),
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "done_at" TIMESTAMPTZ(3),
    "done_by" UUID,

    CONSTRAINT "plan_call_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "weather_closure" (
    "id" UUID NOT NULL,
    "starts_at" TIMESTAMPTZ(3) NOT NULL,
    "ends_at" TIMESTAMPTZ(3) NOT NULL,
    "outdoor_only" BOOLEAN NOT NULL,
    "towns" TEXT[],
    "reason" TEXT NOT NULL,
    "recorded_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "lifted_at" TIMESTAMPTZ(3),

    CONSTRAINT "weather_closure_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "plan_asked_at_idx" ON "plan"("asked_at");

-- CreateIndex
CREATE UNIQUE INDEX "plan_call_plan_id_visit_id_key" ON "plan_call"("plan_id", "visit_id");

-- CreateIndex
CREATE INDEX "weather_closure_ends_at_idx" ON "weather_closure"("ends_at");

-- AddForeignKey
ALTER TABLE "plan_call" ADD CONSTRAINT "plan_call_plan_id_fkey" FOREIGN KEY ("plan_id") REFERENCES "plan"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "plan_call" ADD CONSTRAINT "plan_call_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;


-- ---------- rules that must never break ----------
-- No promise recorded: the client was promised the very start. The other kind is a window, and the start lies in it.
ALTER TABLE visit ADD CONSTRAINT visit_promise CHECK ((promised_from IS NULL) = (promised_until IS NULL)
  AND (promised_from IS NULL OR (starts_at BETWEEN promised_from AND promised_until AND promised_until <= promised_from + interval '24 hours'
    AND extract(epoch FROM promised_from) % 60 = 0 AND extract(epoch FROM promised_until) % 60 = 0)));
ALTER TABLE visit ADD CONSTRAINT visit_lock CHECK ((locked_at IS NULL) = (locked_by IS NULL) AND (locked_at IS NULL) = (locked_because IS NULL) AND locked_because <> '');
ALTER TABLE plan ADD CONSTRAINT plan_known CHECK (kind IN ('day_plan', 'sick_call', 'weather', 'what_if') AND state IN ('asked', 'finished', 'stopped', 'failed', 'lost')
  AND (state = 'asked') = (ended_at IS NULL) AND (state = 'finished') = (result IS NOT NULL) AND to_day >= from_day AND to_day <= from_day + 400);
ALTER TABLE plan_call ADD CONSTRAINT plan_call_known CHECK (because IN ('left_out', 'moved', 'crew') AND (because = 'left_out') = (will_be_at IS NULL) AND (done_at IS NULL) = (done_by IS NULL));
ALTER TABLE weather_closure ADD CONSTRAINT weather_closure_times CHECK (ends_at > starts_at AND ends_at <= starts_at + interval '31 days' AND reason <> ''
  AND extract(epoch FROM starts_at) % 60 = 0 AND extract(epoch FROM ends_at) % 60 = 0);

-- Whoever is told another start outside the window holds that start from then on: the window is void.
CREATE FUNCTION void_promise() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.starts_at NOT BETWEEN NEW.promised_from AND NEW.promised_until AND (NEW.promised_from, NEW.promised_until) IS NOT DISTINCT FROM (OLD.promised_from, OLD.promised_until) THEN
    NEW.promised_from := NULL; NEW.promised_until := NULL;
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER visit_promise_void BEFORE UPDATE OF starts_at ON visit FOR EACH ROW EXECUTE FUNCTION void_promise();

-- Driving times: recorded drives, what is said by hand, fitted speeds, answers of a road service; where a property's place comes from.
ALTER TABLE "property" ADD COLUMN "place_by" TEXT NOT NULL DEFAULT 'town', ADD COLUMN "version" INTEGER NOT NULL DEFAULT 1;
UPDATE property p SET place_by = 'exact' WHERE NOT EXISTS (SELECT FROM town t WHERE t.lat = p.lat AND t.lon = p.lon);
ALTER TABLE property ADD CONSTRAINT property_place_by CHECK (place_by IN ('town', 'zip', 'exact'));

CREATE TABLE "drive_mark" (
    "id" UUID NOT NULL,
    "visit_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "from_lat" DOUBLE PRECISION,
    "from_lon" DOUBLE PRECISION,
    "recorded_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    CONSTRAINT "drive_mark_pkey" PRIMARY KEY ("id")
);
CREATE INDEX "drive_mark_visit_id_person_id_idx" ON "drive_mark"("visit_id", "person_id");
ALTER TABLE "drive_mark" ADD CONSTRAINT "drive_mark_visit_id_fkey" FOREIGN KEY ("visit_id") REFERENCES "visit"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "drive_mark" ADD CONSTRAINT "drive_mark_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE drive_mark ADD CONSTRAINT drive_mark_known CHECK (kind IN ('set_out', 'arrived') AND (kind = 'set_out') = (from_lat IS NOT NULL AND from_lon IS NOT NULL));

CREATE TABLE "travel_rule" (
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "a_name" TEXT NOT NULL,
    "a_lat" DOUBLE PRECISION NOT NULL,
    "a_lon" DOUBLE PRECISION NOT NULL,
    "a_radius_km" DOUBLE PRECISION NOT NULL,
    "b_name" TEXT,
    "b_lat" DOUBLE PRECISION,
    "b_lon" DOUBLE PRECISION,
    "b_radius_km" DOUBLE PRECISION,
    "minutes" INTEGER,
    "percent" INTEGER,
    "reason" TEXT NOT NULL,
    "recorded_by" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3),
    CONSTRAINT "travel_rule_pkey" PRIMARY KEY ("id")
);
ALTER TABLE travel_rule ADD CONSTRAINT travel_rule_known CHECK (
  (kind = 'between' AND minutes BETWEEN 1 AND 600 AND percent IS NULL AND b_name IS NOT NULL AND b_lat IS NOT NULL AND b_lon IS NOT NULL AND b_radius_km BETWEEN 0.05 AND 100)
  OR (kind = 'within' AND percent BETWEEN -50 AND 300 AND percent <> 0 AND minutes IS NULL AND b_name IS NULL AND b_lat IS NULL AND b_lon IS NULL AND b_radius_km IS NULL));
ALTER TABLE travel_rule ADD CONSTRAINT travel_rule_area CHECK (a_radius_km BETWEEN 0.05 AND 100);

CREATE TABLE "travel_fit" (
    "id" UUID NOT NULL,
    "from_day" DATE NOT NULL,
    "until_day" DATE NOT NULL,
    "used" INTEGER NOT NULL,
    "body" JSONB NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    CONSTRAINT "travel_fit_pkey" PRIMARY KEY ("id")
);

CREATE TABLE "travel_setup" (
    "id" INTEGER NOT NULL DEFAULT 1,
    "fit_id" UUID,
    "follow" BOOLEAN NOT NULL DEFAULT false,
    "engine" TEXT,
    "filled_at" TIMESTAMPTZ(3),
    "last_error" TEXT,
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "travel_setup_pkey" PRIMARY KEY ("id")
);
ALTER TABLE "travel_setup" ADD CONSTRAINT "travel_setup_fit_id_fkey" FOREIGN KEY ("fit_id") REFERENCES "travel_fit"("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE travel_setup ADD CONSTRAINT travel_setup_only_one CHECK (id = 1);

CREATE TABLE "travel_cell" (
    "engine" TEXT NOT NULL,
    "from_place" BIGINT NOT NULL,
    "to_place" BIGINT NOT NULL,
    "seconds" INTEGER,
    "asked_at" TIMESTAMPTZ(3) NOT NULL,
    CONSTRAINT "travel_cell_pkey" PRIMARY KEY ("engine", "from_place", "to_place")
);
ALTER TABLE travel_cell ADD CONSTRAINT travel_cell_seconds CHECK (seconds >= 0);

-- The same whole number for a place as the engine works out: rounded to 4 decimals of a degree.
CREATE FUNCTION place_key(lat double precision, lon double precision) RETURNS bigint LANGUAGE sql IMMUTABLE PARALLEL SAFE AS $$
  SELECT (floor(lat * 10000 + 0.5)::bigint + 900000) * 3600001 + floor(lon * 10000 + 0.5)::bigint + 1800000;
$$;

-- What was marked on the road stays as it was; a correction is another mark. Fits stay as they were found.
DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['drive_mark', 'travel_fit'] LOOP
    EXECUTE format('CREATE TRIGGER history_is_kept BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', t);
    EXECUTE format('CREATE TRIGGER history_is_not_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', t);
    IF EXISTS (SELECT FROM pg_roles WHERE rolname = 'backsight_app') THEN EXECUTE format('REVOKE UPDATE, DELETE, TRUNCATE ON %I FROM backsight_app', t); END IF;
  END LOOP;
END $$;

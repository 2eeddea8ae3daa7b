// The driving times that a search needs, as one column of its one question: fit in use, what was said by hand, answers of the road service.
export type TravelRows = {
  speeds: number[] | null;
  factors: { a: string; b: string; factor: number }[];
  towns: { name: string; lat: number; lon: number }[];
  rules: ({ kind: 'between'; a: AreaRow; b: AreaRow; minutes: number } | { kind: 'within'; a: AreaRow; percent: number })[];
  service: boolean;
  cells: [from: number, to: number, seconds: number][];
};
type AreaRow = { lat: number; lon: number; radiusKm: number };

const RULES = `(SELECT coalesce(json_agg(CASE r.kind
    WHEN 'between' THEN json_build_object('kind', r.kind, 'a', json_build_object('lat', r.a_lat, 'lon', r.a_lon, 'radiusKm', r.a_radius_km), 'b', json_build_object('lat', r.b_lat, 'lon', r.b_lon, 'radiusKm', r.b_radius_km), 'minutes', r.minutes)
    ELSE json_build_object('kind', r.kind, 'a', json_build_object('lat', r.a_lat, 'lon', r.a_lon, 'radiusKm', r.a_radius_km), 'percent', r.percent) END ORDER BY r.recorded_at DESC, r.id), '[]')
  FROM travel_rule r WHERE r.ended_at IS NULL)`;

/** Places of the days asked, of the people, and the one asked for ($6, $7). */
const PLACES = `ARRAY(SELECT place_key(p.home_lat, p.home_lon) FROM person p WHERE p.ended_on IS NULL OR p.ended_on >= ($1::timestamptz AT TIME ZONE $3)::date
  UNION SELECT place_key(h.lat, h.lon) FROM visit v JOIN job j ON j.id = v.job_id JOIN property h ON h.id = j.property_id WHERE v.live AND v.starts_at < $2::timestamptz AND v.ends_at > $1::timestamptz AND v.starts_at > $1::timestamptz - interval '1 day'
  UNION SELECT place_key($6::float8, $7::float8) WHERE $6::float8 IS NOT NULL)`;

const CELLS = `(WITH places AS (SELECT ${PLACES} AS keys) SELECT coalesce(json_agg(json_build_array(c.from_place, c.to_place, c.seconds)), '[]')
  FROM places, travel_cell c WHERE c.engine = s.engine AND c.seconds IS NOT NULL AND c.from_place = ANY(places.keys) AND c.to_place = ANY(places.keys))`;

/** SQL of the column; $1, $2 and $3 are the span and the zone of the question, $6 and $7 a place. */
export const TRAVEL = `(SELECT json_build_object('speeds', f.body->'speeds', 'factors', coalesce(f.body->'factors', '[]'), 'service', s.engine IS NOT NULL, 'rules', ${RULES},
    'towns', (SELECT coalesce(json_agg(json_build_object('name', t.name, 'lat', t.lat, 'lon', t.lon) ORDER BY t.name), '[]') FROM town t),
    'cells', CASE WHEN s.engine IS NULL THEN '[]'::json ELSE ${CELLS} END)
  FROM (SELECT 1) one LEFT JOIN travel_setup s ON s.id = 1 LEFT JOIN travel_fit f ON f.id = s.fit_id)`;

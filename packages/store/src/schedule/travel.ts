// The settings of driving times: rules said by hand, fits, which is used, the road service and its answers.
import type { Prisma } from '../generated/client.ts';
import { dayIn, execute, type Reader, type Tx } from '../database.ts';

export type TravelSetup = {
  fitId: string | null;
  follow: boolean;
  engine: string | null;
  filledAt: Date | null;
  lastError: string | null;
  version: number;
};
const UNSET: TravelSetup = { fitId: null, follow: false, engine: null, filledAt: null, lastError: null, version: 0 };

/** The setting; version 0 while nobody has set anything. */
export const findTravelSetup = async (reader: Reader): Promise<TravelSetup> =>
  (
    await reader.rows<TravelSetup>(
      `SELECT fit_id::text AS "fitId", follow, engine, filled_at AS "filledAt", last_error AS "lastError", version FROM travel_setup WHERE id = 1`,
    )
  )[0] ?? UNSET;

/** Locks what is set until the transaction ends. */
export const lockTravelSetup = (tx: Tx): Promise<unknown> =>
  tx.rows(`SELECT pg_advisory_xact_lock(hashtextextended('travel-setup', 0))::text`);

type SetupEdit = { fitId?: string | null; follow?: boolean };

export const saveTravelSetup = (tx: Tx, edit: SetupEdit): Promise<unknown> =>
  tx.db.travelSetup.upsert({ where: { id: 1 }, create: edit, update: { ...edit, version: { increment: 1 } } });

/** Notes which road service answers (null: none), when pairs were last filled in, and what went wrong. Not a change that anybody made. */
export const noteEngine = (tx: Tx, n: { engine: string | null; filledAt: Date | null; lastError: string | null }): Promise<unknown> =>
  tx.db.travelSetup.upsert({ where: { id: 1 }, create: n, update: n });

export type RuleRow = {
  id: string;
  kind: 'between' | 'within';
  aName: string;
  aLat: number;
  aLon: number;
  aRadiusKm: number;
  bName: string | null;
  bLat: number | null;
  bLon: number | null;
  bRadiusKm: number | null;
  minutes: number | null;
  percent: number | null;
  reason: string;
};
export type ListedRule = RuleRow & { by: string; recordedAt: Date };

/** Rules that count, the newest first: the first that fits is taken. */
export const listTravelRules = (reader: Reader): Promise<ListedRule[]> =>
  reader.rows<ListedRule>(
    `SELECT r.id::text AS id, r.kind, r.a_name AS "aName", r.a_lat AS "aLat", r.a_lon AS "aLon", r.a_radius_km AS "aRadiusKm", r.b_name AS "bName", r.b_lat AS "bLat", r.b_lon AS "bLon", r.b_radius_km AS "bRadiusKm",
       r.minutes, r.percent, r.reason, coalesce(p.name, '') AS by, r.recorded_at AS "recordedAt" FROM travel_rule r LEFT JOIN person p ON p.id = r.recorded_by WHERE r.ended_at IS NULL ORDER BY r.recorded_at DESC, r.id`,
  );

/** Adds a rule. Constraints: travel_rule_known, travel_rule_area. */
export async function saveTravelRule(tx: Tx, rule: RuleRow & { recordedBy: string; recordedAt: Date }): Promise<void> {
  await tx.db.travelRule.create({ data: rule });
}

/** Ends a rule; answers whether it counted until now. */
export const endTravelRule = async (tx: Tx, id: string, at: Date): Promise<boolean> =>
  (await tx.db.travelRule.updateMany({ where: { id, endedAt: null }, data: { endedAt: at } })).count === 1;

export type FitRow = { id: string; fromDay: string; untilDay: string; used: number; body: unknown; recordedAt: Date };

/** Fits, the newest first. */
export const listFits = (reader: Reader, limit: number): Promise<FitRow[]> =>
  reader.rows<FitRow>(
    `SELECT id::text AS id, from_day::text AS "fromDay", until_day::text AS "untilDay", used, body, recorded_at AS "recordedAt" FROM travel_fit ORDER BY recorded_at DESC, id DESC LIMIT $1`,
    [limit],
  );

export const findFit = async (reader: Reader, id: string): Promise<FitRow | null> =>
  (
    await reader.rows<FitRow>(
      `SELECT id::text AS id, from_day::text AS "fromDay", until_day::text AS "untilDay", used, body, recorded_at AS "recordedAt" FROM travel_fit WHERE id = $1::uuid`,
      [id],
    )
  )[0] ?? null;

export async function saveFit(tx: Tx, fit: FitRow): Promise<void> {
  await tx.db.travelFit.create({
    data: { ...fit, fromDay: dayIn(fit.fromDay), untilDay: dayIn(fit.untilDay), body: fit.body as Prisma.InputJsonValue },
  });
}

export type NeededPlaces = { bases: { lat: number; lon: number }[]; visits: { day: string; lat: number; lon: number }[] };

/** Bases of those who go out, and the properties of live visits between two instants with their day in the firm's zone. */
export async function neededPlaces(reader: Reader, q: { from: Date; until: Date; zone: string }): Promise<NeededPlaces> {
  const [row] = await reader.rows<NeededPlaces>(
    `SELECT (SELECT coalesce(json_agg(DISTINCT jsonb_build_object('lat', p.home_lat, 'lon', p.home_lon)), '[]') FROM person p
         WHERE (p.ended_on IS NULL OR p.ended_on >= ($1::timestamptz AT TIME ZONE $3)::date) AND EXISTS (SELECT FROM person_role r WHERE r.person_id = p.id AND r.role = 'inspector')) AS bases,
       (SELECT coalesce(json_agg(DISTINCT jsonb_build_object('day', (v.starts_at AT TIME ZONE $3)::date::text, 'lat', h.lat, 'lon', h.lon)), '[]') FROM visit v JOIN job j ON j.id = v.job_id JOIN property h ON h.id = j.property_id
         WHERE v.live AND v.starts_at >= $1::timestamptz AND v.starts_at < $2::timestamptz) AS visits`,
    [q.from.toISOString(), q.until.toISOString(), q.zone],
  );
  return row!;
}

/** Of the pairs given, those that the service has not answered since `since`. */
export const missingCells = async (
  reader: Reader,
  engine: string,
  pairs: readonly (readonly [number, number])[],
  since: Date,
): Promise<[number, number][]> =>
  (
    await reader.rows<{ a: number; b: number }>(
      `SELECT n.a, n.b FROM unnest($2::bigint[], $3::bigint[]) AS n(a, b)
       WHERE NOT EXISTS (SELECT FROM travel_cell c WHERE c.engine = $1 AND c.from_place = n.a AND c.to_place = n.b AND c.asked_at >= $4::timestamptz)`,
      [engine, pairs.map(([a]) => a), pairs.map(([, b]) => b), since.toISOString()],
    )
  ).map(({ a, b }) => [a, b]);

export type CellRow = { from: number; to: number; seconds: number | null };

/** Keeps answers of the service; a later answer replaces an earlier one. */
export const saveCells = (tx: Tx, engine: string, cells: readonly CellRow[], at: Date): Promise<void> =>
  execute(
    tx,
    `INSERT INTO travel_cell (engine, from_place, to_place, seconds, asked_at) SELECT $1, a, b, s, $5::timestamptz FROM unnest($2::bigint[], $3::bigint[], $4::int[]) AS n(a, b, s)
     ON CONFLICT (engine, from_place, to_place) DO UPDATE SET seconds = EXCLUDED.seconds, asked_at = EXCLUDED.asked_at`,
    engine,
    cells.map(({ from }) => from),
    cells.map(({ to }) => to),
    cells.map(({ seconds }) => seconds),
    at.toISOString(),
  );

/** How many pairs the service has answered, and for how many it knows no way. */
export async function countCells(reader: Reader, engine: string): Promise<{ answered: number; noWay: number }> {
  const [row] = await reader.rows<{ answered: number; noWay: number }>(
    `SELECT count(*)::int AS answered, count(*) FILTER (WHERE seconds IS NULL)::int AS "noWay" FROM travel_cell WHERE engine = $1`,
    [engine],
  );
  return row!;
}

// Recorded drives: when somebody set out and arrived, corrected by adding; and the drives that the marks tell of.
import type { Reader, Tx } from '../database.ts';

export type MarkKind = 'set_out' | 'arrived';
export type DriveVisit = {
  id: string;
  state: string;
  startsAt: Date;
  zone: string;
  members: string[];
  address: string;
  lat: number;
  lon: number;
};

const VISIT = `SELECT v.id::text AS id, v.state, v.starts_at AS "startsAt", o.zone, p.address, p.lat, p.lon,
    ARRAY(SELECT a.person_id::text FROM assignment a WHERE a.visit_id = v.id UNION SELECT b.person_id::text FROM observer b WHERE b.visit_id = v.id) AS members
  FROM visit v JOIN job j ON j.id = v.job_id JOIN office o ON o.id = j.office_id JOIN property p ON p.id = j.property_id WHERE v.id = $1::uuid AND v.live`;

export const findDriveVisit = async (reader: Reader, id: string): Promise<DriveVisit | null> =>
  (await reader.rows<DriveVisit>(VISIT, [id]))[0] ?? null;

const ORIGIN = `SELECT lat, lon FROM (
    SELECT p.lat, p.lon, 0 AS rank FROM (SELECT w.job_id FROM assignment a JOIN visit w ON w.id = a.visit_id
        WHERE a.person_id = $2::uuid AND a.live AND w.id <> $1::uuid AND w.starts_at < $3::timestamptz AND w.starts_at >= $4::timestamptz ORDER BY w.starts_at DESC LIMIT 1) w
      JOIN job j ON j.id = w.job_id JOIN property p ON p.id = j.property_id
    UNION ALL SELECT home_lat, home_lon, 1 FROM person WHERE id = $2::uuid) origin ORDER BY rank LIMIT 1`;

/** Where a person comes from: his visit before on that day, else his base. */
export const originOf = async (
  reader: Reader,
  q: { visitId: string; personId: string; startsAt: Date; dayStart: Date },
): Promise<{ lat: number; lon: number } | null> =>
  (
    await reader.rows<{ lat: number; lon: number }>(ORIGIN, [q.visitId, q.personId, q.startsAt.toISOString(), q.dayStart.toISOString()])
  )[0] ?? null;

export type MarkRow = { visitId: string; personId: string; kind: MarkKind; at: Date };

/** The marks that count, of some visits: the newest of each kind and person. */
export const standingMarks = (reader: Reader, visitIds: readonly string[]): Promise<MarkRow[]> =>
  reader.rows<MarkRow>(
    `SELECT DISTINCT ON (visit_id, person_id, kind) visit_id::text AS "visitId", person_id::text AS "personId", kind, at FROM drive_mark WHERE visit_id = ANY($1::uuid[]) ORDER BY visit_id, person_id, kind, recorded_at DESC, id DESC`,
    [visitIds],
  );

export type PlaceOfVisit = { visitId: string; lat: number; lon: number; zone: string };

/** Where visits are, with the zone of the office that plans them. */
export const placesOfVisits = (reader: Reader, visitIds: readonly string[]): Promise<PlaceOfVisit[]> =>
  reader.rows<PlaceOfVisit>(
    `SELECT v.id::text AS "visitId", p.lat, p.lon, o.zone FROM visit v JOIN job j ON j.id = v.job_id JOIN office o ON o.id = j.office_id JOIN property p ON p.id = j.property_id WHERE v.id = ANY($1::uuid[])`,
    [visitIds],
  );

export async function addMark(
  tx: Tx,
  mark: MarkRow & { id: string; fromLat: number | null; fromLon: number | null; recordedBy: string; recordedAt: Date },
): Promise<void> {
  await tx.db.driveMark.create({ data: mark });
}

export type DriveRow = { fromLat: number; fromLon: number; toLat: number; toLon: number; minutes: number };

/**
 * Drives from one day on, before another. Without a mark of arrival, opening the site record stands for it. People who came from the same
 * place to the same visit count once; properties whose exact place is not known are left out.
 */
const DRIVES = `WITH mark AS (SELECT DISTINCT ON (visit_id, person_id, kind) visit_id, person_id, kind, at, from_lat, from_lon FROM drive_mark ORDER BY visit_id, person_id, kind, recorded_at DESC, id DESC)
  SELECT s.from_lat AS "fromLat", s.from_lon AS "fromLon", p.lat AS "toLat", p.lon AS "toLon", (extract(epoch FROM coalesce(a.at, r.opened_at) - s.at) / 60)::float8 AS minutes
  FROM (SELECT DISTINCT ON (visit_id, from_lat, from_lon) * FROM mark WHERE kind = 'set_out' ORDER BY visit_id, from_lat, from_lon, at, person_id) s
  LEFT JOIN mark a ON a.visit_id = s.visit_id AND a.person_id = s.person_id AND a.kind = 'arrived'
  LEFT JOIN site_record r ON r.visit_id = s.visit_id
  JOIN visit v ON v.id = s.visit_id JOIN job j ON j.id = v.job_id JOIN property p ON p.id = j.property_id
  WHERE p.place_by = 'exact' AND coalesce(a.at, r.opened_at) IS NOT NULL AND s.at >= $1::timestamptz AND s.at < $2::timestamptz ORDER BY s.at, s.visit_id, s.from_lat, s.from_lon`;

export const recordedDrives = (reader: Reader, from: Date, until: Date): Promise<DriveRow[]> =>
  reader.rows<DriveRow>(DRIVES, [from.toISOString(), until.toISOString()]);

// Miles driven: what was entered, and the places of each day from which the planned miles come.
import { dayIn, execute, touched, type Reader, type Tx } from '../database.ts';

export type MileageRow = {
  id: string;
  personId: string;
  day: string;
  tenths: number;
  odometerStart: number | null;
  odometerEnd: number | null;
  vehicleId: string | null;
  vehicle: string | null;
  note: string;
};

/** What was entered for the days from one to the other, both included; of everybody, or of one person. */
export const mileageBetween = (reader: Reader, q: { from: string; to: string; personId: string | null }): Promise<MileageRow[]> =>
  reader.rows<MileageRow>(
    `SELECT m.id::text AS id, m.person_id::text AS "personId", m.day::text AS day, m.tenths, m.odometer_start AS "odometerStart", m.odometer_end AS "odometerEnd", m.vehicle_id::text AS "vehicleId", k.serial AS vehicle, m.note
     FROM mileage_entry m LEFT JOIN kit_item k ON k.id = m.vehicle_id
     WHERE m.withdrawn_at IS NULL AND m.day BETWEEN $1::date AND $2::date AND ($3::uuid IS NULL OR m.person_id = $3::uuid) ORDER BY m.day, m.person_id`,
    [q.from, q.to, q.personId],
  );

export type DriveRow = {
  personId: string;
  name: string;
  homeLat: number;
  homeLon: number;
  day: string;
  places: { lat: number; lon: number }[];
};

/** Who went to which places on which day, in their order, as booked or as it was; the day is that of the zone. */
export const drivesBetween = (
  reader: Reader,
  q: { from: string; to: string; personId: string | null; zone: string },
): Promise<DriveRow[]> =>
  reader.rows<DriveRow>(
    `SELECT p.id::text AS "personId", p.name, p.home_lat AS "homeLat", p.home_lon AS "homeLon", g.day::text AS day, json_agg(json_build_object('lat', g.lat, 'lon', g.lon) ORDER BY g.starts_at, g.visit_id) AS places
     FROM (SELECT a.person_id, v.id AS visit_id, v.starts_at, (v.starts_at AT TIME ZONE $4)::date AS day, h.lat, h.lon FROM visit v JOIN job j ON j.id = v.job_id JOIN property h ON h.id = j.property_id
           JOIN (SELECT visit_id, person_id FROM assignment UNION SELECT visit_id, person_id FROM observer) a ON a.visit_id = v.id
           WHERE v.live AND v.state <> 'held' AND v.starts_at >= $1::date - interval '2 days' AND v.starts_at < $2::date + interval '2 days' AND ($3::uuid IS NULL OR a.person_id = $3::uuid)) g
     JOIN person p ON p.id = g.person_id WHERE g.day BETWEEN $1::date AND $2::date GROUP BY p.id, g.day ORDER BY g.day, p.name`,
    [q.from, q.to, q.personId, q.zone],
  );

/** Ends what was entered for a day, so that another row takes its place. */
export const withdrawMileage = (tx: Tx, personId: string, day: string, at: Date): Promise<number> =>
  touched(
    tx,
    'UPDATE mileage_entry SET withdrawn_at = $3::timestamptz WHERE person_id = $1::uuid AND day = $2::date AND withdrawn_at IS NULL',
    personId,
    day,
    at,
  );

/** Enters the miles of a day. Constraints: mileage_once_a_day, mileage_entry_odometer. */
export async function saveMileage(
  tx: Tx,
  { vehicle: _, ...entry }: MileageRow,
  by: { recordedBy: string; recordedAt: Date },
): Promise<void> {
  await tx.db.mileageEntry.create({ data: { ...entry, day: dayIn(entry.day), ...by } });
}

/** What a mile is repaid with, in tenths of a cent. */
export const mileageRate = async (reader: Reader): Promise<number> =>
  (await reader.rows<{ rate: number }>('SELECT mileage_tenth_cents AS rate FROM firm'))[0]?.rate ?? 0;

export const setMileageRate = (tx: Tx, tenthCents: number): Promise<void> =>
  execute(tx, 'UPDATE firm SET mileage_tenth_cents = $1::int', tenthCents);

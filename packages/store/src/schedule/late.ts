// Visits of a day for the question who is late where, and the notices that were given.
import type { Prisma } from '../generated/client.ts';
import type { Reader, Tx } from '../database.ts';

export type DayVisitRow = {
  id: string;
  jobId: string;
  jobNumber: number;
  state: string;
  startsAt: Date;
  endsAt: Date;
  expectedAt: Date | null;
  lat: number;
  lon: number;
  address: string;
  crew: string[];
  clients: { partyId: string; name: string; email: string | null }[];
};

/** Booked and running visits on the local day of one visit, that visit among them. */
export const visitsOfDayOf = (reader: Reader, visitId: string): Promise<DayVisitRow[]> =>
  reader.rows<DayVisitRow>(
    `SELECT v.id::text AS id, j.id::text AS "jobId", j.number AS "jobNumber", v.state, v.starts_at AS "startsAt", v.ends_at AS "endsAt", v.expected_at AS "expectedAt", p.lat, p.lon, p.address || ', ' || p.town AS address,
       ARRAY(SELECT a.person_id::text FROM assignment a WHERE a.visit_id = v.id ORDER BY a.place) AS crew,
       coalesce((SELECT jsonb_agg(jsonb_build_object('partyId', c.id, 'name', c.name, 'email', c.email) ORDER BY c.id) FROM job_party r JOIN party c ON c.id = r.party_id WHERE r.job_id = j.id AND r.role = 'client'), '[]'::jsonb) AS clients
     FROM visit v JOIN job j ON j.id = v.job_id JOIN office o ON o.id = j.office_id JOIN property p ON p.id = j.property_id
     JOIN visit w ON w.id = $1::uuid WHERE v.state IN ('booked', 'on_site') AND (v.starts_at AT TIME ZONE o.zone)::date = (w.starts_at AT TIME ZONE o.zone)::date ORDER BY v.starts_at, v.id`,
    [visitId],
  );

export async function setExpected(tx: Tx, visitId: string, expectedAt: Date): Promise<void> {
  await tx.db.visit.update({ where: { id: visitId }, data: { expectedAt } });
}

export type NewLateNotice = { id: string; visitId: string; minutes: number; told: unknown; recordedAt: Date; recordedBy: string };

export async function saveLateNotice(tx: Tx, n: NewLateNotice): Promise<void> {
  await tx.db.lateNotice.create({ data: { ...n, told: n.told as Prisma.InputJsonValue } });
}

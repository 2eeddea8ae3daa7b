// What the site record needs to know of a visit and its job, and the states that the record moves.
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import { execute, type Reader, type Tx } from '../database.ts';

export type Member = { personId: string; name: string; place: 'first' | 'second' };
export type VisitRow = {
  id: string;
  jobId: string;
  kind: string;
  state: string;
  crewSize: number;
  startsAt: Date;
  endsAt: Date;
  expectedAt: Date | null;
  day: string;
  /** Of the office. */
  zone: string;
  jobNumber: number;
  jobKind: string;
  jobState: string;
  address: string;
  town: string;
  facts: PropertyFacts;
  services: string[];
  serviceNames: Record<string, string>;
  pair: Member[];
  kit: string[];
  recordId: string | null;
  recordState: string | null;
};

const VISIT = `SELECT v.id::text AS id, v.job_id::text AS "jobId", v.kind, v.state, v.crew_size AS "crewSize", v.starts_at AS "startsAt", v.ends_at AS "endsAt", v.expected_at AS "expectedAt",
    (v.starts_at AT TIME ZONE o.zone)::date::text AS day, o.zone, j.number AS "jobNumber", j.kind AS "jobKind", j.state AS "jobState", p.address, p.town, j.facts,
    coalesce((SELECT array_agg(s.service_key ORDER BY s.service_key) FROM job_service s WHERE s.job_id = j.id), '{}') AS services,
    coalesce((SELECT jsonb_object_agg(n.key, n.name) FROM job_service s JOIN service n ON n.key = s.service_key WHERE s.job_id = j.id), '{}'::jsonb) AS "serviceNames",
    coalesce((SELECT jsonb_agg(jsonb_build_object('personId', w.id, 'name', w.name, 'place', a.place) ORDER BY a.place) FROM assignment a JOIN person w ON w.id = a.person_id WHERE a.visit_id = v.id), '[]'::jsonb) AS pair,
    coalesce((SELECT array_agg(coalesce(k.name, c.kind) ORDER BY k.carried_by_all, k.name) FROM visit_kit c LEFT JOIN kit_kind k ON k.key = c.kind WHERE c.visit_id = v.id), '{}') AS kit,
    r.id::text AS "recordId", r.state AS "recordState"
  FROM visit v JOIN job j ON j.id = v.job_id JOIN office o ON o.id = j.office_id JOIN property p ON p.id = j.property_id LEFT JOIN site_record r ON r.visit_id = v.id`;

export const findVisit = async (reader: Reader, id: string): Promise<VisitRow | null> =>
  (await reader.rows<VisitRow>(`${VISIT} WHERE v.id = $1::uuid`, [id]))[0] ?? null;

/** Live visits of a person, as member or observer, that begin on one of the days of their office, in order. */
export const visitsOfPerson = (reader: Reader, personId: string, from: string, to: string): Promise<VisitRow[]> =>
  reader.rows<VisitRow>(
    // The days of no zone begin more than a day earlier or later: so the few visits around them are found by their start.
    `${VISIT} WHERE v.live AND v.state <> 'held' AND v.starts_at >= $2::date - interval '1 day' AND v.starts_at < $3::date + interval '2 days'
       AND (v.starts_at AT TIME ZONE o.zone)::date BETWEEN $2::date AND $3::date
       AND (EXISTS (SELECT FROM assignment a WHERE a.visit_id = v.id AND a.person_id = $1::uuid) OR EXISTS (SELECT FROM observer b WHERE b.visit_id = v.id AND b.person_id = $1::uuid))
     ORDER BY v.starts_at`,
    [personId, from, to],
  );

/** Visits of a job that count, in order. */
export const visitsOfJob = (reader: Reader, jobId: string): Promise<VisitRow[]> =>
  reader.rows<VisitRow>(`${VISIT} WHERE v.job_id = $1::uuid AND v.live ORDER BY v.starts_at`, [jobId]);

/** What was agreed about getting in, and who opens: the words of the job's access need, and its people to call. */
export const accessOfJobs = (
  reader: Reader,
  jobIds: readonly string[],
): Promise<
  {
    jobId: string;
    state: string | null;
    details: Record<string, unknown> | null;
    people: { name: string; phone: string | null; role: string }[];
  }[]
> =>
  reader.rows(
    `SELECT j.id::text AS "jobId", n.state, n.details,
       coalesce((SELECT jsonb_agg(jsonb_build_object('name', p.name, 'phone', p.phone, 'role', r.role) ORDER BY r.role, p.name) FROM job_party r JOIN party p ON p.id = r.party_id
         WHERE r.job_id = j.id AND r.role IN ('client', 'occupant', 'opener', 'seller', 'listing_agent')), '[]'::jsonb) AS people
     FROM job j LEFT JOIN job_need n ON n.job_id = j.id AND n.kind = 'access' WHERE j.id = ANY($1::uuid[])`,
    [jobIds],
  );

/** Locks a visit until the transaction ends, so that two phones cannot start it twice. */
export const lockVisit = async (tx: Tx, id: string): Promise<void> =>
  void (await tx.rows('SELECT id::text FROM visit WHERE id = $1::uuid FOR UPDATE', [id]));

export const setVisitState = (tx: Tx, id: string, state: string): Promise<void> =>
  execute(tx, 'UPDATE visit SET state = $2, version = version + 1 WHERE id = $1::uuid', id, state);

/** Writes down that people acknowledged revisions at the start of a visit; one who had done so before stays as it was. */
export async function acknowledgeAtStart(tx: Tx, said: readonly { personId: string; revisionId: string }[], at: Date): Promise<void> {
  const data = said.map((one) => ({ ...one, where: 'at_the_start', happenedAt: at, recordedAt: at }));
  if (data.length > 0) await tx.db.acknowledgement.createMany({ data, skipDuplicates: true });
}

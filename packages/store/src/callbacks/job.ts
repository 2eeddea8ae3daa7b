// What a callback needs to know of its job: when it was, who was there, who signed, which steps were worked.
import type { Reader } from '../database.ts';
import { anywhere } from '../find.ts';
import { holdsWords, isCommon } from '../jobWords.ts';
import { JOBS_OF } from '../ownJobs.ts';
import { STATE_OF } from '../state.ts';

export type JobForCallback = {
  id: string;
  number: number;
  kind: string;
  officeId: string;
  zone: string;
  /** State of the property. */
  jurisdiction: string;
  propertyId: string;
  address: string;
  town: string;
  zip: string;
  facts: unknown;
  inspectedOn: string | null;
  /** Everybody who was there, by place; `visit`: words of another visit than the one that the job is for (a radon pick-up). */
  pair: { id: string; name: string; place: string; visit: string | null }[];
  parties: { id: string; name: string; email: string | null; role: string; signed: boolean }[];
};

/** Names of those who did what the job is for. */
export const whoInspected = ({ pair }: JobForCallback): string[] => [
  ...new Set(pair.filter(({ visit }) => visit === null).map(({ name }) => name)),
];

/** Day of the first visit that took place, where the office is. */
export const INSPECTED_ON = `(SELECT (min(v.starts_at) AT TIME ZONE o.zone)::date::text FROM visit v WHERE v.job_id = j.id AND v.state IN ('on_site', 'done', 'before'))`;

const JOB = `SELECT j.id::text AS id, j.number, j.kind, j.office_id::text AS "officeId", o.zone, ${STATE_OF} AS jurisdiction, j.property_id::text AS "propertyId", a.address, a.town, a.zip, j.facts, ${INSPECTED_ON} AS "inspectedOn",
  coalesce((SELECT jsonb_agg(DISTINCT jsonb_build_object('id', p.id, 'name', p.name, 'place', s.place, 'visit', CASE WHEN v.kind = j.kind THEN NULL ELSE lower(k.name) END)) FROM visit v JOIN visit_kind k ON k.key = v.kind JOIN assignment s ON s.visit_id = v.id JOIN person p ON p.id = s.person_id
    WHERE v.job_id = j.id AND v.state IN ('on_site', 'done', 'before')), '[]') AS pair,
  coalesce((SELECT jsonb_agg(jsonb_build_object('id', w.id, 'name', w.name, 'email', w.email, 'role', x.role, 'signed',
      EXISTS (SELECT FROM agreement g JOIN signer n ON n.agreement_id = g.id AND n.party_id = w.id JOIN signature q ON q.signer_id = n.id WHERE g.job_id = j.id AND g.remedy_id IS NULL)) ORDER BY x.role, w.name)
    FROM job_party x JOIN party w ON w.id = x.party_id WHERE x.job_id = j.id), '[]') AS parties
  FROM job j JOIN office o ON o.id = j.office_id JOIN property a ON a.id = j.property_id`;

export const findJobForCallback = async (reader: Reader, id: string): Promise<JobForCallback | null> =>
  (await reader.rows<JobForCallback>(`${JOB} WHERE j.id = $1::uuid`, [id]))[0] ?? null;

/** Jobs by number, address, town or a name on them, newest first; `text` as it was typed; `only`: jobs to which this person goes. */
export async function searchJobs(
  reader: Reader,
  { text, only, limit = 12 }: { text: string; only: string | null; limit?: number },
): Promise<JobForCallback[]> {
  const common = only === null && (await isCommon(reader, text));
  // Of somebody's own jobs each is held against the words (IS TRUE), as in `listJobs`.
  return reader.rows<JobForCallback>(
    `WITH found AS MATERIALIZED (SELECT j.id FROM job j WHERE j.state NOT IN ('held', 'lapsed') AND (${holdsWords(common, '$1', '$2')})${only === null ? '' : ' IS TRUE'}
       AND ${only === null ? '$4::uuid IS NULL' : `j.id IN (${JOBS_OF('$4::uuid')})`} ORDER BY j.number DESC LIMIT $3::int)
     ${JOB} WHERE j.id IN (SELECT id FROM found) ORDER BY j.number DESC`,
    [text, anywhere(text), limit, only],
  );
}

/** Numbers of the other callbacks of a property (questions, near-misses and duplicates left out). */
export const earlierCallbacks = (
  reader: Reader,
  propertyId: string,
): Promise<
  { id: string; number: number; kind: string; state: string; receivedAt: Date; system: string; jobNumber: number; ownerOnly: boolean }[]
> =>
  reader.rows(
    `SELECT c.id::text AS id, c.number, c.kind, c.state, c.received_at AS "receivedAt", c.system, j.number AS "jobNumber", c.owner_only AS "ownerOnly" FROM callback c JOIN job j ON j.id = c.job_id
     WHERE j.property_id = $1::uuid AND c.kind NOT IN ('question', 'near_miss') AND c.duplicate_of IS NULL ORDER BY c.number`,
    [propertyId],
  );

/** Every step that was handed out on the job, with the revision that was frozen then; the newest package first. */
export const workedSteps = (reader: Reader, jobId: string): Promise<{ stepKey: string; revisionId: string }[]> =>
  reader.rows(
    `SELECT DISTINCT ON (s.step_key) s.step_key AS "stepKey", s.revision_id::text AS "revisionId" FROM package_step s JOIN site_package k ON k.id = s.package_id JOIN site_record r ON r.id = k.record_id
       JOIN visit v ON v.id = r.visit_id WHERE v.job_id = $1::uuid ORDER BY s.step_key, k.issued_at DESC, s.position`,
    [jobId],
  );

export const entryKeys = (reader: Reader, jobId: string): Promise<{ id: string; stepKey: string }[]> =>
  reader.rows(
    `SELECT e.id::text AS id, e.step_key AS "stepKey" FROM step_entry e JOIN site_record r ON r.id = e.record_id JOIN visit v ON v.id = r.visit_id WHERE v.job_id = $1::uuid`,
    [jobId],
  );

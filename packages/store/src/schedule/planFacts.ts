// What a plan of some days needs to know of their visits besides the world of the search.
import type { PropertyFacts } from '@backsight/domain/shared/facts';
import type { RequirementRule } from '@backsight/domain/schedule/requirements';
import type { Reader } from '../database.ts';

/** Minutes count from midnight of `day` on the wall clock. `notBefore`, `notAfter`: bounds of the start between a device and its pick-up. */
export type PlanVisitRow = {
  id: string;
  version: number;
  jobId: string;
  jobNumber: number;
  kind: string;
  crewSize: 1 | 2;
  state: string;
  day: string;
  start: number;
  minutes: number;
  startsAt: string;
  address: string;
  town: string;
  lat: number;
  lon: number;
  first: string;
  second: string | null;
  observers: string[];
  kit: string[];
  reportMinutes: number;
  promisedFrom: number | null;
  promisedUntil: number | null;
  locked: boolean;
  /** Somebody from outside comes too, at a time of his own. */
  outside: boolean;
  notBefore: number | null;
  notAfter: number | null;
  propertyId: string;
  partyIds: string[];
  /** Who did the inspection that a callback visit looks at again. */
  firstPeople: string[];
  objectionOn: string | null;
  facts: PropertyFacts;
  services: string[];
  rulesId: string;
};

const WALL = `v.starts_at AT TIME ZONE $3`;
const START = `(extract(hour FROM ${WALL}) * 60 + extract(minute FROM ${WALL}))::int`;
const BY = (instant: string): string => `(${START} + extract(epoch FROM ${instant} - v.starts_at) / 60)::int`;
const person = (place: string): string => `(SELECT a.person_id::text FROM assignment a WHERE a.visit_id = v.id AND a.place = '${place}')`;

const VISITS = `SELECT v.id::text AS id, v.version, j.id::text AS "jobId", j.number AS "jobNumber", v.kind, v.crew_size AS "crewSize", v.state, (${WALL})::date::text AS day,
  ${START} AS start, (extract(epoch FROM v.ends_at - v.starts_at) / 60)::int AS minutes, to_char(v.starts_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') AS "startsAt", p.address, p.town, p.lat, p.lon,
  ${person('first')} AS first, ${person('second')} AS second, ARRAY(SELECT o.person_id::text FROM observer o WHERE o.visit_id = v.id ORDER BY 1) AS observers,
  ARRAY(SELECT k.kind FROM visit_kit k WHERE k.visit_id = v.id ORDER BY k.kind) AS kit, v.report_minutes AS "reportMinutes",
  ${BY('v.promised_from')} AS "promisedFrom", ${BY('v.promised_until')} AS "promisedUntil", v.locked_at IS NOT NULL AS locked,
  EXISTS (SELECT FROM provider_visit o WHERE o.visit_id = v.id) AS outside,
  CASE WHEN k.after_hours > 0 THEN (SELECT ${BY(`max(i.ends_at) + k.after_hours * interval '1 hour'`)} FROM visit i WHERE i.job_id = v.job_id AND i.kind = 'inspection' AND i.live) END AS "notBefore",
  CASE WHEN v.kind = 'inspection' THEN (SELECT ${BY(`min(u.starts_at - uk.after_hours * interval '1 hour') - (v.ends_at - v.starts_at)`)} FROM visit u JOIN visit_kind uk ON uk.key = u.kind AND uk.after_hours > 0
    WHERE u.job_id = v.job_id AND u.state IN ('held', 'booked')) END AS "notAfter",
  j.property_id::text AS "propertyId", ARRAY(SELECT DISTINCT y.party_id::text FROM job_party y WHERE y.job_id = j.id) AS "partyIds",
  ARRAY(SELECT DISTINCT a.person_id::text FROM visit f JOIN assignment a ON a.visit_id = f.id WHERE j.kind = 'callback_visit' AND f.job_id = j.parent_id AND f.state IN ('on_site', 'done') ORDER BY 1) AS "firstPeople",
  j.objection_on::text AS "objectionOn", j.facts, ARRAY(SELECT s.service_key FROM job_service s WHERE s.job_id = j.id ORDER BY 1) AS services, j.rules_id::text AS "rulesId"
  FROM visit v JOIN job j ON j.id = v.job_id JOIN property p ON p.id = j.property_id JOIN visit_kind k ON k.key = v.kind
  WHERE v.live AND (v.state <> 'held' OR v.hold_ends_at > $4::timestamptz) AND v.starts_at >= $1::timestamptz AND v.starts_at < $2::timestamptz
    AND ($5::uuid IS NULL OR j.office_id = $5::uuid) ORDER BY v.starts_at, v.id`;

/** Visits that begin between two instants; holds whose time is over are none. */
export const findPlanVisits = (
  reader: Reader,
  q: { from: Date; until: Date; zone: string; now: Date; officeId: string },
): Promise<PlanVisitRow[]> =>
  reader.rows<PlanVisitRow>(VISITS, [q.from.toISOString(), q.until.toISOString(), q.zone, q.now.toISOString(), q.officeId]);

/** Of these jobs, those whose access is agreed. */
export async function findAgreedAccess(reader: Reader, jobIds: readonly string[]): Promise<Set<string>> {
  const rows = await reader.rows<{ id: string }>(
    `SELECT job_id::text AS id FROM job_need WHERE job_id = ANY($1::uuid[]) AND kind = 'access' AND state = 'settled'`,
    [[...new Set(jobIds)]],
  );
  return new Set(rows.map(({ id }) => id));
}

/** What the rules demand under which jobs were priced, by the id of the rules. */
export async function findRequirements(reader: Reader, rulesIds: readonly string[]): Promise<Map<string, RequirementRule[]>> {
  const rows = await reader.rows<{ id: string; rules: RequirementRule[] }>(
    `SELECT id::text AS id, body->'requirements' AS rules FROM booking_rules WHERE id = ANY($1::uuid[])`,
    [[...new Set(rulesIds)]],
  );
  return new Map(rows.map(({ id, rules }) => [id, rules]));
}

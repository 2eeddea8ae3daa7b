// The week of the people: what each has on each day, and what is about to stand in the way.
import type { Reader } from '../database.ts';

export type WeekRows = {
  visits: {
    id: string;
    jobId: string;
    jobNumber: number;
    kindName: string;
    state: string;
    day: string;
    startsAt: string;
    endsAt: string;
    expectedAt: string | null;
    address: string;
    town: string;
    crew: string[];
    observers: string[];
    openNeeds: number;
    reportMinutes: number;
    version: number;
    holdEndsAt: string | null;
    promisedFrom: string | null;
    promisedUntil: string | null;
    locked: boolean;
  }[];
  absences: { personId: string; startsAt: string; endsAt: string; fromDay: string; untilDay: string; state: 'asked' | 'approved' }[];
  exceptions: { personId: string; day: string; start: number | null; end: number | null }[];
  /** Last days of the home inspector license and of qualifications; of several in a row the last. */
  lapses: { personId: string; what: string; lastDay: string }[];
};

const iso = (column: string): string => `to_char(${column} AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"')`;
const list = (select: string): string => `(SELECT coalesce(json_agg(t), '[]') FROM (${select}) t)`;

const WEEK = `SELECT
  ${list(`SELECT v.id, v.job_id AS "jobId", j.number AS "jobNumber", k.name AS "kindName", v.state, (v.starts_at AT TIME ZONE $3)::date::text AS day, ${iso('v.starts_at')} AS "startsAt", ${iso('v.ends_at')} AS "endsAt", ${iso('v.expected_at')} AS "expectedAt", p.address, p.town, v.report_minutes AS "reportMinutes",
    v.version, ${iso('v.hold_ends_at')} AS "holdEndsAt", ${iso('v.promised_from')} AS "promisedFrom", ${iso('v.promised_until')} AS "promisedUntil", v.locked_at IS NOT NULL AS locked,
    (SELECT coalesce(json_agg(a.person_id ORDER BY a.place), '[]') FROM assignment a WHERE a.visit_id = v.id) AS crew, (SELECT coalesce(json_agg(o.person_id), '[]') FROM observer o WHERE o.visit_id = v.id) AS observers,
    (SELECT count(*)::int FROM job_need n WHERE n.job_id = j.id AND n.state IN ('open', 'asked', 'refused')) AS "openNeeds"
    FROM visit v JOIN job j ON j.id = v.job_id JOIN property p ON p.id = j.property_id JOIN visit_kind k ON k.key = v.kind
    WHERE v.live AND (v.state <> 'held' OR v.hold_ends_at > $4::timestamptz) AND v.starts_at < $2::timestamptz AND v.ends_at > $1::timestamptz AND v.starts_at > $1::timestamptz - interval '1 day' ORDER BY v.starts_at, v.id`)} AS visits,
  ${list(`SELECT a.person_id AS "personId", ${iso('a.starts_at')} AS "startsAt", ${iso('a.ends_at')} AS "endsAt", (a.starts_at AT TIME ZONE $3)::date::text AS "fromDay", ((a.ends_at - interval '1 millisecond') AT TIME ZONE $3)::date::text AS "untilDay", a.state
    FROM absence a WHERE a.withdrawn_at IS NULL AND a.state <> 'refused' AND a.starts_at < $2::timestamptz AND a.ends_at > $1::timestamptz ORDER BY a.starts_at`)} AS absences,
  ${list(`SELECT x.person_id AS "personId", x.day::text AS day, x.start_minute AS start, x.end_minute AS "end" FROM work_exception x WHERE x.withdrawn_at IS NULL AND x.day >= ($1::timestamptz AT TIME ZONE $3)::date AND x.day <= ($2::timestamptz AT TIME ZONE $3)::date`)} AS exceptions,
  ${list(`SELECT t."personId", t.what, t."lastDay" FROM (
    SELECT l.person_id AS "personId", 'license' AS what, max(l.until_day)::text AS "lastDay" FROM license l WHERE l.kind = 'home_inspector' GROUP BY l.person_id
    UNION ALL SELECT q.person_id, k.name, max(coalesce(q.until_day, 'infinity'))::text FROM person_qualification q JOIN qualification_kind k ON k.key = q.kind GROUP BY q.person_id, k.name) t
    WHERE t."lastDay" <> 'infinity' AND t."lastDay" < (($2::timestamptz AT TIME ZONE $3)::date + 30)::text ORDER BY 3, 2`)} AS lapses`;

/** Visits, absences (asked for and approved) and days with other hours between two instants, and what lapses within 30 days after, or has lapsed. Reasons of absences stay private. */
export async function findWeek(reader: Reader, q: { from: Date; until: Date; zone: string; now: Date }): Promise<WeekRows> {
  const [row] = await reader.rows<WeekRows>(WEEK, [q.from.toISOString(), q.until.toISOString(), q.zone, q.now.toISOString()]);
  return row!;
}

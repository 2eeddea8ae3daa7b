// What the search for starts needs to know, in one round trip: people with papers and hours, visits, absences, pairing rules, kit.
import type { Reader } from '../database.ts';
import { TRAVEL, type TravelRows } from './travelData.ts';

type Span = { day: string; start: number; end: number };
export type WorldRows = {
  people: {
    id: string;
    name: string;
    lat: number;
    lon: number;
    trainee: boolean;
    mayLead: boolean;
    startedOn: string;
    endedOn: string | null;
    recentMinutes: number;
    licenses: { kind: string; from: string; until: string }[];
    qualifications: { key: string; from: string; until: string | null }[];
    patterns: { weekday: number; start: number; end: number; from: string; until: string | null }[];
    /** Days with other hours than usual; null = off. */
    exceptions: { day: string; start: number | null; end: number | null }[];
    bars: string[];
    /** Size of each kind of kit that is worn. */
    sizes: Record<string, string>;
    missing: { revision: string; afterDay: string }[];
  }[];
  visits: (Span & { id: string; lat: number; lon: number; crew: string[]; observers: string[]; kit: string[]; reportMinutes: number })[];
  /** Where outside providers are: their part of each visit. */
  outside: (Span & { providerId: string; visitId: string })[];
  /** What the rule pack in force says of people in training, as it is stored. */
  traineeRule: unknown;
  absences: { personId: string; fromDay: string; fromMinute: number; untilDay: string; untilMinute: number }[];
  pairRules: { kind: 'never_together' | 'must_together'; a: string; b: string }[];
  /** Kinds of kit with the pieces in service; of a kind with a least length, those of its whole kind that have it. */
  kit: {
    kind: string;
    name: string;
    calibrated: boolean;
    carriedByAll: boolean;
    worn: boolean;
    of: string | null;
    items: { calibratedUntil: string | null; size: string | null }[];
  }[];
  closedDays: string[];
  /** Closed for weather. */
  closures: {
    id: string;
    fromDay: string;
    fromMinute: number;
    untilDay: string;
    untilMinute: number;
    towns: string[];
    outdoorOnly: boolean;
    reason: string;
  }[];
  travel: TravelRows;
};

/** Writing is looked at some days around those asked: what waits from before, and what may wait for later. */
export const WRITING_REACH_DAYS = 7;
const REACH = `interval '${WRITING_REACH_DAYS} days'`;

const list = (select: string): string => `(SELECT coalesce(json_agg(t), '[]') FROM (${select}) t)`;
const MINUTE = (column: string): string =>
  `(extract(hour FROM ${column} AT TIME ZONE $3) * 60 + extract(minute FROM ${column} AT TIME ZONE $3))::int`;
const DAY = (column: string): string => `(${column} AT TIME ZONE $3)::date::text`;
/** A hold whose time is over binds nobody any more, whether or not it has been ended yet. */
const BINDS = `v.live AND (v.state <> 'held' OR v.hold_ends_at > $4::timestamptz)`;

const PEOPLE = `SELECT p.id, p.name, p.home_lat AS lat, p.home_lon AS lon, p.trainee, p.may_lead AS "mayLead", p.started_on::text AS "startedOn", p.ended_on::text AS "endedOn",
  CASE WHEN $8::boolean THEN (SELECT coalesce(sum(extract(epoch FROM v.ends_at - v.starts_at) / 60 + CASE WHEN a.place = 'first' THEN v.report_minutes ELSE 0 END), 0)::int
     FROM assignment a JOIN visit v ON v.id = a.visit_id WHERE a.person_id = p.id AND a.live AND a.starts_at > $4::timestamptz - interval '28 days' AND a.starts_at <= $4::timestamptz) ELSE 0 END AS "recentMinutes",
  ${list(`SELECT l.kind, l.from_day::text AS "from", l.until_day::text AS until FROM license l WHERE l.person_id = p.id ORDER BY l.from_day`)} AS licenses,
  ${list(`SELECT q.kind AS key, q.from_day::text AS "from", q.until_day::text AS until FROM person_qualification q WHERE q.person_id = p.id`)} AS qualifications,
  ${list(`SELECT w.weekday, w.start_minute AS start, w.end_minute AS "end", w.from_day::text AS "from", w.until_day::text AS until FROM work_pattern w WHERE w.person_id = p.id`)} AS patterns,
  ${list(`SELECT x.day::text AS day, x.start_minute AS start, x.end_minute AS "end" FROM work_exception x WHERE x.person_id = p.id AND x.withdrawn_at IS NULL AND x.day >= (($1::timestamptz - ${REACH}) AT TIME ZONE $3)::date AND x.day <= (($2::timestamptz + ${REACH}) AT TIME ZONE $3)::date`)} AS exceptions,
  (SELECT coalesce(json_agg(b.id), '[]') FROM (SELECT property_id AS id, person_id FROM person_bar UNION ALL SELECT party_id, person_id FROM person_party_bar) b WHERE b.person_id = p.id) AS bars,
  (SELECT coalesce(json_object_agg(z.kind, z.size), '{}') FROM person_size z WHERE z.person_id = p.id) AS sizes,
  ${list(`SELECT pr.title || ', revision ' || r.number AS revision, ${DAY('r.acknowledge_by')} AS "afterDay" FROM in_force_period f JOIN procedure_revision r ON r.id = f.revision_id JOIN procedure pr ON pr.id = r.procedure_id
     WHERE r.asks AND (f.until_at IS NULL OR f.until_at > $1::timestamptz) AND r.acknowledge_by < $2::timestamptz AND NOT EXISTS (SELECT FROM acknowledgement k WHERE k.revision_id = r.id AND k.person_id = p.id)
     ORDER BY pr.position, r.number`)} AS missing
  FROM person p WHERE EXISTS (SELECT FROM person_role r WHERE r.person_id = p.id AND r.role = 'inspector') AND (p.ended_on IS NULL OR p.ended_on >= ($1::timestamptz AT TIME ZONE $3)::date)
    AND ($5::uuid IS NULL OR p.office_id = $5::uuid) ORDER BY p.id`;

/** How far back visits matter: for who went together, which only a ranking asks. */
const BACK = `CASE WHEN $8::boolean THEN interval '13 days' ELSE ${REACH} END`;

/** No visit takes more than a day (visit_times): said of its start as well, so that its index finds those few among years of visits. */
const VISITS = `SELECT v.id, ${DAY('v.starts_at')} AS day, ${MINUTE('v.starts_at')} AS start, ${MINUTE('v.starts_at')} + ceil(extract(epoch FROM v.ends_at - v.starts_at) / 60)::int AS "end", p.lat, p.lon,
  (SELECT coalesce(json_agg(a.person_id ORDER BY a.place), '[]') FROM assignment a WHERE a.visit_id = v.id) AS crew,
  (SELECT coalesce(json_agg(o.person_id), '[]') FROM observer o WHERE o.visit_id = v.id) AS observers,
  (SELECT coalesce(json_agg(k.kind), '[]') FROM visit_kit k WHERE k.visit_id = v.id) AS kit,
  CASE WHEN EXISTS (SELECT FROM report r WHERE r.job_id = v.job_id) THEN 0 ELSE v.report_minutes END AS "reportMinutes"
  FROM visit v JOIN job j ON j.id = v.job_id JOIN property p ON p.id = j.property_id
  WHERE ${BINDS} AND v.starts_at < $2::timestamptz + ${REACH} AND v.ends_at > $1::timestamptz - ${BACK} AND v.starts_at > $1::timestamptz - ${BACK} - interval '1 day' ORDER BY v.starts_at, v.id`;

const WORLD = `SELECT ${list(PEOPLE)} AS people, ${list(VISITS)} AS visits,
  ${list(`SELECT a.person_id AS "personId", ${DAY('a.starts_at')} AS "fromDay", ${MINUTE('a.starts_at')} AS "fromMinute", ${DAY('a.ends_at')} AS "untilDay", ${MINUTE('a.ends_at')} AS "untilMinute"
     FROM absence a WHERE a.withdrawn_at IS NULL AND a.state = 'approved' AND a.starts_at < $2::timestamptz + ${REACH} AND a.ends_at > $1::timestamptz - ${REACH}`)} AS absences,
  ${list(`SELECT kind, a_id AS a, b_id AS b FROM pairing_rule WHERE ended_on IS NULL OR ended_on > ($1::timestamptz AT TIME ZONE $3)::date`)} AS "pairRules",
  ${list(`SELECT k.key AS kind, k.name, k.calibrated, k.carried_by_all AS "carriedByAll", k.worn, k.of_kind AS of, (SELECT coalesce(json_agg(json_build_object('calibratedUntil', i.calibrated_until::text, 'size', i.size)), '[]') FROM kit_item i
     WHERE i.kind = coalesce(k.of_kind, k.key) AND (k.min_feet IS NULL OR i.ladder_feet >= k.min_feet) AND (i.ended_on IS NULL OR i.ended_on > ($1::timestamptz AT TIME ZONE $3)::date)) AS items FROM kit_kind k`)} AS kit,
  (SELECT coalesce(json_agg(day::text), '[]') FROM closed_day WHERE day >= (($1::timestamptz - ${REACH}) AT TIME ZONE $3)::date) AS "closedDays",
  ${list(`SELECT c.id, ${DAY('c.starts_at')} AS "fromDay", ${MINUTE('c.starts_at')} AS "fromMinute", ${DAY('c.ends_at')} AS "untilDay", ${MINUTE('c.ends_at')} AS "untilMinute", coalesce(c.towns, '{}') AS towns, c.outdoor_only AS "outdoorOnly", c.reason
     FROM weather_closure c WHERE c.lifted_at IS NULL AND c.starts_at < $2::timestamptz AND c.ends_at > $1::timestamptz ORDER BY c.starts_at`)} AS closures,
  ${list(`SELECT o.provider_id AS "providerId", o.visit_id AS "visitId", ${DAY('o.at')} AS day, ${MINUTE('o.at')} AS start, ${MINUTE('o.at')} + o.minutes AS "end"
     FROM (SELECT w.*, w.starts_at + w.offset_minutes * interval '1 minute' AS at FROM provider_visit w) o JOIN visit v ON v.id = o.visit_id WHERE ${BINDS} AND o.at < $2::timestamptz AND o.at > $1::timestamptz - interval '1 day'`)} AS outside,
  (SELECT r.body->'traineeSecond' FROM rule_pack r JOIN office f ON f.jurisdiction = r.jurisdiction WHERE f.id = $5::uuid AND r.version_day <= ($4::timestamptz AT TIME ZONE $3)::date ORDER BY r.version_day DESC LIMIT 1) AS "traineeRule",
  ${TRAVEL} AS travel`;

/** Rows for the days between two instants, and the driving times among the places of those days and `place`. Minutes are those of the wall clock in `zone`; visits, absences and hours reach `WRITING_REACH_DAYS` around. `ranked`: with the recent minutes of people, else 0, and visits of 13 days back, for who went together. */
export async function findWorld(
  reader: Reader,
  q: {
    from: Date;
    until: Date;
    zone: string;
    now: Date;
    officeId: string | null;
    place: { lat: number; lon: number } | null;
    ranked: boolean;
  },
): Promise<WorldRows> {
  const [row] = await reader.rows<WorldRows>(WORLD, [
    q.from.toISOString(),
    q.until.toISOString(),
    q.zone,
    q.now.toISOString(),
    q.officeId,
    q.place?.lat ?? null,
    q.place?.lon ?? null,
    q.ranked,
  ]);
  return row!;
}

// The lists of the homes about people and kit: who asks to be away, whose visits need somebody else, which days need more kit than there is.
import type { HomeRow } from '../home.ts';
import { MOST_LINES } from '../home/sql.ts';
import type { Reader } from '../database.ts';

const AWAY = `a.withdrawn_at IS NULL AND a.state = 'approved'`;

const LISTS = {
  absencesAsked: `SELECT a.id::text AS id, 'person' AS "thingKind", p.id::text AS "thingId", p.name AS title,
      'Asks to be away until ' || to_char((a.ends_at - interval '1 minute') AT TIME ZONE $2, 'Dy, Mon FMDD') AS detail, a.starts_at AS at, NULL::text AS day
    FROM absence a JOIN person p ON p.id = a.person_id WHERE a.state = 'asked' AND a.withdrawn_at IS NULL AND a.ends_at > $1::timestamptz AND $2 <> ''`,
  visitsOfAbsent: `SELECT v.id::text AS id, 'job' AS "thingKind", j.id::text AS "thingId", h.address || ', ' || h.town AS title,
      string_agg(DISTINCT p.name, ', ') || ' away: somebody else or another time is needed' AS detail, v.starts_at AS at, NULL::text AS day
    FROM visit v JOIN job j ON j.id = v.job_id JOIN property h ON h.id = j.property_id JOIN assignment g ON g.visit_id = v.id JOIN person p ON p.id = g.person_id
    JOIN absence a ON a.person_id = p.id AND ${AWAY} AND a.starts_at < v.ends_at AND a.ends_at > v.starts_at
    WHERE v.state = 'booked' AND v.starts_at > $1::timestamptz AND $2 <> '' GROUP BY v.id, j.id, h.id`,
  // Counted as in booking: a piece of at least some length is one of its kind too, what is worn is counted by person and size.
  kitShort: `SELECT short.kind || short.size AS id, 'kit' AS "thingKind", short.kind AS "thingId", short.name || short.size AS title,
      CASE max(short.needed) WHEN 1 THEN '1 is needed, ' ELSE max(short.needed) || ' are needed, ' END || min(short.pieces) || ' in service'
        || CASE count(*) WHEN 1 THEN '' ELSE ', on ' || count(*) || ' days' END AS detail, NULL::timestamptz AS at, min(short.day)::text AS day
    FROM (SELECT need.kind, k.name, CASE WHEN NOT k.worn THEN '' ELSE coalesce(', size ' || need.worn, ', no size on file') END AS size, need.day, need.needed,
        (SELECT count(*)::int FROM kit_item i WHERE i.kind = coalesce(k.of_kind, k.key) AND (k.min_feet IS NULL OR i.ladder_feet >= k.min_feet) AND (NOT k.worn OR i.size = need.worn)
          AND (i.ended_on IS NULL OR i.ended_on > need.day) AND (NOT k.calibrated OR i.calibrated_until >= need.day)) AS pieces
      FROM (SELECT pool.key AS kind, s.size AS worn, v.day, count(DISTINCT CASE WHEN k.worn THEN a.person_id::text ELSE v.crew END)::int AS needed
        FROM (SELECT v.id, (v.starts_at AT TIME ZONE $2)::date AS day, (SELECT string_agg(a.person_id::text, ' ' ORDER BY a.person_id) FROM assignment a WHERE a.visit_id = v.id) AS crew
          FROM visit v WHERE v.state = 'booked' AND v.starts_at > $1::timestamptz) v
        JOIN visit_kit n ON n.visit_id = v.id JOIN kit_kind k ON k.key = n.kind AND NOT k.carried_by_all JOIN kit_kind pool ON pool.key IN (k.key, k.of_kind)
        JOIN assignment a ON a.visit_id = v.id LEFT JOIN person_size s ON k.worn AND s.person_id = a.person_id AND s.kind = k.key
        GROUP BY pool.key, s.size, v.day) need JOIN kit_kind k ON k.key = need.kind) short
    WHERE short.needed > short.pieces GROUP BY short.kind, short.size, short.name`,
} as const;

export type PeopleListKey = keyof typeof LISTS;
export const PEOPLE_LISTS = Object.keys(LISTS) as PeopleListKey[];

/** The first lines of one list, soonest first; `all` of each line is how many there are. */
export const peopleList = (reader: Reader, key: PeopleListKey, ask: { now: string; zone: string }): Promise<HomeRow[]> =>
  reader.rows<HomeRow>(`SELECT *, count(*) OVER ()::int AS "all" FROM (${LISTS[key]}) listed ORDER BY at, day, title LIMIT ${MOST_LINES}`, [
    ask.now,
    ask.zone,
  ]);

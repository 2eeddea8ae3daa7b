// The lists of the homes about working time: who asks to be away, whose visits need somebody else.
import type { HomeRow } from '../home.ts';
import type { Reader } from '../database.ts';

const LIMIT = 8;
const AWAY = `a.withdrawn_at IS NULL AND a.state = 'approved'`;

const LISTS = {
  absencesAsked: `SELECT a.id::text AS id, 'person' AS "thingKind", p.id::text AS "thingId", p.name AS title,
      'Asks to be away until ' || to_char(a.ends_at AT TIME ZONE $2, 'Dy, Mon FMDD') AS detail, a.starts_at AS at, NULL::text AS day
    FROM absence a JOIN person p ON p.id = a.person_id WHERE a.state = 'asked' AND a.withdrawn_at IS NULL AND a.ends_at > $1::timestamptz AND $2 <> ''`,
  visitsOfAbsent: `SELECT v.id::text AS id, 'job' AS "thingKind", j.id::text AS "thingId", h.address || ', ' || h.town AS title,
      string_agg(DISTINCT p.name, ', ') || ' away: somebody else or another time is needed' AS detail, v.starts_at AS at, NULL::text AS day
    FROM visit v JOIN job j ON j.id = v.job_id JOIN property h ON h.id = j.property_id JOIN assignment g ON g.visit_id = v.id JOIN person p ON p.id = g.person_id
    JOIN absence a ON a.person_id = p.id AND ${AWAY} AND a.starts_at < v.ends_at AND a.ends_at > v.starts_at
    WHERE v.state = 'booked' AND v.starts_at > $1::timestamptz AND $2 <> '' GROUP BY v.id, j.id, h.id`,
} as const;

export type PeopleListKey = keyof typeof LISTS;
export const PEOPLE_LISTS = Object.keys(LISTS) as PeopleListKey[];

/** The first lines of one list, soonest first; `all` of each line is how many there are. */
export const peopleList = (reader: Reader, key: PeopleListKey, ask: { now: string; zone: string }): Promise<HomeRow[]> =>
  reader.rows<HomeRow>(`SELECT *, count(*) OVER ()::int AS "all" FROM (${LISTS[key]}) listed ORDER BY at, title LIMIT ${LIMIT}`, [
    ask.now,
    ask.zone,
  ]);

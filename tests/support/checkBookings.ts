// Looks at what is booked, straight from the tables: who could not have been where he is said to be, and what kit was given out twice.
import { DateTime } from 'luxon';
import { estimatedTravel } from '@backsight/scheduling/travel';
import type { TestService } from './database.ts';

type Place = { lat: number; lon: number };
type Stop = Place & { visitId: string; personId: string; name: string; startsAt: Date; endsAt: Date; homeLat: number; homeLon: number };

const STOPS = `SELECT v.id::text AS "visitId", p.id::text AS "personId", p.name, v.starts_at AS "startsAt", v.ends_at AS "endsAt", pr.lat, pr.lon, p.home_lat AS "homeLat", p.home_lon AS "homeLon"
  FROM visit v JOIN job j ON j.id = v.job_id JOIN property pr ON pr.id = j.property_id
  JOIN (SELECT visit_id, person_id FROM assignment UNION SELECT visit_id, person_id FROM observer) a ON a.visit_id = v.id JOIN person p ON p.id = a.person_id
  WHERE v.live ORDER BY p.id, v.starts_at`;
const PATTERNS = `SELECT person_id::text AS "personId", weekday, start_minute AS start, end_minute AS "end" FROM work_pattern`;
const KIT = `SELECT k.kind, (v.starts_at AT TIME ZONE $1)::date::text AS day, count(DISTINCT (SELECT string_agg(a.person_id::text, '|' ORDER BY a.person_id) FROM assignment a WHERE a.visit_id = v.id))::int AS crews,
    (SELECT count(*)::int FROM kit_item i WHERE i.kind = coalesce(kk.of_kind, kk.key) AND (kk.min_feet IS NULL OR i.ladder_feet >= kk.min_feet) AND i.ended_on IS NULL AND (NOT kk.calibrated OR i.calibrated_until >= (v.starts_at AT TIME ZONE $1)::date)) AS pieces
  FROM visit_kit k JOIN visit v ON v.id = k.visit_id AND v.live JOIN kit_kind kk ON kk.key = k.kind AND NOT kk.carried_by_all GROUP BY k.kind, kk.key, kk.of_kind, kk.min_feet, kk.calibrated, 2, pieces`;

/** Sentences about travel, working hours and kit that do not hold; none when every booking can be kept. */
export async function brokenBookings(service: TestService, zone: string): Promise<string[]> {
  const stops = await service.database.read.rows<Stop>(STOPS);
  const patterns = await service.database.read.rows<{ personId: string; weekday: number; start: number; end: number }>(PATTERNS);
  const kit = await service.database.read.rows<{ kind: string; day: string; crews: number; pieces: number }>(KIT, [zone]);
  const days = new Map<string, Stop[]>();
  for (const stop of stops) {
    const key = `${stop.personId} ${DateTime.fromJSDate(stop.startsAt, { zone }).toISODate()}`;
    days.set(key, [...(days.get(key) ?? []), stop]);
  }
  const hoursOf = (personId: string, weekday: number) => patterns.find((one) => one.personId === personId && one.weekday === weekday);
  return [
    ...[...days.values()].flatMap((list) => brokenDay(list, zone, hoursOf)),
    ...kit
      .filter(({ crews, pieces }) => crews > pieces)
      .map(({ kind, day, crews, pieces }) => `${kind} on ${day}: ${crews} pairs, ${pieces} pieces`),
  ];
}

function brokenDay(
  list: readonly Stop[],
  zone: string,
  hoursOf: (id: string, weekday: number) => { start: number; end: number } | undefined,
): string[] {
  const local = (at: Date) => DateTime.fromJSDate(at, { zone });
  const minute = (at: Date) => local(at).hour * 60 + local(at).minute;
  const [first, last] = [list[0]!, list.at(-1)!];
  const home = { lat: first.homeLat, lon: first.homeLon };
  const hours = hoursOf(first.personId, local(first.startsAt).weekday);
  if (!hours) return [`${first.name} does not work that day`];
  const late: string[] = [];
  if (hours.start + estimatedTravel.minutes(home, first) > minute(first.startsAt))
    late.push(`${first.name} cannot be at the first visit in time`);
  if (minute(last.endsAt) + estimatedTravel.minutes(last, home) > hours.end) late.push(`${first.name} is home after hours`);
  list.slice(1).forEach((next, at) => {
    const before = list[at]!;
    if (minute(before.endsAt) + estimatedTravel.minutes(before, next) > minute(next.startsAt))
      late.push(`${first.name} is late from one visit to the next`);
  });
  return late;
}

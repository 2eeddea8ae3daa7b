// Answers about recorded drives and the fits to them.
import type { Answer } from '../answer.ts';
import { all, by, one, type Row, type Tables } from '../tables.ts';
import { sortBy } from '../when.ts';
import { zoneOfJob } from './fees.ts';

const placeOf = (t: Tables, visit: Row): Row => one(t, 'property', one(t, 'job', visit.jobId)!.propertyId)!;

function driveVisit(t: Tables, [id]: readonly string[]) {
  const v = one(t, 'visit', id);
  if (!v?.live) return [];
  const { address, lat, lon } = placeOf(t, v);
  const members = [...by(t, 'assignment', 'visitId', id), ...by(t, 'observer', 'visitId', id)].map(({ personId }) => personId);
  return [{ id: v.id, state: v.state, startsAt: v.startsAt, zone: zoneOfJob(t, one(t, 'job', v.jobId)!), members, address, lat, lon }];
}

function origin(t: Tables, [visitId, personId, startsAt, dayStart]: readonly any[]) {
  const before = by(t, 'assignment', 'personId', personId)
    .filter((a) => a.live && a.visitId !== visitId && a.startsAt < new Date(startsAt) && a.startsAt >= new Date(dayStart))
    .toSorted((a, b) => b.startsAt.getTime() - a.startsAt.getTime())[0];
  const person = one(t, 'person', personId)!;
  const { lat, lon } = before ? placeOf(t, one(t, 'visit', before.visitId)!) : { lat: person.homeLat, lon: person.homeLon };
  return [{ lat, lon }];
}

/** The newest mark of each visit, person and kind. */
function standing(rows: readonly Row[]): Row[] {
  const newest = new Map<string, Row>();
  for (const mark of sortBy(
    rows,
    ({ recordedAt }) => recordedAt.getTime(),
    ({ id }) => id,
  ))
    newest.set(`${mark.visitId}|${mark.personId}|${mark.kind}`, mark);
  return [...newest.values()];
}

const marks = (t: Tables, [visitIds]: readonly any[]) =>
  standing((visitIds as string[]).flatMap((id) => by(t, 'driveMark', 'visitId', id))).map(({ visitId, personId, kind, at }) => ({
    visitId,
    personId,
    kind,
    at,
  }));

function drives(t: Tables, [from, until]: readonly any[]) {
  const counting = standing(all(t, 'driveMark'));
  return counting
    .filter(({ kind, at }) => kind === 'set_out' && at >= new Date(from) && at < new Date(until))
    .flatMap((s) => {
      const place = placeOf(t, one(t, 'visit', s.visitId)!);
      const there = counting.find((a) => a.kind === 'arrived' && a.visitId === s.visitId && a.personId === s.personId);
      const end: Date | undefined = there?.at ?? one(t, 'siteRecord', s.visitId, 'visitId')?.openedAt;
      if (place.placeBy !== 'exact' || !end) return [];
      return [
        { fromLat: s.fromLat, fromLon: s.fromLon, toLat: place.lat, toLon: place.lon, minutes: (end.getTime() - s.at.getTime()) / 60_000 },
      ];
    });
}

export const TRAVEL_ANSWERS: readonly Answer[] = [
  { marks: ['AS members', 'JOIN office o'], reply: driveVisit },
  { marks: ['origin ORDER BY rank'], reply: origin },
  { marks: ['FROM drive_mark WHERE visit_id = ANY'], reply: marks },
  { marks: ['WITH mark AS', 'FROM mark WHERE kind'], reply: drives },
  { marks: ['FROM travel_setup WHERE id = 1'], reply: (t) => all(t, 'travelSetup') },
];

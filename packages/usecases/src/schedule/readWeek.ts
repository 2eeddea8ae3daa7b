// The week of the people: visits, absences and hours of each on each day, licenses that lapse, acknowledgements that are missing.
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { daysFrom, wallTime } from '@backsight/domain/schedule/wallClock';
import { addDays } from '@backsight/scheduling/time';
import type { PersonInput } from '@backsight/scheduling/world';
import type { Reader } from '@backsight/store/database';
import { findCatalog } from '@backsight/store/jobs/catalog';
import { missingAcknowledgements } from '@backsight/store/procedures';
import { findWeek, type WeekRows } from '@backsight/store/schedule/week';
import { loadWorld, startOfDay } from './steps/loadWorld.ts';

const DAYS = 7;

/** Seven days from `from`. */
export async function readWeek(reader: Reader, now: Date, from: string) {
  const catalog = await findCatalog(reader, now);
  if (!catalog) return refuse('not-set-up', { what: 'office' });
  const { office } = catalog;
  const days = daysFrom(from, DAYS);
  const world = await loadWorld(reader, { from, to: days.at(-1)!, now, officeId: office.id, zone: office.zone });
  const rows = await findWeek(reader, {
    from: startOfDay(from, office.zone),
    until: startOfDay(addDays(from, DAYS), office.zone),
    zone: office.zone,
    now,
  });
  const asked = await missingAcknowledgements(reader, now);
  const missing = (id: string) =>
    asked
      .filter(({ personId }) => personId === id)
      .map((m) => ({ revision: `${m.procedureTitle}, revision ${m.number}`, afterDay: wallTime(m.acknowledgeBy, office.zone).day }));
  return accept({
    from,
    zone: office.zone,
    days,
    people: world.people.map((person) => weekOf(person, missing(person.id), rows, days)).sort((a, b) => a.name.localeCompare(b.name)),
  });
}

function weekOf(person: PersonInput, missing: { revision: string; afterDay: string }[], rows: WeekRows, days: readonly string[]) {
  const license = rows.licenses.find(({ personId, kind }) => personId === person.id && kind === 'home_inspector');
  return {
    id: person.id,
    name: person.name,
    trainee: person.trainee,
    licenseLapsesOn: license?.untilDay ?? null,
    missing,
    days: days.map((day) => dayOf(person, rows, day)),
  };
}

function dayOf(person: PersonInput, rows: WeekRows, day: string) {
  const goes = rows.visits.filter((visit) => visit.day === day && (visit.crew.includes(person.id) || visit.observers.includes(person.id)));
  const visits = goes.map(({ crew, observers, day: _day, ...visit }) => ({
    ...visit,
    place: placeOf(person.id, crew, observers),
    withIds: crew.filter((id) => id !== person.id),
  }));
  const absent = rows.absences
    .filter((one) => one.personId === person.id && one.fromDay <= day && day <= one.untilDay)
    .map(({ startsAt, endsAt }) => ({ startsAt, endsAt }));
  return { day, hours: person.shifts.filter((shift) => shift.day === day).map(({ start, end }) => ({ start, end })), visits, absent };
}

const placeOf = (id: string, crew: readonly string[], observers: readonly string[]): 'first' | 'second' | 'observer' =>
  observers.includes(id) ? 'observer' : crew[0] === id ? 'first' : 'second';

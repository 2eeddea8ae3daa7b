// The week of the people: visits with the drives between, absences and hours of each on each day, papers that lapse, acknowledgements that are missing.
import { decides } from '@backsight/domain/people/absences';
import { accept, refuse } from '@backsight/domain/shared/outcome';
import { daysFrom, wallTime } from '@backsight/domain/schedule/wallClock';
import { addDays } from '@backsight/scheduling/time';
import type { Travel } from '@backsight/scheduling/travel';
import { travelOf } from '@backsight/scheduling/travelModel';
import type { Busy, PersonInput, World } from '@backsight/scheduling/world';
import { flowOf, writingDays } from '@backsight/scheduling/writing';
import type { Reader } from '@backsight/store/database';
import { findOffice } from '@backsight/store/jobs/catalog';
import { missingAcknowledgements } from '@backsight/store/procedures';
import { findWeek, type WeekRows } from '@backsight/store/schedule/week';
import type { Actor } from '../run.ts';
import { onlyOwn } from '../jobs/steps/onlyOwn.ts';
import { loadWorld, startOfDay } from './steps/loadWorld.ts';

const DAYS = 7;

/** What the days of everybody are made of. `sees` tells whether an absence that is only asked for may show. */
type Parts = {
  rows: WeekRows;
  days: readonly string[];
  world: World;
  /** Visits by person and day. */
  goes: ReadonlyMap<string, WeekRows['visits']>;
  busy: ReadonlyMap<string, Busy>;
  travel: Travel;
  sees: (personId: string) => boolean;
};

/** Seven days from `from`, as `actor` may see them: an inspector his own. */
export async function readWeek(reader: Reader, now: Date, from: string, actor: Actor) {
  const office = await findOffice(reader);
  if (!office) return refuse('not-set-up', { what: 'office' });
  const days = daysFrom(from, DAYS);
  const [world, rows, asked] = await Promise.all([
    loadWorld(reader, { from, to: days.at(-1)!, now, officeId: office.id, zone: office.zone }),
    findWeek(reader, {
      from: startOfDay(from, office.zone),
      until: startOfDay(addDays(from, DAYS), office.zone),
      zone: office.zone,
      now,
    }),
    missingAcknowledgements(reader, now),
  ]);
  const missing = (id: string) =>
    asked
      .filter(({ personId }) => personId === id)
      .map((m) => ({ revision: `${m.procedureTitle}, revision ${m.number}`, afterDay: wallTime(m.acknowledgeBy, office.zone).day }));
  const only = onlyOwn(actor);
  const sees = (personId: string) => actor.kind === 'person' && (actor.id === personId || decides(actor.roles));
  const parts: Parts = {
    rows,
    days,
    world,
    goes: goesOf(rows.visits),
    busy: new Map(world.busy.map((one) => [one.id, one])),
    travel: travelOf(world.travel),
    sees,
  };
  return accept({
    from,
    zone: office.zone,
    roadService: world.travel?.service ?? false,
    days,
    people: world.people
      .filter(({ id }) => only === null || id === only)
      .map((person) => weekOf(person, missing(person.id), parts))
      .sort((a, b) => a.name.localeCompare(b.name)),
  });
}

const keyOf = (personId: string, day: string): string => `${personId} ${day}`;

function goesOf(visits: WeekRows['visits']): Map<string, WeekRows['visits']> {
  const goes = new Map<string, WeekRows['visits']>();
  for (const visit of visits)
    for (const id of new Set([...visit.crew, ...visit.observers])) {
      const key = keyOf(id, visit.day);
      const known = goes.get(key);
      if (known) known.push(visit);
      else goes.set(key, [visit]);
    }
  return goes;
}

function weekOf(person: PersonInput, missing: { revision: string; afterDay: string }[], parts: Parts) {
  const lapses = parts.rows.lapses.filter(({ personId }) => personId === person.id);
  return {
    id: person.id,
    name: person.name,
    trainee: person.trainee,
    mayLead: person.mayLead,
    lapses: lapses.map(({ what, lastDay }) => ({ what, lastDay })),
    missing,
    days: daysOf(person, parts),
  };
}

function dayOf(person: PersonInput, { rows, goes: all, busy, travel, sees }: Parts, day: string) {
  const goes = all.get(keyOf(person.id, day)) ?? [];
  const absent = rows.absences
    .filter(
      (one) => one.personId === person.id && one.fromDay <= day && day <= one.untilDay && (one.state === 'approved' || sees(person.id)),
    )
    .map(({ startsAt, endsAt, state }) => ({ startsAt, endsAt, state }));
  const other = rows.exceptions.find((one) => one.personId === person.id && one.day === day);
  return {
    day,
    hours: person.shifts.filter((shift) => shift.day === day).map(({ start, end }) => ({ start, end })),
    exception: other ? { start: other.start, end: other.end } : null,
    visits: goes.map((visit) => visitOf(person.id, visit)),
    legs: legsOf(
      person,
      goes.flatMap(({ id }) => busy.get(id) ?? []),
      travel,
    ),
    absent,
  };
}

/** The visit as one of its people has it. */
function visitOf(personId: string, { crew, observers, day: _day, reportMinutes, ...visit }: WeekRows['visits'][number]) {
  return {
    ...visit,
    place: placeOf(personId, crew, observers),
    withIds: crew.filter((id) => id !== personId),
    first: crew[0]!,
    second: crew[1] ?? null,
    writingMinutes: crew[0] === personId ? reportMinutes : 0,
  };
}

/** With what is written on which day: after the last visit, or by the end of the next working day, as the search counts on it. */
function daysOf(person: PersonInput, parts: Parts) {
  const flow = new Map(flowOf(writingDays(parts.world, person, parts.travel)).map((one) => [one.day, one]));
  return parts.days.map((day) => {
    const { written = 0, late = 0 } = flow.get(day) ?? {};
    return Object.assign(dayOf(person, parts, day), { writing: { minutes: written, late } });
  });
}

/** The drives of one day: from the base to the first visit, between visits, and back to the base. */
function legsOf(person: PersonInput, visits: readonly Busy[], travel: Travel) {
  if (visits.length === 0) return [];
  const base = { id: null, place: person.base };
  const stops = [base, ...visits.toSorted((a, b) => a.start - b.start), base];
  return stops.slice(1).map((to, at) => {
    const from = stops[at]!;
    return { from: from.id, to: to.id, minutes: travel.minutes(from.place, to.place), source: travel.sourceOf(from.place, to.place) };
  });
}

const placeOf = (id: string, crew: readonly string[], observers: readonly string[]): 'first' | 'second' | 'observer' =>
  observers.includes(id) ? 'observer' : crew[0] === id ? 'first' : 'second';

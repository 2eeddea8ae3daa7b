// The world arranged for searching: free gaps per day and person, pairing rules per pair, days gone together.
import { freeGaps } from './gaps.ts';
import type { Commitment, Gap } from './gaps.ts';
import { nobodyGoesFirst, pairRuleBroken } from './rules.ts';
import { dayNumber } from './time.ts';
import type { Day } from './time.ts';
import type { Place, Travel } from './travel.ts';
import { travelOf } from './travelModel.ts';
import { toQuarters, WEIGHTS } from './weights.ts';
import { overtimeLimitOf } from './overtime.ts';
import type { Busy, PersonInput, World } from './world.ts';
import { flowOf, roomOf, writingDays } from './writing.ts';
import type { WritingRoom } from './writing.ts';

/** Why two people may not form a pair, as bits. */
export const PAIR = { allowed: 0, nobodyFirst: 1, ruleBroken: 2 } as const;

/** A free gap of a person; the person and the places at its ends are known by their positions in the index. */
export type OpenGap = { gap: Gap; person: number; prevAt: number; nextAt: number };

export type DayRow = {
  day: Day;
  visits: Busy[];
  /** In the order of the people. */
  gaps: OpenGap[];
  /** Whether a person may be sent that day whatever is asked; found when first asked for. */
  able: (boolean | undefined)[];
};

export type WorldIndex = {
  world: World;
  travel: Travel;
  /** Sorted by id; a person is known below by his position here. */
  people: PersonInput[];
  /** Where gaps begin and end. */
  places: readonly Place[];
  days: Map<Day, DayRow>;
  /** Bits of PAIR at a * people.length + b. */
  pairing: Uint8Array;
  /** Cost of each person's load of the last four weeks. */
  fairness: number[];
  /** Day numbers on which a pair goes together, by a * people.length + b with a < b. */
  together: Map<number, number[]>;
  /** Whether any report is still to be written. */
  writes: boolean;
  /** The room for writing of a person by day, found when it is first asked for. */
  room: (Map<Day, WritingRoom> | undefined)[];
};

/** Commitments of every person on one day. */
function commitmentsOn(world: World, visits: readonly Busy[], day: Day): Map<string, Commitment[]> {
  const byPerson = new Map<string, Commitment[]>(world.people.map((person) => [person.id, []]));
  for (const visit of visits) {
    for (const id of [...visit.personIds, ...(visit.observerIds ?? [])]) byPerson.get(id)?.push(visit);
  }
  for (const person of world.people) {
    for (const off of person.off) {
      if (off.day === day) byPerson.get(person.id)?.push({ start: off.start, end: off.end, place: person.base });
    }
  }
  return byPerson;
}

/** The position of a place in a growing list. */
type Places = (place: Place) => number;

function numberPlaces(places: Place[]): Places {
  const known = new Map<Place, number>();
  return (place) => {
    const before = known.get(place);
    if (before !== undefined) return before;
    known.set(place, places.length);
    return places.push(place) - 1;
  };
}

function dayRow(world: World, people: readonly PersonInput[], visits: Busy[], day: Day, travel: Travel, placeAt: Places): DayRow {
  const commitments = commitmentsOn(world, visits, day);
  const gaps = people.flatMap((one, person) => {
    const shifts = one.shifts.filter((shift) => shift.day === day);
    const free = freeGaps(shifts, one.base, commitments.get(one.id) ?? [], overtimeLimitOf(world, one), travel);
    return free.map((gap): OpenGap => ({ gap, person, prevAt: placeAt(gap.prev), nextAt: placeAt(gap.next) }));
  });
  return { day, visits, gaps, able: [] };
}

function pairingOf(world: World, people: readonly PersonInput[]): Uint8Array {
  const bits = new Uint8Array(people.length * people.length);
  people.forEach((a, i) => {
    people.forEach((b, j) => {
      const broken = pairRuleBroken(world.pairRules, a.id, b.id) ? PAIR.ruleBroken : PAIR.allowed;
      bits[i * people.length + j] = broken | (nobodyGoesFirst(a, b) ? PAIR.nobodyFirst : PAIR.allowed);
    });
  });
  return bits;
}

function togetherDays(world: World, people: readonly PersonInput[]): Map<number, number[]> {
  const position = new Map(people.map((person, at) => [person.id, at]));
  const days = new Map<number, number[]>();
  const note = (a: string | undefined, b: string | undefined, day: Day) => {
    const i = position.get(a ?? '');
    const j = position.get(b ?? '');
    if (i === undefined || j === undefined) return;
    const key = Math.min(i, j) * people.length + Math.max(i, j);
    days.set(key, [...(days.get(key) ?? []), dayNumber(day)]);
  };
  for (const one of world.together ?? []) note(one.a, one.b, one.day);
  for (const visit of world.busy) note(visit.personIds[0], visit.personIds[1], visit.day);
  return days;
}

function fairnessOf(people: readonly PersonInput[]): number[] {
  const licensed = people.filter((person) => person.licensedUntil !== null);
  const least = Math.min(...licensed.map((person) => person.recentMinutes));
  return people.map((person) => toQuarters(WEIGHTS.fairness * Math.max(0, person.recentMinutes - least)));
}

/** Arranges the world for the given days; worth keeping while the same world is asked more than once. */
export function indexWorld(world: World, days: readonly Day[], travel: Travel = travelOf(world.travel)): WorldIndex {
  const people = [...world.people].sort((a, b) => (a.id < b.id ? -1 : 1));
  const visits = new Map<Day, Busy[]>(days.map((day) => [day, []]));
  for (const visit of world.busy) visits.get(visit.day)?.push(visit);
  const places: Place[] = [];
  const placeAt = numberPlaces(places);
  return {
    world,
    travel,
    people,
    places,
    days: new Map(days.map((day) => [day, dayRow(world, people, visits.get(day) ?? [], day, travel, placeAt)])),
    pairing: pairingOf(world, people),
    fairness: fairnessOf(people),
    together: togetherDays(world, people),
    writes: world.busy.some(({ reportMinutes }) => (reportMinutes ?? 0) > 0),
    room: [],
  };
}

/** The room for writing of the person at a position on a day of his; undefined on a day without hours and visits. */
export function roomOn(index: WorldIndex, person: number, day: Day): WritingRoom | undefined {
  index.room[person] ??= new Map(
    roomOf(flowOf(writingDays(index.world, index.people[person]!, index.travel))).map((room) => [room.day, room]),
  );
  return index.room[person].get(day);
}

/** Cost of sending the same two again soon; none when they already go together that day. `a` < `b`. */
export function rotationCost(index: WorldIndex, a: number, b: number, day: number): number {
  const days = index.together.get(a * index.people.length + b);
  if (!days || days.includes(day)) return 0;
  const nearest = Math.min(...days.map((one) => Math.abs(one - day)));
  return Math.max(0, WEIGHTS.rotation - nearest);
}

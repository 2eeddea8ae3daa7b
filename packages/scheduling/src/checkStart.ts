// The rules checked once more for one chosen start, straight from the bookings: what the booking's transaction asks.
import { kitShort, poolName } from './kit.ts';
import { outsideSaid, providerAt } from './outside.ts';
import { overtimeLimitOf } from './overtime.ts';
import { inOrder, mayGoFirst, missingKeys, nobodyGoesFirst, pairRuleBroken, personRules } from './rules.ts';
import type { RuleCode } from './rules.ts';
import { latestRoofStart } from './searchDay.ts';
import { sayDay, sayMinutes, sayTime } from './time.ts';
import type { Minute } from './time.ts';
import type { Travel } from './travel.ts';
import { travelOf } from './travelModel.ts';
import type { Busy, Choice, PersonInput, Shift, StartQuery, World } from './world.ts';
import { weatherSaid } from './weather.ts';
import { flowOf, overdue, writingDays } from './writing.ts';

export type Violation = { code: RuleCode; person?: string; sentence: string };

type Visit = { world: World; query: StartQuery; travel: Travel; day: string; start: Minute; end: Minute; crew: readonly string[] };

const violation = (code: RuleCode, person: PersonInput, sentence: string): Violation => ({ code, person: person.id, sentence });

type Taken = { start: Minute; end: Minute; place: Busy['place'] };

const overlaps = (one: { start: Minute; end: Minute }, visit: Visit): boolean => one.start < visit.end && visit.start < one.end;

const takes = (busy: Busy, id: string): boolean => busy.personIds.includes(id) || (busy.observerIds?.includes(id) ?? false);

function takenOf({ world, day }: Visit, person: PersonInput): Taken[] {
  const visits: Taken[] = world.busy.filter((busy) => busy.day === day && takes(busy, person.id));
  const away = person.off.filter((off) => off.day === day).map((off) => ({ start: off.start, end: off.end, place: person.base }));
  return [...visits, ...away].sort((a, b) => a.start - b.start || a.end - b.end);
}

/** Driving between the visit and what comes just before and after it; from and to the base within the working hours. */
function drivingViolations(visit: Visit, person: PersonInput, shift: Shift): Violation[] {
  const { world, travel, query, start, end } = visit;
  const taken = takenOf(visit, person);
  const home = person.base;
  const before = taken
    .filter((one) => one.end <= start)
    .reduce<Taken | null>((last, one) => (last && last.end > one.end ? last : one), null);
  const after = taken.find((one) => one.start >= end) ?? null;
  const prev = before && before.end > shift.start ? before : null;
  const next = after && after.start < shift.end ? after : null;
  const fromHome = Math.max(shift.start, before ? before.end + travel.minutes(before.place, home) : 0);
  const homeBy = Math.min(shift.end + overtimeLimitOf(world, person), after ? after.start - travel.minutes(home, after.place) : Infinity);
  const early = start - travel.minutes(prev?.place ?? home, query.place) - (prev?.end ?? fromHome);
  const late = (next?.start ?? homeBy) - end - travel.minutes(query.place, next?.place ?? home);
  const { name } = person;
  const list: Violation[] = [];
  if (early < 0 && prev) list.push(violation('travel', person, `${name} would come from the visit before ${sayMinutes(-early)} late.`));
  if (early < 0 && !prev)
    list.push(violation('outside-hours', person, `${name} would have to set out ${sayMinutes(-early)} before working hours begin.`));
  if (late < 0 && next)
    list.push(violation('travel', person, `${name} would be ${sayMinutes(-late)} late at what follows at ${sayTime(next.start)}.`));
  if (late < 0 && !next) list.push(violation('outside-hours', person, `${name} would be home ${sayMinutes(-late)} later than allowed.`));
  return list;
}

function timeViolations(visit: Visit, person: PersonInput): Violation[] {
  const { world, day, start, end } = visit;
  const away = person.off.find((off) => off.day === day && overlaps(off, visit));
  if (away) return [violation('absent', person, `${person.name} is away at that time: ${away.why}.`)];
  const other = world.busy.find((busy) => busy.day === day && takes(busy, person.id) && overlaps(busy, visit));
  if (other)
    return [violation('overlap', person, `${person.name} is on another visit from ${sayTime(other.start)} to ${sayTime(other.end)}.`)];
  const shifts = person.shifts.filter((shift) => shift.day === day && shift.start <= start && end <= shift.end);
  const hours = `from ${sayTime(start)} to ${sayTime(end)} on ${sayDay(day)}`;
  if (shifts.length === 0) return [violation('outside-hours', person, `${person.name} does not work ${hours}.`)];
  const tries = shifts.map((shift) => drivingViolations(visit, person, shift));
  return tries.find((one) => one.length === 0) ?? tries[0]!;
}

function personViolations(visit: Visit, person: PersonInput): Violation[] {
  const broken = personRules.filter((rule) => rule.breaks(person, visit.query, visit.day));
  const said = broken.map((rule) => violation(rule.code, person, rule.say(person, visit.query, visit.day)));
  return [...said, ...timeViolations(visit, person)];
}

/** The pair as such: who goes first, and the pairing rules. */
function pairViolations({ world }: Visit, first: PersonInput, second: PersonInput | null): Violation[] {
  const list: Violation[] = [];
  if (second && nobodyGoesFirst(first, second))
    list.push({ code: 'crew', sentence: `Neither ${first.name} nor ${second.name} may go first.` });
  else if (second && !mayGoFirst(first))
    list.push({ code: 'crew', person: first.id, sentence: `${first.name} may not go first; ${inOrder(first, second)[0].name} may.` });
  if (pairRuleBroken(world.pairRules, first.id, second?.id ?? null)) {
    list.push({
      code: 'pair-rule',
      sentence: `The pairing rules do not let ${first.name} go ${second ? `with ${second.name}` : 'alone'}.`,
    });
  }
  return list;
}

/** The visit may make no report late that is not late already: each is done by the end of the writer's next working day. */
function writingViolations(visit: Visit, crew: readonly PersonInput[]): Violation[] {
  const { world, query, travel, day, start, end } = visit;
  const { place, kit, reportMinutes = 0 } = query;
  if (reportMinutes === 0 && !world.busy.some((busy) => (busy.reportMinutes ?? 0) > 0)) return [];
  const placed: Busy = { id: '', personIds: [...visit.crew], day, start, end, place, kit, reportMinutes };
  const booked = { ...world, busy: [...world.busy, placed] };
  return crew.flatMap((person) => {
    const before = overdue(flowOf(writingDays(world, person, travel)));
    const late = overdue(flowOf(writingDays(booked, person, travel))).find((one, at) => one.minutes > (before[at]?.minutes ?? 0));
    if (!late) return [];
    const what = person.id === visit.crew[0] ? 'the report of this visit and those that wait already' : 'the reports that wait already';
    return [violation('writing', person, `${person.name} would not have written ${what} by the end of ${sayDay(late.day)}.`)];
  });
}

/** What the crew needs between them: qualifications, kit, daylight. */
function jobViolations(visit: Visit, crew: readonly PersonInput[]): Violation[] {
  const { world, query, day, start } = visit;
  const list: Violation[] = [];
  const missing = query.needAny.filter((key) => crew.every((person) => missingKeys(person, [key], day).length > 0));
  if (missing.length > 0) list.push({ code: 'not-qualified', sentence: `None of the crew holds: ${missing.join(', ')}.` });
  const sameDay = world.busy.filter((busy) => busy.day === day);
  const short = kitShort(
    world,
    sameDay,
    query.kit,
    crew.map((person) => person.id),
    day,
  );
  if (short.length > 0)
    list.push({ code: 'kit', sentence: `No piece is left that day of: ${short.map((pool) => poolName(world, pool)).join(', ')}.` });
  const latest = latestRoofStart(query, day);
  const dark =
    latest === -Infinity ? 'There is no daylight for the roof that day.' : `With the roof the visit must start by ${sayTime(latest)}.`;
  if (start > latest) list.push({ code: 'daylight', sentence: dark });
  const closed = weatherSaid(world, query, day, start);
  if (closed.length > 0) list.push({ code: 'weather', sentence: closed.join(' ') });
  const missed = (query.outside ?? []).filter((need) => providerAt(need, day, start) === undefined);
  if (missed.length > 0) list.push({ code: 'provider', sentence: missed.map((need) => outsideSaid(need, day)).join(' ') });
  return list;
}

/**
 * What keeps somebody from coming along: he is elsewhere, away, barred, or could not get there and back in his hours. Rules
 * about licenses, pairs and kit do not concern him. `world.busy` must not hold the visit itself.
 */
export function checkObserver(world: World, query: StartQuery, at: Pick<Choice, 'day' | 'start'>, id: string): Violation[] {
  const person = world.people.find((one) => one.id === id);
  if (!person) return [{ code: 'crew', sentence: 'This person is not with the firm.' }];
  const travel = travelOf(world.travel);
  const visit: Visit = { world, query, travel, ...at, end: at.start + query.durationMinutes, crew: [] };
  const barred = personRules.filter((rule) => rule.code === 'barred' && rule.breaks(person, query, at.day));
  return [...barred.map((rule) => violation(rule.code, person, rule.say(person, query, at.day))), ...timeViolations(visit, person)];
}

/**
 * Every hard rule that the choice breaks, empty when it may be booked. Reads the bookings directly and shares no index
 * with the search. `world.busy` must not hold the visit itself when it is being moved. The window and grid that a caller
 * asked for are wishes, not rules, and are not checked. Throws RangeError when the day's UTC offset is missing for roof work.
 */
export function checkStart(world: World, query: StartQuery, choice: Choice, travel: Travel = travelOf(world.travel)): Violation[] {
  const ids = choice.second === null ? [choice.first] : [choice.first, choice.second];
  const crew = ids.map((id) => world.people.find((person) => person.id === id));
  if (crew.some((person) => person === undefined)) return [{ code: 'crew', sentence: 'A person of the crew is not with the firm.' }];
  const size = query.crewSize === 2 ? 'The visit takes two people.' : 'The visit takes one person.';
  if (new Set(ids).size !== query.crewSize) return [{ code: 'crew', sentence: size }];
  const known = crew.filter((person) => person !== undefined);
  const visit: Visit = { world, query, travel, day: choice.day, start: choice.start, end: choice.start + query.durationMinutes, crew: ids };
  const persons = known.flatMap((person) => personViolations(visit, person));
  const apart = [...persons, ...pairViolations(visit, known[0]!, known[1] ?? null), ...jobViolations(visit, known)];
  return apart.length > 0 ? apart : writingViolations(visit, known);
}

// Why a day is not offered: the binding limits, found by leaving each out in turn, and the nearest thing possible.
import { candidatesOf, mayCome } from './candidates.ts';
import { bestCrews } from './crews.ts';
import { optionOf } from './options.ts';
import { queryProblem } from './queryProblem.ts';
import { personRules } from './rules.ts';
import { relaxations } from './relaxations.ts';
import { searchOf } from './searchDay.ts';
import type { SearchDay } from './searchDay.ts';
import { sayDay } from './time.ts';
import { travelAround } from './travel.ts';
import type { StartOption, StartQuery, World } from './world.ts';
import { indexWorld } from './worldIndex.ts';

export type Explanation = {
  /** Empty when the day has a start. */
  reasons: string[];
  /** The best start of the cheapest single change that would make the day possible. */
  nearest?: { relaxed: string; option: StartOption };
};

const count = (number: number, one: string, many: string): string => (number === 1 ? `1 ${one}` : `${number} ${many}`);

const NO_GAP = 'no gap long enough for the visit and its driving';

/** How many people fall away where, when no single limit explains the day. */
function funnel(search: SearchDay): string {
  const { only } = search.query;
  const { day } = search.row;
  const asked = search.index.people.map((person, at) => ({ person, at })).filter(({ person }) => only?.includes(person.id) ?? true);
  const people = asked.map(({ person }) => person);
  const withGap = new Set(search.row.gaps.map(({ person }) => person));
  const hasGap = asked.map(({ at }) => withGap.has(at));
  const could = new Set(candidatesOf(search).map((one) => one.person));
  const usable = new Set(asked.flatMap(({ at }, n) => (could.has(at) ? [n] : [])));
  const works = people.map((person) => person.shifts.some((shift) => shift.day === day));
  const allowed = people.map((person) => mayCome(search, person));
  const tally = (test: (at: number) => boolean) => people.filter((_person, at) => test(at)).length;
  const parts = [
    [tally((at) => !works[at]), 'does not work', 'do not work'],
    [tally((at) => works[at]! && !allowed[at]), 'may not be sent', 'may not be sent'],
    [tally((at) => works[at]! && allowed[at]! && !hasGap[at]), 'is away or booked all day', 'are away or booked all day'],
    [tally((at) => works[at]! && allowed[at]! && hasGap[at]! && !usable.has(at)), `has ${NO_GAP}`, `have ${NO_GAP}`],
    [usable.size, 'could come', 'could come'],
  ] as const;
  const said = parts.filter(([number]) => number > 0).map(([number, one, many]) => count(number, one, many));
  if (!only && works.every((one) => !one)) return 'Nobody works on that day.';
  const need =
    usable.size >= search.query.crewSize ? '; no two of them at the same time' : search.query.crewSize === 2 ? '; two are needed' : '';
  return `Of ${count(people.length, 'person', 'people')} ${said.join(', ')}${need}.`;
}

/** What keeps each of the people asked about away that day; how many fall away where when it is only their times. */
function named(search: SearchDay): string[] {
  const { query, row, index } = search;
  const could = new Set(candidatesOf(search).map((one) => one.person));
  const said = index.people.flatMap((person, at) => {
    if (!query.only!.includes(person.id) || could.has(at)) return [];
    const broken = personRules.filter((rule) => rule.breaks(person, query, row.day)).map((rule) => rule.say(person, query, row.day));
    if (broken.length > 0) return broken;
    if (!person.shifts.some((shift) => shift.day === row.day)) return [`${person.name} does not work on ${sayDay(row.day)}.`];
    return [row.gaps.every((gap) => gap.person !== at) ? `${person.name} is away or booked all day.` : `${person.name} has ${NO_GAP}.`];
  });
  return said.length > 0 ? said : [funnel(search)];
}

const relaxedStart = (search: SearchDay): StartOption | null => {
  const [pick] = bestCrews(search);
  return pick ? optionOf(search, pick) : null;
};

/** The binding limits of a day that has no start. */
export function reasonsOf(search: SearchDay): string[] {
  const { people } = search.index;
  const { notBefore } = search.query;
  if (notBefore && search.row.day < notBefore.day) return [`${sayDay(search.row.day)} is past.`];
  if (people.length === 0) return ['The firm has nobody to send yet.'];
  const binding = relaxations.filter((one) => bestCrews(one.relax(search)).length > 0).flatMap((one) => one.say(search));
  if (binding.length > 0) return binding;
  return search.query.only === undefined ? [funnel(search)] : named(search);
}

function nearestOf(search: SearchDay): Explanation['nearest'] {
  const found = relaxations.flatMap(({ offer, relax }) => {
    if (offer === null) return [];
    const option = relaxedStart(relax(search));
    return option === null ? [] : [{ relaxed: `Possible if ${offer}`, option }];
  });
  return found.reduce<Explanation['nearest']>((best, one) => (best && best.option.score <= one.option.score ? best : one), undefined);
}

/** Why `day` has no start for this question; no reasons when it has one. Errors as `findStarts`. */
export function explainDay(world: World, query: StartQuery, day: string, index = indexWorld(world, [day])): Explanation {
  const problem = queryProblem(query);
  if (problem !== null) return { reasons: [problem] };
  const search = searchOf(index, query, day, travelAround(index.travel, query.place, index.places));
  if (bestCrews(search).length > 0) return { reasons: [] };
  const nearest = nearestOf(search);
  return { reasons: reasonsOf(search), ...(nearest && { nearest }) };
}

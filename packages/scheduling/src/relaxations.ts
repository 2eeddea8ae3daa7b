// One limit at a time left out, to prove which of them keeps a day from being offered.
import { candidatesOf, mayCome } from './candidates.ts';
import { carriers, inService, piecesOf, poolName } from './kit.ts';
import { outsideSaid, providerAt } from './outside.ts';
import { personRules } from './rules.ts';
import type { RuleCode } from './rules.ts';
import { latestRoofStart } from './searchDay.ts';
import type { SearchDay } from './searchDay.ts';
import { sayTime } from './time.ts';
import { weatherSaid } from './weather.ts';
import type { StartQuery } from './world.ts';

type Relaxation = {
  /** What is left out, as the end of "possible if ...". Null when nobody may decide so (a license). */
  offer: string | null;
  /** The same day without the limit. */
  relax: (search: SearchDay) => SearchDay;
  /** Sentences naming the limit as binding; called only when the relaxed day has a start. */
  say: (search: SearchDay) => string[];
};

const waive =
  (code: RuleCode) =>
  (search: SearchDay): SearchDay => ({
    ...search,
    waived: new Set([...search.waived, code]),
    daylightStart: code === 'daylight' ? Infinity : search.daylightStart,
    kit: code === 'kit' ? null : search.kit,
    outside: code === 'provider' ? null : search.outside,
    weather: code === 'weather' ? null : search.weather,
  });

const ask =
  (change: (query: StartQuery) => Partial<StartQuery>) =>
  (search: SearchDay): SearchDay => {
    const query = { ...search.query, ...change(search.query) };
    return {
      ...search,
      query,
      earliest: query.earliest < search.query.earliest ? Math.max(query.earliest, pastUntil(search)) : search.earliest,
    };
  };

const pastUntil = ({ query, row, earliest }: SearchDay): number => {
  if (earliest === Infinity) return Infinity;
  return query.notBefore?.day === row.day ? query.notBefore.minute : 0;
};

/** What each person says who would fit into the day but for this one rule. */
const personsSay =
  (code: RuleCode) =>
  (search: SearchDay): string[] => {
    const rule = personRules.find((one) => one.code === code)!;
    const { query, row, index } = search;
    const usable = new Set(candidatesOf(waive(code)(search)).map((one) => one.person));
    return index.people
      .filter((person, at) => usable.has(at) && !mayCome(search, person) && rule.breaks(person, query, row.day))
      .map((person) => rule.say(person, query, row.day));
  };

const qualificationSaid = ({ query }: SearchDay): string[] => [
  `Nobody free holds all that the job needs: ${[...new Set([...query.needEach, ...query.needAny])].join(', ')}.`,
];

const firstSaid = ({ query }: SearchDay): string[] => [
  query.crewSize === 2 ? 'Nobody who may go first is free.' : 'Only people in training are free, and they do not go alone.',
];

const pairRuleSaid = ({ query }: SearchDay): string[] => [
  `The people who are free may not go ${query.crewSize === 2 ? 'together' : 'alone'} under the pairing rules.`,
];

const daylightSaid = (search: SearchDay): string[] => {
  const latest = latestRoofStart(search.query, search.row.day);
  if (latest === -Infinity) return ['There is no daylight for the roof that day.'];
  const sunset = latest + (search.query.roofWork?.offsetMinutes ?? 0);
  return [`Daylight ends at ${sayTime(sunset)}, so with the roof the visit must start by ${sayTime(latest)}; nobody is free early enough.`];
};

/** Pools that are short for those who could come, the sizes of what is worn only where somebody wears them. */
function kitSaid(search: SearchDay): string[] {
  const { index, query, row } = search;
  const { world } = index;
  const able = index.people.filter((person) => mayCome(search, person));
  const wanted = new Map<string, Set<string>>();
  for (const { id } of able)
    for (const { pool, holder } of piecesOf(world, query.kit, [id]))
      wanted.set(pool, (wanted.get(pool) ?? new Set()).add(world.kit.find(({ kind }) => kind === pool)?.worn === undefined ? '' : holder));
  return [...wanted].flatMap(([pool, holders]) => {
    const [name, pieces, out] = [poolName(world, pool), inService(world, pool, row.day), carriers(world, row.visits, pool).size];
    if (out + 1 <= pieces && (holders.size < 2 || query.crewSize === 1 || out + 2 <= pieces)) return [];
    if (pieces <= 0) return [`No ${name} is in service that day.`];
    return [out < pieces ? `Only one ${name} is free that day.` : `All ${pieces} of ${name} are taken that day (${out} on the road).`];
  });
}

/** The services that have nobody at any start of the day, or all of them when only their times clash with ours. */
const outsideReasons = ({ query, row }: SearchDay): string[] => {
  const needs = query.outside ?? [];
  const starts = Array.from({ length: 1440 / query.grid }, (_, n) => n * query.grid);
  const never = needs.filter((need) => !starts.some((start) => providerAt(need, row.day, start)));
  const busy = needs.filter(({ providers }) => providers.some((one) => one.busy.some(({ day }) => day === row.day)));
  return (never.length > 0 ? never : busy).map((need) => outsideSaid(need, row.day));
};

const writingSaid = ({ query }: SearchDay): string[] => [
  (query.reportMinutes ?? 0) > 0
    ? `Nobody who is free could write the report (${query.reportMinutes} min) and what waits already by the end of the next working day.`
    : 'Whoever is free needs the time for reports that wait to be written.',
];

/** In the order in which reasons are told; of equal offers the earlier is preferred. */
export const relaxations: readonly Relaxation[] = [
  { offer: null, relax: waive('weather'), say: ({ index, query, row }) => weatherSaid(index.world, query, row.day) },
  { offer: 'the roof is left for another visit', relax: waive('daylight'), say: daylightSaid },
  { offer: 'one more piece of kit is found', relax: waive('kit'), say: kitSaid },
  { offer: 'another outside provider is found', relax: waive('provider'), say: outsideReasons },
  { offer: 'the report may be ready a day later', relax: waive('writing'), say: writingSaid },
  { offer: 'the revision is acknowledged before', relax: waive('acknowledgement'), say: personsSay('acknowledgement') },
  { offer: null, relax: waive('not-licensed'), say: personsSay('not-licensed') },
  { offer: 'the service that needs a qualification is left out', relax: waive('not-qualified'), say: qualificationSaid },
  { offer: null, relax: waive('crew'), say: firstSaid },
  { offer: 'a pairing rule is lifted', relax: waive('pair-rule'), say: pairRuleSaid },
  { offer: null, relax: waive('barred'), say: personsSay('barred') },
  {
    offer: 'the hours asked for are widened',
    relax: ask(() => ({ earliest: 0, latestEnd: 1440 })),
    say: ({ query }) => [
      `Nobody is free between ${sayTime(query.earliest)} and ${sayTime(query.latestEnd)}; at other hours there is a start.`,
    ],
  },
  {
    offer: 'the visit is 30 min shorter',
    relax: ask((query) => ({ durationMinutes: Math.max(15, query.durationMinutes - 30) })),
    say: () => ['The free time is less than 30 min too short for the visit.'],
  },
];

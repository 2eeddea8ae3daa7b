// Which jobs the firm did in the two years and a half before the weeks that are played: when, by whom, at which house.
import { isBusinessDay, shiftDay } from '@backsight/domain/shared/calendar';
import { chanceOf, type Chance } from '../chance.ts';
import type { DemoCalendar } from '../calendar.ts';
import { homeOf, type Home } from '../homes.ts';
import { everybody, PEOPLE, type Person } from '../people.ts';

export type PastJob = {
  /** Counted from 0, in the order of the visits. */ n: number;
  day: string;
  hour: number;
  minutes: number;
  first: Person;
  second: Person;
  home: Home;
  /** Days between booking and visit. */ lead: number;
  chance: Chance;
};

/** Jobs a working day in the firm's usual month; with ten inspectors about 1,080 a year. */
const A_DAY = 4.9;
/** Share of the usual month, January to December: spring and autumn are busy, January is about half of May (common practice). */
const SEASON = [0.52, 0.62, 0.88, 1.04, 1.06, 1.02, 0.92, 0.92, 1, 1.02, 0.8, 0.56];
const STARTS = [8.5, 13] as const;

/** House numbers lie above those of the weeks that are played: no two houses have one address. */
const apart = (home: Home): Home => ({ ...home, address: home.address.replace(/^\d+/, (number) => String(Number(number) + 900)) });

/** The trainee joined later; married people never go together, and each of the leads leads a pair of his own. */
const SENIORS = everybody.filter(({ roles, trainee }) => roles.includes('inspector') && !trainee);
const APART = [
  [PEOPLE.bea, PEOPLE.curtis],
  [PEOPLE.ruth, PEOPLE.tomas],
];
const never = (a: Person, b: Person): boolean =>
  APART.some((two) => two.includes(a as (typeof two)[number]) && two.includes(b as (typeof two)[number]));

/** Pairs of a day: everybody in a new order, two by two; Freya is off on Fridays. */
function pairsOf(day: string, among: readonly Person[], chance: Chance): [Person, Person][] {
  const weekday = new Date(`${day}T00:00:00Z`).getUTCDay();
  const free = among.filter(({ weekdays }) => weekdays.includes(weekday));
  const drawn = free.map((one) => ({ one, at: chance.next() })).sort((a, b) => a.at - b.at);
  const pairs: [Person, Person][] = [];
  for (let at = 0; at + 1 < drawn.length; at += 2) pairs.push([drawn[at]!.one, drawn[at + 1]!.one]);
  return pairs.filter(([a, b]) => !never(a, b));
}

/** As many as fall on a day when `mean` are expected: a whole number on either side of it. */
const countAround = (mean: number, chance: Chance): number => {
  const spread = mean + (chance.next() + chance.next() - 1) * 3;
  return Math.max(0, Math.floor(spread) + (chance.odds(spread - Math.floor(spread)) ? 1 : 0));
};

const minutesFor = ({ facts }: Home): number => 90 + 15 * Math.round((facts.livingArea ?? 1600) / 600);

/** A pair stays free for visits that are played on the same days, and so does whoever is on leave then or acknowledges at the start of one. */
const SPARED = 1;
const BESIDE = SENIORS.filter((one) => ![PEOPLE.gus, PEOPLE.freya, PEOPLE.elio].includes(one as typeof PEOPLE.gus));

/**
 * Jobs from the first day to before the last one, in the order of their visits; from `sparingFrom` on, pairs are left for others. The same
 * days make the same jobs.
 */
export function pastJobs(calendar: DemoCalendar, firstDay: string, beforeDay: string, sparingFrom: string): PastJob[] {
  const chance = chanceOf(20_240_401);
  const jobs: PastJob[] = [];
  for (let day = firstDay; day < beforeDay; day = shiftDay(day, 1)) {
    if (!isBusinessDay(day, calendar.business)) continue;
    const pairs = day < sparingFrom ? pairsOf(day, SENIORS, chance) : pairsOf(day, BESIDE, chance).slice(0, -SPARED);
    const seats = pairs.flatMap((pair) => STARTS.map((hour) => ({ pair, hour })));
    const count = Math.min(seats.length, countAround(A_DAY * SEASON[Number(day.slice(5, 7)) - 1]!, chance));
    const mornings = [...seats].sort((a, b) => a.hour - b.hour).slice(0, count);
    for (const { pair, hour } of mornings) {
      const n = jobs.length;
      const own = chanceOf(500_000 + n);
      const home = apart(homeOf(n, own));
      const [first, second] = own.odds(0.5) ? pair : [pair[1], pair[0]];
      jobs.push({ n, day, hour, minutes: minutesFor(home), first, second, home, lead: own.between(2, 9), chance: own });
    }
  }
  return jobs;
}

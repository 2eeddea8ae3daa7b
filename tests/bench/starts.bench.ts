// How long the search for starts takes in one process: firms of five sizes, two and eight weeks, beside brute force in the same run.
import { checkStart } from '@backsight/scheduling/checkStart';
import { findStarts } from '@backsight/scheduling/findStarts';
import { addDays } from '@backsight/scheduling/time';
import type { Busy, PersonInput, StartQuery, World } from '@backsight/scheduling/world';
import { indexWorld, type WorldIndex } from '@backsight/scheduling/worldIndex';
import { allStarts } from '../domain/scheduling/oracle.ts';
import { TOGETHER, quantile, type Bench } from './bench.ts';
import { placeIn } from './bookedDay.ts';
import { randomOf, type Random } from './random.ts';

const FIRST = '2026-05-11';
const SKILLS = ['radon', 'infrared', 'wood_insects'];
const CAMERA = 'infrared camera';
const SIZES = [10, 40, 120, 200, 400];
const SPANS = [14, 56];
const QUERIES = TOGETHER ? 300 : 2000;
const ORACLE_QUERIES = TOGETHER ? 3 : 6;
const GOES = 3;
/** Visits booked for each person and working day. */
const LOAD = 0.3;

type StartsRow = {
  people: number;
  days: number;
  visits: number;
  /** Milliseconds. */
  build: number;
  p50: number;
  p95: number;
  p99: number;
  /** Times as fast as brute force; null where brute force was not asked. */
  ratio: number | null;
};

const weekdays = (days: number): string[] => Array.from({ length: days }, (_, n) => addDays(FIRST, n)).filter((_, n) => n % 7 < 5);

function personOf(r: Random, at: number, days: readonly string[]): PersonInput {
  return {
    id: `p${String(at).padStart(3, '0')}`,
    name: `Person ${at}`,
    base: placeIn(r),
    licensedUntil: r.chance(0.03) ? days[r.int(days.length)]! : '2027-12-15',
    qualifications: SKILLS.filter(() => r.chance(0.5)).map((key) => ({ key, until: null })),
    trainee: r.chance(0.08),
    mayLead: r.chance(0.6),
    shifts: days.map((day) => ({ day, start: 480, end: 1020 })),
    off: days.filter(() => r.chance(0.04)).map((day) => ({ day, start: 0, end: 1440, why: 'away' })),
    missingAcknowledgements: [],
    recentMinutes: r.int(3000),
  };
}

function queryOf(r: Random, days: string[]): StartQuery {
  return {
    place: placeIn(r),
    durationMinutes: 150 + r.int(7) * 15,
    reportMinutes: 75 + r.int(3) * 15,
    crewSize: 2,
    needEach: [],
    needAny: r.chance(0.4) ? [SKILLS[r.int(SKILLS.length)]!] : [],
    kit: r.chance(0.3) ? [CAMERA] : [],
    ...(r.chance(0.7) && { roofWork: { offsetMinutes: 90 } }),
    days,
    earliest: 480,
    latestEnd: 1080,
    grid: 15,
    limit: 12,
    utcOffsetMinutesByDay: Object.fromEntries(days.map((day) => [day, -300])),
  };
}

/** A firm with visits that keep every rule, writing included. */
function firm(people: number, span: number): { world: World; days: string[]; random: Random } {
  const random = randomOf(people * 1000 + span);
  const days = weekdays(span);
  const staff = Array.from({ length: people }, (_, at) => personOf(random, at, days));
  const kit = [{ kind: CAMERA, count: Math.ceil(people / 4), outOfService: [] }];
  const busy: Busy[] = [];
  const wanted = Math.round((people * days.length * LOAD) / 2);
  for (let tries = 0; busy.length < wanted && tries < wanted * 20; tries += 1) {
    const day = days[random.int(days.length)]!;
    const asked = { ...queryOf(random, [day]), kit: [], needAny: [] };
    const [first, second] = [staff[random.int(people)]!.id, staff[random.int(people)]!.id];
    const start = random.chance(0.5) ? 510 : 780;
    const ofDay = { people: staff, busy: busy.filter((one) => one.day === day), pairRules: [], kit };
    if (first === second || checkStart(ofDay, { ...asked, reportMinutes: 0 }, { day, start, first, second }).length > 0) continue;
    const { place, durationMinutes, reportMinutes } = asked;
    busy.push({
      id: `v${busy.length}`,
      personIds: [first, second],
      day,
      start,
      end: start + durationMinutes,
      place,
      kit: [],
      reportMinutes: reportMinutes!,
    });
  }
  return { world: { people: staff, busy, pairRules: [], kit }, days, random };
}

/** The fastest of a few goes at each question: what else the machine does is no property of the search. */
function timesOf(world: World, queries: readonly StartQuery[], index: WorldIndex): number[] {
  return queries.map((query) => {
    let best = Infinity;
    for (let go = 0; go < GOES; go += 1) {
      const began = performance.now();
      findStarts(world, query, index);
      best = Math.min(best, performance.now() - began);
    }
    return best;
  });
}

/** Brute force against the search on the same questions, as a quotient of their medians. */
function ratioOf(world: World, queries: readonly StartQuery[], p50: number): number {
  const times = queries.map((query) => {
    const began = performance.now();
    allStarts(world, query);
    return performance.now() - began;
  });
  return quantile(times, 0.5) / p50;
}

function measure(people: number, span: number): StartsRow {
  const { world, days, random } = firm(people, span);
  const began = performance.now();
  const index = indexWorld(world, days);
  const built = performance.now() - began;
  const queries = Array.from({ length: QUERIES }, () => queryOf(random, days));
  timesOf(world, queries.slice(0, 300), index);
  const times = timesOf(world, queries, index);
  const p50 = quantile(times, 0.5);
  const ratio = people <= 40 && span === 14 ? ratioOf(world, queries.slice(0, ORACLE_QUERIES), p50) : null;
  return {
    people,
    days: span,
    visits: world.busy.length,
    build: built,
    p50,
    p95: quantile(times, 0.95),
    p99: quantile(times, 0.99),
    ratio,
  };
}

const bench: Bench = {
  about: 'search for starts, milliseconds in one process: p50, p95, p99; ratio = brute force in the same run, times as slow',
  run: (say) => {
    for (const span of SPANS) for (const people of SIZES) say(measure(people, span));
  },
};
export default bench;

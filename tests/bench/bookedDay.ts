// A realistic day: visits booked one by one through the slot search, in the order in which people called, then planned anew.
import { findStarts } from '@backsight/scheduling/findStarts';
import { PLAN_BUDGET, PLAN_WEIGHTS } from '@backsight/scheduling/plan/defaults';
import type { PlanInput, PlanPerson, PlanVisit } from '@backsight/scheduling/plan/model';
import type { StartOption, StartQuery, World } from '@backsight/scheduling/world';
import { indexWorld } from '@backsight/scheduling/worldIndex';
import { randomOf } from './random.ts';
import type { Random } from './random.ts';

export const DAY = '2026-05-12';
const CENTRE = { lat: 44.0, lon: -89.1 };
const KM_PER_DEGREE = 111.2;
const RADIUS_KM = 38;
const SKILLS = ['radon', 'pool', 'well', 'stucco'];
const SKILL_SHARES = [0.5, 0.35, 0.25, 0.15];
const CAMERA = 'sewer camera';
const THERMAL = 'infrared camera';

export type DaySize = {
  people: number;
  visits: number;
  shortest: number;
  steps: number;
  /** Share with a promised exact start. */ exact: number;
};

export const LONG = { shortest: 150, steps: 7, exact: 0.6 };
export const SHORT = { shortest: 90, steps: 6, exact: 0.6 };

export const placeIn = (r: Random) => {
  const km = RADIUS_KM * Math.sqrt(r.unit());
  const angle = 2 * Math.PI * r.unit();
  const lat = CENTRE.lat + (km * Math.cos(angle)) / KM_PER_DEGREE;
  return { lat, lon: CENTRE.lon + (km * Math.sin(angle)) / (KM_PER_DEGREE * Math.cos((CENTRE.lat * Math.PI) / 180)) };
};

function personOf(r: Random, at: number): PlanPerson {
  const mayLead = at % 2 === 0 ? r.chance(0.8) : r.chance(0.15);
  const start = 420 + r.int(5) * 15;
  return {
    id: `p${String(at).padStart(3, '0')}`,
    name: `Person ${at}`,
    base: placeIn(r),
    licensedUntil: '2027-12-15',
    qualifications: SKILLS.filter((_, skill) => r.chance(SKILL_SHARES[skill]!)).map((key) => ({ key, until: null })),
    trainee: !mayLead && r.chance(0.2),
    mayLead,
    shifts: [{ day: DAY, start, end: start + 570 }],
    off: [],
    missingAcknowledgements: [],
    recentMinutes: r.int(3000),
    overtimeLimit: 60,
    targetMinutes: 450,
  };
}

function queryOf(r: Random, size: DaySize): StartQuery {
  const kit = r.chance(0.12) ? [CAMERA] : r.chance(0.08) ? [THERMAL] : [];
  return {
    place: placeIn(r),
    durationMinutes: size.shortest + r.int(size.steps) * 15,
    crewSize: 2,
    needEach: [],
    needAny: r.chance(0.4) ? [SKILLS[r.int(4)]!] : [],
    kit,
    ...(r.chance(0.7) && { roofWork: { offsetMinutes: 60 } }),
    days: [DAY],
    earliest: 465,
    latestEnd: 1080,
    grid: 15,
    limit: 200,
    utcOffsetMinutesByDay: { [DAY]: -300 },
  };
}

/** What the client was promised: the exact start, or its half of the day. */
function promiseOf(r: Random, size: DaySize, start: number): { from: number; until: number } {
  if (r.chance(size.exact)) return { from: start, until: start };
  return start < 690 ? { from: Math.min(450, start), until: Math.max(660, start) } : { from: 690, until: Math.max(870, start) };
}

const visitOf = (at: number, query: StartQuery, option: StartOption, promise: { from: number; until: number }): PlanVisit => ({
  id: `v${String(at).padStart(3, '0')}`,
  label: `Visit ${at}`,
  place: query.place,
  durationMinutes: query.durationMinutes,
  crewSize: 2,
  window: { from: 450, until: 1080 - query.durationMinutes },
  promise,
  needEach: query.needEach,
  needAny: query.needAny,
  kit: query.kit,
  involves: [],
  reportMinutes: 0,
  current: { first: option.first, second: option.second, start: option.start },
  announced: false,
  locked: false,
  underWay: false,
});

/** People who are already together that day, or both still free. */
function sameCrews(visits: readonly PlanVisit[], options: readonly StartOption[]): StartOption[] {
  const partner = new Map(
    visits.flatMap(({ current }) =>
      current
        ? ([
            [current.first, current.second],
            [current.second!, current.first],
          ] as const)
        : [],
    ),
  );
  return options.filter(({ first, second }) => (partner.has(first) || partner.has(second!) ? partner.get(first) === second : true));
}

export function worldOf(r: Random, size: DaySize): World & { people: PlanPerson[] } {
  const people = Array.from({ length: size.people }, (_, at) => personOf(r, at));
  const ids = people.map(({ id }) => id);
  const two = () => ({ a: ids[r.int(ids.length)]!, b: ids[r.int(ids.length)]! });
  return {
    people,
    busy: [],
    pairRules: Array.from({ length: Math.round(size.people / 10) }, () => ({ kind: 'never_together' as const, ...two() })).filter(
      (one) => one.a !== one.b,
    ),
    kit: [
      { kind: CAMERA, count: Math.max(2, Math.round(size.people / 8)), outOfService: [] },
      { kind: THERMAL, count: Math.max(1, Math.round(size.people / 12)), outOfService: [] },
    ],
    together: Array.from({ length: size.people }, () => ({ ...two(), day: `2026-05-${String(1 + r.int(11)).padStart(2, '0')}` })).filter(
      (one) => one.a !== one.b,
    ),
    overtimeLimit: 60,
  };
}

/** The day as booked; fewer visits than asked when no more fit. */
export function bookedDay(seed: number, size: DaySize): PlanInput {
  const r = randomOf(seed * 7919 + 13);
  const world = worldOf(r, size);
  const visits: PlanVisit[] = [];
  for (let tries = 0; visits.length < size.visits && tries < size.visits * 6; tries++) {
    const query = queryOf(r, size);
    const { options } = findStarts(world, query, indexWorld(world, [DAY]));
    const usable = sameCrews(visits, options);
    const option = usable[r.int(Math.min(4, usable.length))];
    if (!option) continue;
    const visit = visitOf(visits.length, query, option, promiseOf(r, size, option.start));
    visits.push(visit);
    world.busy.push({
      id: visit.id,
      personIds: [option.first, option.second!],
      day: DAY,
      start: option.start,
      end: option.end,
      place: query.place,
      kit: query.kit,
    });
  }
  return {
    day: DAY,
    people: world.people,
    visits,
    pairRules: world.pairRules,
    kit: world.kit,
    together: world.together ?? [],
    weights: PLAN_WEIGHTS,
    grid: 15,
    keepPromises: true,
    budget: PLAN_BUDGET,
    seed,
  };
}

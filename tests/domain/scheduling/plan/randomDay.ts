// Small random days that meet every rule: pairs and single visits, kit, times away, locks, visits under way, promises.
import { PLAN_BUDGET, PLAN_WEIGHTS } from '@backsight/scheduling/plan/defaults';
import type { PlanInput, PlanPerson, PlanVisit } from '@backsight/scheduling/plan/model';
import type { Busy } from '@backsight/scheduling/world';
import { randomOf } from '../randomWorld.ts';
import type { Random } from '../randomWorld.ts';

export const DAY = '2026-05-12';

const place = (r: Random) => ({ lat: 44 + (r.unit() - 0.5) * 0.4, lon: -89 + (r.unit() - 0.5) * 0.5 });

function personOf(r: Random, at: number): PlanPerson {
  const mayLead = at === 0 || r.chance(0.6);
  const start = 420 + r.int(4) * 15;
  const halves = [
    { day: DAY, start, end: 720 },
    { day: DAY, start: 780, end: 1050 },
  ];
  return {
    id: `p${at}`,
    name: `Person ${at}`,
    base: place(r),
    licensedUntil: r.chance(0.05) ? '2026-05-11' : '2027-12-15',
    qualifications: ['radon', 'well'].filter(() => r.chance(0.6)).map((key) => ({ key, until: null })),
    trainee: !mayLead && r.chance(0.3),
    mayLead,
    shifts: r.chance(0.15) ? halves : [{ day: DAY, start, end: start + 570 }],
    off: r.chance(0.15) ? [{ day: DAY, start: 720, end: 780, why: 'dentist' }] : [],
    missingAcknowledgements: r.chance(0.05) ? [{ revision: 'revision 7', afterDay: '2026-05-01' }] : [],
    recentMinutes: 0,
    ...(r.chance(0.1) && { barredFrom: ['property-1'] }),
    sizes: { respirator: r.chance(0.5) ? 'M' : 'L' },
    overtimeLimit: 30,
    targetMinutes: 300 + r.int(12) * 15,
  };
}

export type DayShape = {
  people: number;
  visits: number;
  grid: number;
  /** Most starts of a visit, in steps of the grid. */ starts: number;
};

function visitOf(r: Random, at: number, shape: DayShape): PlanVisit {
  const from = Math.ceil((480 + r.int(28) * 15) / shape.grid) * shape.grid;
  const until = from + r.int(shape.starts) * shape.grid;
  const crewSize = r.chance(0.2) ? 1 : 2;
  return {
    id: `v${at}`,
    label: `House ${at}`,
    place: place(r),
    durationMinutes: crewSize === 1 ? 30 : 90 + r.int(8) * 15,
    crewSize,
    window: { from, until },
    promise: r.chance(0.5) ? { from, until: Math.min(until, from + shape.grid) } : null,
    needEach: r.chance(0.1) ? ['radon'] : [],
    needAny: r.chance(0.3) ? ['well'] : [],
    kit: [...(r.chance(0.3) ? ['sewer camera'] : []), ...(r.chance(0.25) ? ['respirator'] : [])],
    involves: r.chance(0.2) ? ['property-1'] : [],
    reportMinutes: r.chance(0.5) ? 45 : 0,
    current: null,
    announced: false,
    locked: false,
    underWay: false,
  };
}

const [BEFORE, AFTER] = ['2026-05-11', '2026-05-13'];

/** Hours of the days before and after, on which reports may be written. */
const withDaysAround = (person: PlanPerson): PlanPerson => ({
  ...person,
  shifts: [BEFORE, ...person.shifts.map(({ day }) => day).slice(0, 1), AFTER].flatMap((day) =>
    day === DAY ? person.shifts : [{ day, start: 480, end: 960 }],
  ),
});

/** Visits of the days around with reports still to be written, and one of the day itself that is not planned. */
function aroundOf(r: Random, shape: DayShape): Busy[] {
  if (r.chance(0.4)) return [];
  return [BEFORE, AFTER, DAY].flatMap((day, n) =>
    Array.from({ length: day === DAY ? r.int(2) : 2 }, (_, at) => {
      const start = 600 + r.int(16) * 15;
      const personIds = day === DAY ? [] : [`p${(2 * at) % shape.people}`, `p${(2 * at + 1) % shape.people}`];
      const observerIds = day === DAY ? [`p${r.int(shape.people)}`] : [];
      const kit = r.chance(0.3) ? ['sewer camera'] : [];
      return { id: `a${n}${at}`, personIds, observerIds, day, start, end: start + 120, place: place(r), kit, reportMinutes: r.int(4) * 90 };
    }),
  );
}

export function randomDay(seed: number, shape: DayShape): PlanInput {
  const r = randomOf(seed);
  const people = Array.from({ length: shape.people }, (_, at) => personOf(r, at));
  const two = () => ({ a: `p${r.int(shape.people)}`, b: `p${r.int(shape.people)}` });
  const together = Array.from({ length: 2 }, () => ({ ...two(), day: '2026-05-10' })).filter((one) => one.a !== one.b);
  const never = r.chance(0.4) ? [{ kind: 'never_together' as const, ...two() }].filter((one) => one.a !== one.b) : [];
  const around = aroundOf(r, shape);
  const must = r.chance(0.1) ? [{ kind: 'must_together' as const, ...two() }].filter((one) => one.a !== one.b) : [];
  return {
    day: DAY,
    people: around.length === 0 ? people : people.map(withDaysAround),
    around,
    visits: Array.from({ length: shape.visits }, (_, at) => visitOf(r, at, shape)),
    pairRules: [...never, ...must],
    kit: [
      { kind: 'sewer camera', count: 1 + r.int(2), outOfService: [] },
      { kind: 'respirator, size M', worn: 'respirator', count: r.int(4), outOfService: [] },
      { kind: 'respirator, size L', worn: 'respirator', count: 1 + r.int(2), outOfService: [] },
    ],
    together,
    weights: { ...PLAN_WEIGHTS, leftOut: r.chance(0.2) ? 200 : 1500 },
    grid: shape.grid,
    keepPromises: r.chance(0.7),
    budget: PLAN_BUDGET,
    seed,
  };
}

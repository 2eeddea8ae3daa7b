// A day with more visits than hours: nothing is placed yet, and several visits must be refused.
import { PLAN_BUDGET, PLAN_WEIGHTS } from '@backsight/scheduling/plan/defaults';
import type { PlanInput, PlanVisit } from '@backsight/scheduling/plan/model';
import { DAY, placeIn, worldOf } from './bookedDay.ts';
import type { DaySize } from './bookedDay.ts';
import { randomOf } from './random.ts';
import type { Random } from './random.ts';

const STANDARD_STARTS = [480, 510, 540, 780, 810, 840];
const LAST_START = 1020;

function windowOf(r: Random, minutes: number): { from: number; until: number } {
  const kind = r.unit();
  const start = STANDARD_STARTS[r.int(6)]!;
  if (kind < 0.5) return { from: start, until: start + 15 };
  if (kind < 0.8) return r.chance(0.5) ? { from: 465, until: 630 } : { from: 720, until: 870 };
  return { from: 465, until: LAST_START - minutes };
}

function visitOf(r: Random, at: number, size: DaySize): PlanVisit {
  const durationMinutes = size.shortest + r.int(size.steps) * 15;
  return {
    id: `v${String(at).padStart(3, '0')}`,
    label: `Visit ${at}`,
    place: placeIn(r),
    durationMinutes,
    crewSize: 2,
    window: windowOf(r, durationMinutes),
    promise: null,
    needEach: [],
    needAny: r.chance(0.4) ? [['radon', 'pool', 'well', 'stucco'][r.int(4)]!] : [],
    kit: r.chance(0.12) ? ['sewer camera'] : r.chance(0.08) ? ['infrared camera'] : [],
    involves: [],
    reportMinutes: 0,
    current: null,
    announced: false,
    locked: false,
    underWay: false,
  };
}

export function overloadedDay(seed: number, size: DaySize): PlanInput {
  const r = randomOf(seed * 104_729 + 7);
  const world = worldOf(r, size);
  return {
    day: DAY,
    people: world.people,
    visits: Array.from({ length: size.visits }, (_, at) => visitOf(r, at, size)),
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

// A small known day for the planning tests: people of one town and plain visits, each test changing one thing.
import { PLAN_BUDGET, PLAN_WEIGHTS } from '@backsight/scheduling/plan/defaults';
import type { PlanInput, PlanPerson, PlanVisit } from '@backsight/scheduling/plan/model';
import { BIRCHMERE, person, PORT_ANSEL, TUE } from '../cast.ts';

export const planPerson = (id: string, change: Partial<PlanPerson> = {}): PlanPerson => ({
  ...person(id),
  overtimeLimit: 0,
  targetMinutes: 240,
  ...change,
});

export const planVisit = (id: string, change: Partial<PlanVisit> = {}): PlanVisit => ({
  id,
  label: `House ${id}`,
  place: PORT_ANSEL,
  durationMinutes: 180,
  crewSize: 2,
  window: { from: 540, until: 780 },
  promise: null,
  needEach: [],
  needAny: [],
  kit: [],
  involves: [],
  reportMinutes: 0,
  current: null,
  announced: false,
  locked: false,
  underWay: false,
  ...change,
});

export const planInput = (change: Partial<PlanInput> = {}): PlanInput => ({
  day: TUE,
  people: [planPerson('ann'), planPerson('ben')],
  visits: [planVisit('one')],
  pairRules: [],
  kit: [],
  together: [],
  weights: PLAN_WEIGHTS,
  grid: 15,
  keepPromises: true,
  budget: PLAN_BUDGET,
  seed: 1,
  ...change,
});

export const NEAR = BIRCHMERE;
export const FAR = PORT_ANSEL;

// Days planned one after the other: what finds no place joins the next day; visits of a day are not given up for those that join.
import { beforeAll, describe, expect, it } from 'vitest';
import { PLAN_BUDGET, PLAN_WEIGHTS } from '@backsight/scheduling/plan/defaults';
import type { PlanInput, PlanVisit } from '@backsight/scheduling/plan/model';
import { replanWeights } from '@backsight/scheduling/plan/replan';
import type { LpSolver } from '@backsight/scheduling/plan/solver';
import { planSteps, type PlanStep } from '@backsight/scheduling/planSteps';
import { estimatedTravel } from '@backsight/scheduling/travel';
import { loadSolver } from '../../../apps/api/src/adapters/solver/highs.ts';
import { BIRCHMERE, NINE, person, TUE, WED } from './cast.ts';

let solver: LpSolver;
beforeAll(async () => {
  solver = await loadSolver();
});

const SHUT = { from: 721, until: 720 };
const visit = (id: string, change: Partial<PlanVisit> = {}): PlanVisit => ({
  id,
  label: id,
  place: BIRCHMERE,
  durationMinutes: 300,
  crewSize: 2,
  window: { from: 480, until: 720 },
  promise: null,
  needEach: [],
  needAny: [],
  kit: [],
  involves: [],
  reportMinutes: 0,
  current: { first: 'ann', second: 'ben', start: NINE },
  announced: true,
  locked: false,
  underWay: false,
  ...change,
});
const joins = (id: string, urgent = false) => ({ visit: visit(id, { current: null, announced: false }), urgent });
/** Ann and Ben: one visit of five hours a day. */
const day = (on: string, visits: PlanVisit[]): PlanInput => ({
  day: on,
  people: ['ann', 'ben'].map((id) => ({ ...person(id), overtimeLimit: 0, targetMinutes: 240 })),
  visits,
  pairRules: [],
  kit: [],
  together: [],
  weights: replanWeights(PLAN_WEIGHTS, 1),
  grid: 15,
  keepPromises: true,
  budget: PLAN_BUDGET,
  seed: 1,
});
const step = (on: string, visits: PlanVisit[], change: Partial<PlanStep> = {}): PlanStep => ({
  chain: 'one',
  input: day(on, visits),
  joining: [],
  movable: [],
  onlyJoined: false,
  changing: 'never' as const,
  ...change,
});
const run = async (...steps: PlanStep[]) => {
  const answers = await planSteps(steps, { solver, travel: estimatedTravel });
  return answers.map((answer) => answer && answer.result.plan.routes.flatMap(({ stops }) => stops.map(({ visitId }) => visitId)).sort());
};

describe('days in a chain', () => {
  it('place on the next day what is closed on the first, and do not plan a day that nothing joins', async () => {
    const first = step(TUE, [visit('a', { window: SHUT })], { movable: [{ id: 'a', urgent: false }] });
    expect(await run(first, step(WED, [], { joining: [joins('a')], onlyJoined: true }))).toEqual([[], ['a']]);
    const open = step(TUE, [visit('a')], { movable: [{ id: 'a', urgent: false }] });
    expect(await run(open, step(WED, [visit('b')], { joining: [joins('a')], onlyJoined: true }))).toEqual([['a'], null]);
  });
  it('never give up a visit of the day for one that joins', async () => {
    const first = step(TUE, [visit('a', { window: SHUT })], { movable: [{ id: 'a', urgent: true }] });
    const next = step(WED, [visit('b')], { joining: [joins('a', true)], onlyJoined: true });
    expect(await run(first, next)).toEqual([[], ['b']]);
  });
  it('place what is urgent before what can wait', async () => {
    const shut = [visit('a', { window: SHUT }), visit('b', { window: SHUT, current: null })];
    const first = step(TUE, shut, { movable: shut.map(({ id }) => ({ id, urgent: false })) });
    for (const urgent of ['a', 'b']) {
      const joining = ['a', 'b'].map((id) => joins(id, id === urgent));
      expect(await run(first, step(WED, [], { joining, onlyJoined: true }))).toEqual([[], [urgent]]);
    }
  });
  it('see the reports that the days before leave to write', async () => {
    // 300 minutes from 8 to 13 leave 240 for the report on the first day; the other 160 wait for the second, whose hours are 540.
    const first = step(TUE, [visit('a', { current: null, reportMinutes: 400 })]);
    const long = (durationMinutes: number) => step(WED, [visit('b', { current: null, durationMinutes })]);
    expect(await run(first, long(375))).toEqual([['a'], ['b']]);
    expect(await run(first, long(390))).toEqual([['a'], []]);
    expect(await run(long(390))).toEqual([['b']]);
  });
  it('keep chains apart', async () => {
    const first = step(TUE, [visit('a', { window: SHUT })], { movable: [{ id: 'a', urgent: false }] });
    expect(await run(first, step(WED, [], { chain: 'two', joining: [joins('a')], onlyJoined: true }))).toEqual([[], null]);
  });
});

describe('partners', () => {
  // Nobody of the morning's crews can take both a radon and a well visit in the afternoon, but one of each crew together can.
  const people = ['ann', 'cal', 'ben', 'dot'].map((id) => ({
    ...person(id),
    overtimeLimit: 0,
    targetMinutes: 240,
    qualifications: [{ key: id < 'b' || id === 'cal' ? 'radon' : 'well', until: null }],
  }));
  const apart = [
    ['ann', 'dot'],
    ['ben', 'cal'],
    ['ben', 'dot'],
  ].map(([a, b]) => ({ kind: 'never_together' as const, a: a!, b: b! }));
  const short = { current: null, durationMinutes: 120 };
  const visits = [
    visit('one', { ...short, window: { from: 540, until: 540 }, needAny: ['radon', 'well'] }),
    visit('two', { ...short, window: { from: 540, until: 540 } }),
    visit('three', { ...short, window: { from: 780, until: 780 }, needEach: ['radon'] }),
  ];
  const asked = async (changing: PlanStep['changing']) => {
    const one = step(TUE, visits, { changing });
    return (await planSteps([{ ...one, input: { ...one.input, people, pairRules: apart } }], { solver, travel: estimatedTravel }))[0]!;
  };
  it('stay together unless they may change', async () => {
    expect(await asked('never')).toMatchObject({ partnersSave: 0, result: { proven: true, leftOut: [{ visitId: 'three' }] } });
  });
  it.each(['gladly', 'rather than leave out'] as const)('change %s, which keeps the visit', async (changing) => {
    const { partnersSave, result, difference } = await asked(changing);
    expect(result.leftOut).toEqual([]);
    expect(result.bound).toBeLessThanOrEqual(result.cost);
    expect(partnersSave).toBeGreaterThan(1000);
    expect(difference.groups.flatMap(({ moves }) => moves.map(({ visitId }) => visitId))).toContain('three');
  });
});

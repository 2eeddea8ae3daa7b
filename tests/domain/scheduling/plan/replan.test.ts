// A day planned again: the sick call, the closed hours, and what is kept in which order.
import { beforeAll, describe, expect, it } from 'vitest';
import { checkPlan } from '@backsight/scheduling/plan/checkPlan';
import { costOf } from '@backsight/scheduling/plan/cost';
import { placementsOf, planDifference } from '@backsight/scheduling/plan/difference';
import type { PlanInput } from '@backsight/scheduling/plan/model';
import { replanDay } from '@backsight/scheduling/plan/replan';
import type { Disruption, Replan } from '@backsight/scheduling/plan/replan';
import type { LpSolver } from '@backsight/scheduling/plan/solver';
import { estimatedTravel } from '@backsight/scheduling/travel';
import { loadSolver } from '../../../../apps/api/src/adapters/solver/highs.ts';
import { planInput, planPerson, planVisit } from './dayCast.ts';

let solver: LpSolver;
beforeAll(async () => {
  solver = await loadSolver();
});

const SIX = ['ann', 'ben', 'cal', 'dot', 'eve', 'fay'].map((id) => planPerson(id));
const booked = (id: string, first: string, second: string, start: number, change = {}) =>
  planVisit(id, {
    current: { first, second, start },
    announced: true,
    promise: { from: start, until: start },
    window: { from: 480, until: 840 },
    ...change,
  });

const day = (change: Partial<PlanInput> = {}): PlanInput =>
  planInput({ people: SIX, visits: [booked('one', 'ann', 'ben', 540), booked('two', 'cal', 'dot', 540)], ...change });

const sick = (personId: string, from = 0): Disruption => ({ out: [{ personId, from, until: 1440, why: 'sick' }], closed: [] });
const replan = (input: PlanInput, disruption: Disruption): Promise<Replan[]> =>
  replanDay(input, disruption, { solver, travel: estimatedTravel });
const moved = ({ input, result }: Replan) => planDifference(input, result.plan, estimatedTravel).groups.flatMap(({ moves }) => moves);

describe('a sick call', () => {
  it('offers three plans, each proven, none with the person who is out', async () => {
    const plans = await replan(day(), sick('ben'));
    expect(plans.map(({ key, result }) => [key, result.proven, result.leftOut])).toEqual([
      ['fewest changes', true, []],
      ['balanced', true, []],
      ['cheapest', true, []],
    ]);
    for (const { input, result } of plans) {
      expect(checkPlan(input, result.plan, estimatedTravel)).toEqual([]);
      expect(result.plan.routes.flatMap(({ first, second }) => [first, second])).not.toContain('ben');
    }
  });

  it('changes one person of the one visit that is hit, and no start', async () => {
    const [fewest] = await replan(day(), sick('ben'));
    expect(moved(fewest!)).toMatchObject([{ visitId: 'one', before: { start: 540 }, after: { start: 540 } }]);
    expect([moved(fewest!)[0]!.after!.first, moved(fewest!)[0]!.after!.second]).toContain('ann');
  });

  it('keeps a visit rather than its promised start, and says what that costs', async () => {
    const visits = [booked('one', 'ann', 'ben', 540, { durationMinutes: 120 }), booked('two', 'cal', 'dot', 540, { durationMinutes: 120 })];
    const plans = await replan(day({ people: SIX.slice(0, 4), visits }), { out: [...sick('ben').out, ...sick('dot').out], closed: [] });
    for (const { result } of plans) expect(result).toMatchObject({ leftOut: [], proven: true, parts: { promises: 1500 } });
  });

  it('keeps a promised start rather than the announced people', async () => {
    const far = { lat: 43.9, lon: -89.1 };
    const people = SIX.map((one) => (one.id === 'eve' ? { ...one, base: far } : one)).slice(0, 5);
    const plans = await replan(day({ people }), sick('ben'));
    for (const { result } of plans) expect(result.parts.promises).toBe(0);
  });

  it('leaves the pair on the visit that has begun, and lets a lock give way where it must', async () => {
    const visits = [
      booked('one', 'ann', 'ben', 540, { underWay: true }),
      booked('two', 'ben', 'cal', 780, { locked: true, durationMinutes: 120 }),
    ];
    const [fewest] = await replan(day({ visits }), sick('ben', 660));
    const at = placementsOf(fewest!.result.plan);
    expect(at.get('one')).toEqual({ first: 'ann', second: 'ben', start: 540 });
    expect(at.get('two')).toMatchObject({ start: 780 });
    expect([at.get('two')!.first, at.get('two')!.second]).not.toContain('ben');
  });

  it('stays quiet when nobody needed is out', async () => {
    for (const one of await replan(day(), sick('fay'))) if (one.key !== 'cheapest') expect(moved(one)).toEqual([]);
  });
});

describe('who goes first', () => {
  // Minutes of one person's time under the usual weights: 30 for somebody new, 5 for each who stays and takes the other part.
  it.each([
    ['as announced', 'ann', 'ben', true, 0],
    ['the same two, the other first', 'ben', 'ann', true, 10],
    ['a new second', 'ann', 'cal', true, 30],
    ['a new first', 'cal', 'ben', true, 30],
    ['a new first, and the one who stays goes second now', 'cal', 'ann', true, 35],
    ['two others', 'cal', 'dot', true, 60],
    ['the other first where nothing was announced', 'ben', 'ann', false, 0],
  ])('%s', (_, first, second, announced, change) => {
    const input = day({ visits: [booked('one', 'ann', 'ben', 540, { announced })] });
    const plan = { routes: [{ first, second, stops: [{ visitId: 'one', start: 540 }] }] };
    expect(costOf(input, plan, estimatedTravel).parts.change).toBe(change);
  });

  it('changes for a fairer share of the writing, but not in the plan with the fewest changes', async () => {
    const people = [planPerson('ann', { targetMinutes: 240 }), planPerson('ben', { targetMinutes: 600 })];
    const visits = [booked('one', 'ann', 'ben', 540, { reportMinutes: 60 })];
    const plans = await replan(day({ people, visits }), { out: [], closed: [] });
    expect(plans.map((plan) => [plan.key, moved(plan).map(({ after }) => after!.first)])).toEqual([
      ['fewest changes', []],
      ['balanced', ['ben']],
      ['cheapest', ['ben']],
    ]);
  });
});

describe('closed hours', () => {
  it('move the visits that are hit to the rest of the day', async () => {
    const plans = await replan(day(), { out: [], closed: [{ visitIds: ['one'], from: 480, until: 660 }] });
    for (const { result } of plans) {
      expect(result.leftOut).toEqual([]);
      expect(placementsOf(result.plan).get('one')!.start).toBeGreaterThanOrEqual(660);
    }
    expect(placementsOf(plans[0]!.result.plan).get('two')!.start).toBe(540);
  });

  it('of the whole day leave the visit out', async () => {
    const [fewest] = await replan(day(), { out: [], closed: [{ visitIds: ['one'], from: 0, until: 1440 }] });
    expect(fewest!.result.leftOut.map(({ visitId }) => visitId)).toEqual(['one']);
  });
});

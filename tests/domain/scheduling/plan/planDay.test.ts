// The day plan rule by rule: what it does, what it refuses, when it stays quiet.
import { beforeAll, describe, expect, it } from 'vitest';
import { checkPlan } from '@backsight/scheduling/plan/checkPlan';
import { placementsOf } from '@backsight/scheduling/plan/difference';
import type { PlanInput, PlanProgress, PlanResult } from '@backsight/scheduling/plan/model';
import { planDay } from '@backsight/scheduling/plan/planDay';
import type { LpSolver } from '@backsight/scheduling/plan/solver';
import { estimatedTravel } from '@backsight/scheduling/travel';
import { loadSolver } from '../../../../apps/api/src/adapters/solver/highs.ts';
import { TUE } from '../cast.ts';
import { FAR, NEAR, planInput, planPerson, planVisit } from './dayCast.ts';

let solver: LpSolver;
beforeAll(async () => {
  solver = await loadSolver();
});

const plan = (input: PlanInput): Promise<PlanResult> => planDay(input, { solver, travel: estimatedTravel });
const crews = (result: PlanResult) => result.plan.routes.map(({ first, second }) => [first, second]);
const reasons = (result: PlanResult) => result.leftOut.flatMap((one) => one.reasons).join(' ');
const FOUR = ['ann', 'ben', 'cal', 'dot'].map((id) => planPerson(id));

describe('a day', () => {
  it('with one visit sends a pair, and costs two drives there and back', async () => {
    const result = await plan(planInput({ weights: { ...planInput().weights, underTarget: 0, overTarget: 0 } }));
    expect(crews(result)).toEqual([['ann', 'ben']]);
    expect(result).toMatchObject({ proven: true, gapPercent: 0, cost: 2 * 52, leftOut: [], stopped: false });
  });

  it('without people leaves every visit out and says so', async () => {
    const result = await plan(planInput({ people: [] }));
    expect(result.plan.routes).toEqual([]);
    expect(reasons(result)).toContain('Too few people are left that day.');
    expect(result.proven).toBe(true);
  });

  it('without visits is an empty plan that costs nothing', async () =>
    expect(await plan(planInput({ visits: [] }))).toMatchObject({ plan: { routes: [] }, cost: 0, bound: 0, proven: true }));

  it('lets two houses of one street go to one pair', async () => {
    const visits = [
      planVisit('one', { durationMinutes: 120, window: { from: 540, until: 600 } }),
      planVisit('two', { durationMinutes: 120, window: { from: 720, until: 840 } }),
    ];
    expect((await plan(planInput({ people: FOUR, visits }))).plan.routes).toHaveLength(1);
  });

  it('reports a first plan before it has a bound', async () => {
    const seen: PlanProgress[] = [];
    await planDay(planInput(), { solver, travel: estimatedTravel, onProgress: (one) => seen.push(one) });
    expect(seen[0]).toMatchObject({ phase: 'first plan', bound: null });
    expect(seen[0]!.plan.routes).toHaveLength(1);
    expect(seen.at(-1)!.bound).not.toBeNull();
  });

  it('tells the day as booked at once when that breaks no rule, and not otherwise', async () => {
    const at = (start: number) => planVisit('v1', { current: { first: 'ann', second: 'ben', start } });
    const firstOf = async (input: PlanInput) => {
      const seen: PlanProgress[] = [];
      await planDay(input, { solver, travel: estimatedTravel, onProgress: (one) => seen.push(one) });
      expect(seen.every(({ cost }, i) => i === 0 || cost <= seen[i - 1]!.cost)).toBe(true);
      return seen[0]!.plan.routes.flatMap(({ stops }) => stops.map(({ start }) => start));
    };
    const weights = { ...planInput().weights, movedStart: 0, movedMinute: 0 };
    expect(await firstOf(planInput({ weights, visits: [at(615)] }))).toEqual([615]);
    expect(await firstOf(planInput({ weights, visits: [at(120)] }))).not.toEqual([120]);
  });
});

describe('a day with too many visits to list every route at once', () => {
  const day = planInput({
    people: ['ann', 'ben', 'cal', 'dot', 'eve', 'fay'].map((id) => planPerson(id)),
    visits: Array.from({ length: 16 }, (_, at) =>
      planVisit(`v${String(at).padStart(2, '0')}`, {
        place: { lat: NEAR.lat + 0.02 * (at % 5), lon: FAR.lon + 0.03 * (at % 7) },
        durationMinutes: 90,
        window: at % 3 === 0 ? { from: 540, until: 690 } : { from: 600, until: 840 },
      }),
    ),
  });

  it('tells a plan that keeps every rule before all of them are listed, and never a dearer one after it', async () => {
    const seen: PlanProgress[] = [];
    const shouldStop = () => seen.some(({ phase }) => phase !== 'first plan');
    const result = await planDay(day, { solver, travel: estimatedTravel, shouldStop, onProgress: (one) => seen.push(one) });
    expect(result.work.routes).toBeGreaterThan(5000);
    expect(seen[0]).toMatchObject({ phase: 'first plan', bound: null });
    for (const { plan: told } of seen) expect(checkPlan(day, told, estimatedTravel)).toEqual([]);
    const costs = seen.map(({ cost }) => cost);
    expect(costs).toEqual([...costs].sort((a, b) => b - a));
    expect(costs.at(-1)!).toBeLessThan(costs[0]!);
    expect(seen.filter(({ phase }) => phase === 'first plan').every(({ bound }) => bound === null)).toBe(true);
    expect(result.cost).toBe(costs.at(-1));
  });
});

describe('who goes', () => {
  const inTraining = planPerson('ben', { trainee: true, mayLead: false });

  it.each([
    ['somebody in training with a lead, as the second', [planPerson('ann'), inTraining], [['ann', 'ben']]],
    ['nobody when neither may go first', [planPerson('ann', { mayLead: false }), planPerson('ben', { mayLead: false })], []],
    ['nobody without a license', [planPerson('ann'), planPerson('ben', { licensedUntil: null })], []],
    ['nobody whose license ended the day before', [planPerson('ann'), planPerson('ben', { licensedUntil: '2026-07-13' })], []],
    [
      'nobody who is away all day',
      [planPerson('ann'), planPerson('ben', { off: [{ day: TUE, start: 0, end: 1440, why: 'vacation' }] })],
      [],
    ],
  ])('%s', async (_, people, expected) => expect(crews(await plan(planInput({ people })))).toEqual(expected));

  it('names the rule that keeps people away', async () => {
    const people = [
      planPerson('ann'),
      planPerson('ben', { missingAcknowledgements: [{ revision: 'revision 7', afterDay: '2026-07-01' }] }),
    ];
    expect(reasons(await plan(planInput({ people })))).toContain('Ben Cole has not acknowledged revision 7.');
  });

  it('names a qualification that nobody holds, and asks it of the crew together', async () => {
    const visits = [planVisit('one', { needAny: ['radon', 'well'] })];
    expect(reasons(await plan(planInput({ visits })))).toContain('Nobody who works that day holds: radon, well.');
    const people = [
      planPerson('ann', { qualifications: [{ key: 'radon', until: null }] }),
      planPerson('ben', { qualifications: [{ key: 'well', until: null }] }),
    ];
    expect(crews(await plan(planInput({ people, visits })))).toEqual([['ann', 'ben']]);
  });

  it('keeps two apart who may not go together', async () => {
    const pairRules = [{ kind: 'never_together' as const, a: 'ann', b: 'ben' }];
    expect(crews(await plan(planInput({ pairRules })))).toEqual([]);
    expect(crews(await plan(planInput({ pairRules, people: FOUR }))).flat()).toHaveLength(2);
  });

  it('lets the first write the report: whoever has more room for it', async () => {
    const people = [planPerson('ann', { targetMinutes: 200 }), planPerson('ben', { targetMinutes: 500 })];
    expect(crews(await plan(planInput({ people, visits: [planVisit('one', { reportMinutes: 90 })] })))).toEqual([['ben', 'ann']]);
  });
});

describe('kit', () => {
  const camera = { kind: 'sewer camera', count: 1, outOfService: [] };
  const at = (from: number) => ({ from, until: from });

  it('is loaded once for a pair and its whole day', async () => {
    const visits = [
      planVisit('one', { kit: ['sewer camera'], window: at(540) }),
      planVisit('two', { kit: ['sewer camera'], window: at(735), durationMinutes: 120 }),
    ];
    expect((await plan(planInput({ people: FOUR, visits, kit: [camera] }))).leftOut).toEqual([]);
  });

  it('is not given to two pairs, even one after the other', async () => {
    const visits = [
      planVisit('one', { kit: ['sewer camera'], window: at(540) }),
      planVisit('two', { kit: ['sewer camera'], window: at(540) }),
    ];
    expect((await plan(planInput({ people: FOUR, visits, kit: [camera] }))).leftOut).toHaveLength(1);
    expect((await plan(planInput({ people: FOUR, visits, kit: [{ ...camera, count: 2 }] }))).leftOut).toEqual([]);
  });
});

describe('a visit for one person', () => {
  const pickUp = planVisit('pick-up', { crewSize: 1, durationMinutes: 30, window: { from: 480, until: 960 } });

  it('is done by one of a pair on the way home', async () => {
    const result = await plan(planInput({ visits: [planVisit('one'), pickUp] }));
    expect(result.leftOut).toEqual([]);
    expect(result.plan.routes.map(({ second }) => second === null)).toContain(true);
    expect(checkPlan(planInput({ visits: [planVisit('one'), pickUp] }), result.plan, estimatedTravel)).toEqual([]);
  });

  it('is not given to somebody in training', async () => {
    const people = [planPerson('ann', { trainee: true, mayLead: false })];
    expect((await plan(planInput({ people, visits: [pickUp] }))).leftOut).toHaveLength(1);
  });
});

describe('what is fixed', () => {
  const locked = planVisit('one', { current: { first: 'dot', second: 'cal', start: 615 }, locked: true, place: FAR });

  it('keeps its crew and start, however dear', async () => {
    const people = [...FOUR.slice(0, 2), ...FOUR.slice(2).map((one) => ({ ...one, base: { lat: 43.9, lon: -89.4 } }))];
    const result = await plan(planInput({ people, visits: [locked, planVisit('two', { place: NEAR })] }));
    expect(placementsOf(result.plan).get('one')).toEqual({ first: 'dot', second: 'cal', start: 615 });
    expect(result.leftOut).toEqual([]);
  });

  it('keeps the day of people whose fixed visits bind them to different partners', async () => {
    const morning = planVisit('one', { current: { first: 'ann', second: 'ben', start: 540 }, locked: true });
    const noon = planVisit('two', { current: { first: 'ann', second: 'cal', start: 780 }, locked: true, durationMinutes: 120 });
    const input = planInput({ people: [...FOUR, planPerson('eve'), planPerson('fay')], visits: [morning, noon, planVisit('three')] });
    const result = await plan(input);
    expect(checkPlan(input, result.plan, estimatedTravel)).toEqual([]);
    expect(result).toMatchObject({ leftOut: [], proven: true });
    expect(result.bound).toBe(result.cost);
  });

  it('keeps a pair on the visit that has begun, though one of them is away by now', async () => {
    const people = [planPerson('ann', { off: [{ day: TUE, start: 600, end: 1440, why: 'sick' }] }), ...FOUR.slice(1)];
    const began = planVisit('one', { current: { first: 'ann', second: 'ben', start: 540 }, underWay: true });
    const input = planInput({ people, visits: [began, planVisit('two', { window: { from: 735, until: 780 } })] });
    const result = await plan(input);
    expect(placementsOf(result.plan).get('one')).toEqual({ first: 'ann', second: 'ben', start: 540 });
    expect(placementsOf(result.plan).get('two')?.first).not.toBe('ann');
    expect(placementsOf(result.plan).get('two')?.second).not.toBe('ann');
  });
});

describe('hours', () => {
  it('hold a visit that ends with them, and the drive home within the overtime', async () => {
    const visits = [planVisit('one', { window: { from: 840, until: 840 } })];
    expect((await plan(planInput({ visits }))).leftOut).toHaveLength(1);
    const people = ['ann', 'ben'].map((id) => planPerson(id, { overtimeLimit: 30 }));
    const result = await plan(planInput({ people, visits }));
    expect(result).toMatchObject({ leftOut: [], parts: { overtime: 2 * 26 * 1.5 } });
  });

  it('of two shifts are two days out, each from the base', async () => {
    const shifts = [
      { day: TUE, start: 480, end: 720 },
      { day: TUE, start: 780, end: 1020 },
    ];
    const visits = [
      planVisit('one', { durationMinutes: 120, window: { from: 510, until: 540 } }),
      planVisit('two', { durationMinutes: 120, window: { from: 810, until: 840 } }),
    ];
    const input = planInput({ people: ['ann', 'ben'].map((id) => planPerson(id, { shifts })), visits });
    const result = await plan(input);
    expect(result).toMatchObject({ leftOut: [], parts: { travel: 8 * 26, wait: 0 } });
    expect(checkPlan(input, result.plan, estimatedTravel)).toEqual([]);
  });

  it('that are too few say which visits would have to give way', async () => {
    const visits = ['one', 'two', 'three'].map((id) => planVisit(id, { window: { from: 540, until: 540 } }));
    const result = await plan(planInput({ visits }));
    expect(result.leftOut).toHaveLength(2);
    const kept = [...placementsOf(result.plan).keys()][0]!;
    expect(reasons(result)).toContain(`It fits when one of these is moved to another day: House ${kept}.`);
  });

  it('that end before a start is possible say so', async () =>
    expect(reasons(await plan(planInput({ visits: [planVisit('one', { window: { from: 600, until: 540 } })] })))).toContain(
      'No start is possible',
    ));
});

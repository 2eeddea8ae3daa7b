// Days planned together: each as by itself when nothing may move, better when something may.
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { checkPlan } from '@backsight/scheduling/plan/checkPlan';
import { costOf } from '@backsight/scheduling/plan/cost';
import { placementsOf, planDifference, withMoves } from '@backsight/scheduling/plan/difference';
import type { PlanInput, PlanVisit } from '@backsight/scheduling/plan/model';
import { planDay } from '@backsight/scheduling/plan/planDay';
import type { LpSolver } from '@backsight/scheduling/plan/solver';
import { planOfDay, weekInput } from '@backsight/scheduling/plan/week';
import type { Elsewhere } from '@backsight/scheduling/plan/week';
import { addDays } from '@backsight/scheduling/time';
import { estimatedTravel } from '@backsight/scheduling/travel';
import { loadSolver } from '../../../../apps/api/src/adapters/solver/highs.ts';
import { MON, TUE, WED } from '../cast.ts';
import { planInput, planVisit } from './dayCast.ts';
import { DAY, randomDay } from './randomDay.ts';

let solver: LpSolver;
beforeAll(async () => {
  solver = await loadSolver();
});

const tools = () => ({ solver, travel: estimatedTravel });
async function planWeek(...days: Parameters<typeof weekInput>) {
  const input = weekInput(...days);
  return { input, result: await planDay(input, tools()) };
}
const full = ['one', 'two'].map((id) => planVisit(id, { window: { from: 540, until: 540 } }));
const monday = planInput({ day: MON, visits: full });
const tuesday = planInput({ day: TUE, visits: [planVisit('three', { durationMinutes: 120, window: { from: 780, until: 840 } })] });

describe('days together', () => {
  it('leave out a visit for which its day has no room, when it may not move', async () => {
    const { result } = await planWeek([monday, tuesday], []);
    expect(result.leftOut).toHaveLength(1);
    expect(result.proven).toBe(true);
  });

  it('move it to the day that has room, and say so with the day', async () => {
    const may: Elsewhere[] = ['one', 'two'].map((visitId) => ({ visitId, days: [{ day: 1, from: 540, until: 600 }] }));
    const { input, result } = await planWeek([monday, tuesday], may);
    expect(result).toMatchObject({ leftOut: [], proven: true });
    expect(checkPlan(input, result.plan, estimatedTravel)).toEqual([]);
    expect(planOfDay(result.plan, 1).routes.flatMap(({ stops }) => stops)).toHaveLength(2);
    const sentences = planDifference(input, result.plan, estimatedTravel).groups.flatMap(({ moves }) =>
      moves.map(({ sentence }) => sentence),
    );
    expect(sentences.join(' ')).toContain('Tue, Jul 14, ');
  });

  it('keep a locked visit on its day', async () => {
    const locked = planVisit('one', { current: { first: 'ann', second: 'ben', start: 540 }, locked: true });
    const { result } = await planWeek(
      [planInput({ day: MON, visits: [locked] }), tuesday],
      [{ visitId: 'one', days: [{ day: 1, from: 540, until: 600 }] }],
    );
    expect(placementsOf(result.plan).get('one')!.start).toBe(540);
  });

  it('must follow each other', () => expect(() => weekInput([monday, planInput({ day: WED })], [])).toThrow(RangeError));
});

/** Two random days of one firm. */
function twoDays(seed: number, report: number): [PlanInput, PlanInput] {
  const first = randomDay(seed, { people: 6, visits: 5, grid: 15, starts: 6 });
  const other = randomDay(seed + 1, { people: 6, visits: 5, grid: 15, starts: 6 });
  const next = addDays(DAY, 1);
  const people = first.people.map((person) => ({
    ...person,
    shifts: person.shifts.filter(({ day }) => day === DAY).flatMap((shift) => [shift, { ...shift, day: next }]),
    off: [...person.off, ...person.off.map((off) => ({ ...off, day: next }))],
    // A license that ended before both days, so that the days differ in nothing.
    licensedUntil: person.licensedUntil,
  }));
  const written = (visit: PlanVisit): PlanVisit => ({ ...visit, reportMinutes: report });
  const visits = other.visits.map((visit) => ({ ...written(visit), id: `w${visit.id.slice(1)}` }));
  return [
    { ...first, people, visits: first.visits.map(written), around: [], together: [] },
    { ...first, day: next, people, visits, around: [], together: [] },
  ];
}

describe('random days together', () => {
  it('cost what each costs by itself when nothing may move, and never more when something may', () =>
    fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 1_000_000 }), async (seed) => {
        const days = twoDays(seed, 0);
        const alone = await Promise.all(days.map((day) => planDay(day, tools())));
        const sum = alone.reduce((total, { cost }) => total + cost, 0);
        const fixed = await planWeek(days, []);
        expect(fixed.result.cost).toBeCloseTo(sum, 4);
        const may = days[0].visits.map(({ id, window }) => ({ visitId: id, days: [{ day: 1, ...window }] }));
        const { input, result } = await planWeek(days, may);
        expect(checkPlan(input, result.plan, estimatedTravel)).toEqual([]);
        expect(costOf(input, result.plan, estimatedTravel).cost).toBe(result.cost);
        expect(result.cost).toBeLessThanOrEqual(sum + 0.05);
        const moves = planDifference(input, result.plan, estimatedTravel).groups.flatMap((group) => group.moves);
        expect(checkPlan(input, withMoves(input, moves), estimatedTravel)).toEqual([]);
      }),
      { numRuns: 6, seed: 20_260_512 },
    ));

  it('leave everybody time to write, also what one day passes on to the next', () =>
    fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 1_000_000 }), async (seed) => {
        const { input, result } = await planWeek(twoDays(seed, 240), []);
        expect(checkPlan(input, result.plan, estimatedTravel)).toEqual([]);
        expect(result.bound).toBeLessThanOrEqual(result.cost);
      }),
      { numRuns: 6, seed: 20_260_512 },
    ));
});

// What holds for every day plan, over random small firms.
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { checkPlan } from '@backsight/scheduling/plan/checkPlan';
import { costOf } from '@backsight/scheduling/plan/cost';
import { stretchesOfPerson } from '@backsight/scheduling/plan/members';
import { planDifference, placementsOf, withMoves } from '@backsight/scheduling/plan/difference';
import type { Plan, PlanInput, PlanResult } from '@backsight/scheduling/plan/model';
import { planDay } from '@backsight/scheduling/plan/planDay';
import type { LpSolver } from '@backsight/scheduling/plan/solver';
import { estimatedTravel } from '@backsight/scheduling/travel';
import { loadSolver } from '../../../../apps/api/src/adapters/solver/highs.ts';
import { leastCost } from './bruteForce.ts';
import { randomDay } from './randomDay.ts';
import { size } from '../../../support/size.ts';

let solver: LpSolver;
beforeAll(async () => {
  solver = await loadSolver();
});

const plan = (input: PlanInput): Promise<PlanResult> => planDay(input, { solver, travel: estimatedTravel });
const SHAPE = { people: 7, visits: 7, grid: 15, starts: 8 };
const TINY = { people: 4, visits: 3, grid: 60, starts: 2 };

/** Tiny days with somebody who comes along elsewhere, and with kit that one person or pair uses twice. */
const ONCE_WRONG: [number][] = [[208036], [90552], [91204], [91261]];

const overDays = (runs: number, holds: (input: PlanInput) => Promise<unknown>, shape = SHAPE, examples: [number][] = []) =>
  fc.assert(
    fc.asyncProperty(fc.integer({ min: 1, max: 1_000_000 }), async (seed) => {
      await holds(randomDay(seed, shape));
    }),
    { numRuns: size(Math.ceil(runs / 2), runs), seed: 20_260_512, examples },
  );

/** The day with the plan as what is booked and known. */
const announced = (input: PlanInput, made: Plan): PlanInput => {
  const at = placementsOf(made);
  return { ...input, visits: input.visits.map((visit) => ({ ...visit, current: at.get(visit.id) ?? null, announced: at.has(visit.id) })) };
};

/** Where writing may link the stretches of somebody's day, the proof may be missing; the bound holds all the same. */
const severalStretches = (input: PlanInput): boolean =>
  input.people.some((person) => stretchesOfPerson(input, person, estimatedTravel).length > 1);

const renamed = (input: PlanInput, name: (id: string) => string): PlanInput => ({
  ...input,
  people: input.people.map((person) => ({ ...person, id: name(person.id) })).reverse(),
  visits: input.visits.map((visit) => ({ ...visit, id: name(visit.id) })).reverse(),
  around: (input.around ?? []).map((one) => ({
    ...one,
    personIds: one.personIds.map(name),
    observerIds: one.observerIds?.map(name),
  })),
  pairRules: input.pairRules.map((rule) => ({ ...rule, a: name(rule.a), b: name(rule.b) })),
  together: input.together.map((one) => ({ ...one, a: name(one.a), b: name(one.b) })),
});

describe('every day plan', () => {
  it('keeps every rule of booking, costs what it says and is not below its bound', () =>
    overDays(60, async (input) => {
      const { plan: made, cost, bound, proven, leftOut, parts } = await plan(input);
      expect(checkPlan(input, made, estimatedTravel)).toEqual([]);
      expect(costOf(input, made, estimatedTravel).cost).toBe(cost);
      expect(Object.values(parts).reduce((sum, part) => sum + part, 0)).toBeCloseTo(cost, 6);
      expect(bound).toBeLessThanOrEqual(cost);
      expect(proven || severalStretches(input)).toBe(true);
      const placed = [...placementsOf(made).keys(), ...leftOut.map(({ visitId }) => visitId)];
      expect(placed.sort()).toEqual(input.visits.map(({ id }) => id).sort());
      expect(leftOut.every(({ reasons }) => reasons.length > 0)).toBe(true);
    }));

  it('is the cheapest of all plans, by brute force', () =>
    overDays(
      30,
      async (input) => {
        const { cost, bound, proven } = await plan(input);
        const least = leastCost(input);
        expect(proven || severalStretches(input)).toBe(true);
        expect(bound).toBeLessThanOrEqual(least + 1e-4);
        if (proven) expect(cost).toBeCloseTo(least, 4);
      },
      TINY,
      ONCE_WRONG,
    ));

  it('is the same for the same question', () => overDays(15, async (input) => expect(await plan(input)).toEqual(await plan(input))));

  it('costs the same whatever people and visits are called and however they are ordered', () =>
    overDays(20, async (input) => {
      const other = await plan(renamed(input, (id) => `${id.startsWith('p') ? 'x' : 'y'}${9 - Number(id.slice(1))}`));
      expect(other.cost).toBeCloseTo((await plan(input)).cost, 6);
    }));

  it('does not change for somebody who may go nowhere', () =>
    overDays(20, async (input) => {
      const extra = { ...input.people[0]!, id: 'zz', name: 'Nobody', licensedUntil: null };
      expect((await plan({ ...input, people: [...input.people, extra] })).cost).toBeCloseTo((await plan(input)).cost, 6);
    }));

  it('stays as it is announced when changes are dear', () =>
    overDays(20, async (input) => {
      const first = await plan(input);
      const weights = { ...input.weights, unannounced: 5000, movedStart: 5000, movedMinute: 5 };
      const known = announced({ ...input, weights }, first.plan);
      const again = await plan(known);
      expect(planDifference(known, again.plan, estimatedTravel).groups).toEqual([]);
    }));

  it('never gets dearer when windows widen, or kit is added and everybody learns everything', () =>
    overDays(20, async (input) => {
      const { cost } = await plan(input);
      const wider = input.visits.map((visit) => ({
        ...visit,
        window: { from: visit.window.from - 30, until: visit.window.until + 30 },
        promise: null,
      }));
      expect((await plan({ ...input, visits: wider })).cost).toBeLessThanOrEqual(cost + 0.05);
      const kit = input.kit.map((pool) => ({ ...pool, count: pool.count + 1 }));
      const keys = [...new Set(input.visits.flatMap(({ needEach, needAny }) => [...needEach, ...needAny]))];
      const people = input.people.map((one) => ({ ...one, qualifications: keys.map((key) => ({ key, until: null })) }));
      expect((await plan({ ...input, kit, people })).cost).toBeLessThanOrEqual(cost + 0.05);
    }));

  it('is told in groups of moves of which any may be accepted', () =>
    overDays(25, async (input) => {
      const first = await plan({ ...input, weights: { ...input.weights, travel: 0, wait: 0, overTarget: 0, underTarget: 0 } });
      const known = announced(input, first.plan);
      const { groups, savingMinutes } = planDifference(known, (await plan(known)).plan, estimatedTravel);
      expect(savingMinutes).toBeGreaterThanOrEqual(-1e-6);
      for (let subset = 0; subset < Math.min(32, 2 ** groups.length); subset++) {
        const some = groups.filter((_, at) => (subset >> at) & 1).flatMap(({ moves }) => moves);
        expect(checkPlan(known, withMoves(known, some), estimatedTravel)).toEqual([]);
      }
    }));

  it('is a valid plan also when it is stopped at once', () =>
    overDays(10, async (input) => {
      const result = await planDay(input, { solver, travel: estimatedTravel, shouldStop: () => true });
      expect(result.stopped).toBe(true);
      expect(checkPlan(input, result.plan, estimatedTravel)).toEqual([]);
      expect(result.bound).toBeLessThanOrEqual(result.cost);
    }));
});

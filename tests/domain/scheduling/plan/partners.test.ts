// Partners that change at midday: what it wins, and that it never breaks or costs anything.
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { checkPlan } from '@backsight/scheduling/plan/checkPlan';
import { placementsOf } from '@backsight/scheduling/plan/difference';
import { changePartners } from '@backsight/scheduling/plan/partners';
import { planDay } from '@backsight/scheduling/plan/planDay';
import type { LpSolver } from '@backsight/scheduling/plan/solver';
import { estimatedTravel } from '@backsight/scheduling/travel';
import { loadSolver } from '../../../../apps/api/src/adapters/solver/highs.ts';
import { planInput, planPerson, planVisit } from './dayCast.ts';
import { randomDay } from './randomDay.ts';

let solver: LpSolver;
beforeAll(async () => {
  solver = await loadSolver();
});

const at = (from: number) => ({ from, until: from });

describe('partners that change at midday', () => {
  it('take a visit that no crew of the whole day could', async () => {
    const people = [
      planPerson('ann', { qualifications: [{ key: 'radon', until: null }] }),
      planPerson('ben', { qualifications: [{ key: 'well', until: null }] }),
      planPerson('cal', { qualifications: [{ key: 'radon', until: null }] }),
      planPerson('dot', { qualifications: [{ key: 'well', until: null }] }),
    ];
    const pairRules = [
      { kind: 'never_together' as const, a: 'ann', b: 'dot' },
      { kind: 'never_together' as const, a: 'ben', b: 'cal' },
      { kind: 'never_together' as const, a: 'ben', b: 'dot' },
    ];
    const visits = [
      planVisit('one', { window: at(540), needAny: ['radon', 'well'], durationMinutes: 120 }),
      planVisit('two', { window: at(540), needEach: [], durationMinutes: 120 }),
      planVisit('three', { window: at(780), needEach: ['radon'], durationMinutes: 120 }),
    ];
    const input = planInput({ people, pairRules, visits });
    const together = await planDay(input, { solver, travel: estimatedTravel });
    expect(together).toMatchObject({ proven: true, leftOut: [{ visitId: 'three' }] });
    const split = changePartners(input, together.plan, estimatedTravel);
    expect(placementsOf(split.plan).get('three')).toEqual({ first: 'ann', second: 'cal', start: 780 });
    expect(checkPlan(input, split.plan, estimatedTravel)).toEqual([]);
  });

  it('never break a rule, raise the cost or touch what is fixed', () =>
    fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 1_000_000 }), async (seed) => {
        const input = randomDay(seed, { people: 8, visits: 9, grid: 15, starts: 6 });
        const { plan, cost } = await planDay(input, { solver, travel: estimatedTravel });
        const first = placementsOf(plan);
        const visits = input.visits.map((visit, index) => ({
          ...visit,
          current: first.get(visit.id) ?? null,
          locked: index % 4 === 0 && first.has(visit.id),
        }));
        const known = { ...input, visits };
        const split = changePartners(known, plan, estimatedTravel);
        expect(checkPlan(known, split.plan, estimatedTravel)).toEqual([]);
        expect(split.cost).toBeLessThanOrEqual(cost + 1e-6);
        expect(changePartners(known, plan, estimatedTravel)).toEqual(split);
      }),
      { numRuns: 6, seed: 20_260_512 },
    ));
});

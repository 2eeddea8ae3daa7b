// Routes with time windows: the published optimum, by the planner's method and, where a day is long enough, by the planner itself.
import { beforeAll, describe, expect, it } from 'vitest';
import { PLAN_BUDGET, PLAN_WEIGHTS } from '@backsight/scheduling/plan/defaults';
import { planDay } from '@backsight/scheduling/plan/planDay';
import type { LpSolver } from '@backsight/scheduling/plan/solver';
import type { Travel } from '@backsight/scheduling/travel';
import { loadSolver } from '../../apps/api/src/adapters/solver/highs.ts';
import { planInput, planPerson, planVisit } from '../domain/scheduling/plan/dayCast.ts';
import { TUE } from '../domain/scheduling/cast.ts';
import { solomon25, VEHICLE_CAPACITY } from './data/solomon25.ts';
import { everyRoute, leastDistance, tenths } from './vehicleRoutes.ts';

let solver: LpSolver;
beforeAll(async () => {
  solver = await loadSolver();
});

describe('routes with time windows', () => {
  it.each(solomon25)('$name ($source; $status)', ({ stops, distance }) => {
    const routes = everyRoute(stops, VEHICLE_CAPACITY);
    const { relaxed, whole } = leastDistance(solver, routes, stops.length - 1);
    expect(whole).toBeCloseTo(distance, 6);
    expect(relaxed).toBeLessThanOrEqual(whole + 1e-6);
  });
});

describe('the day planner on the same problem', () => {
  // Stops stand for visits of one person, a tenth of a unit for a minute, one vehicle for each person. Loads are far below the capacity.
  it('finds the published distance of R101.25', async () => {
    const { stops, distance, vehicles } = solomon25.find(({ name }) => name === 'R101.25')!;
    const at = stops.map((_, index) => ({ lat: index, lon: 1 }));
    const travel: Travel = { sourceOf: () => 'manual', minutes: (from, to) => tenths(stops[from.lat]!, stops[to.lat]!) };
    const closing = stops[0]![4] * 10;
    const people = Array.from({ length: vehicles }, (_, index) =>
      planPerson(`person ${index}`, { base: at[0]!, shifts: [{ day: TUE, start: 0, end: closing }], targetMinutes: 0 }),
    );
    const visits = stops.slice(1).map(([, , , earliest, latest, service], index) =>
      planVisit(`stop ${index}`, {
        place: at[index + 1]!,
        crewSize: 1,
        durationMinutes: service * 10,
        window: { from: earliest * 10, until: latest * 10 },
      }),
    );
    const weights = { ...PLAN_WEIGHTS, wait: 0, overtime: 0, overTarget: 0, underTarget: 0, rotation: 0, leftOut: 20_000 };
    const input = planInput({ people, visits, weights, grid: 1, budget: { ...PLAN_BUDGET, routes: 1_000_000 } });
    const result = await planDay(input, { solver, travel });
    expect(result).toMatchObject({ proven: true, leftOut: [] });
    expect(result.cost / 10).toBeCloseTo(distance, 6);
  });
});

// The day plan: days booked one by one as people called, planned anew; and days with more visits than hours.
import { checkPlan } from '@backsight/scheduling/plan/checkPlan';
import { costOf } from '@backsight/scheduling/plan/cost';
import { currentPlan } from '@backsight/scheduling/plan/currentPlan';
import type { PlanInput } from '@backsight/scheduling/plan/model';
import { planDay } from '@backsight/scheduling/plan/planDay';
import { estimatedTravel } from '@backsight/scheduling/travel';
import { loadSolver } from '../../apps/api/src/adapters/solver/highs.ts';
import { TOGETHER, cpuLimit, quantile, spread, timed } from './bench.ts';
import type { Bench, Row } from './bench.ts';
import { bookedDay, LONG, SHORT } from './bookedDay.ts';
import { overloadedDay } from './overloadedDay.ts';

type Case = { name: string; seeds: number; seconds: number; booked: boolean; day: (seed: number) => PlanInput };

const booked = (people: number, visits: number, kind: typeof LONG, seeds: number, seconds: number): Case => ({
  name: `${people} people, ${visits} ${kind === SHORT ? 'short ' : ''}visits`,
  seeds,
  seconds,
  booked: true,
  day: (seed) => bookedDay(seed, { people, visits, ...kind }),
});

const CASES: Case[] = [
  booked(8, 6, LONG, 12, 10),
  booked(40, 30, LONG, 12, 10),
  booked(40, 60, SHORT, 12, 10),
  booked(120, 92, LONG, 8, 10),
  booked(200, 155, LONG, 4, 20),
  {
    name: '40 people, 60 visits, overloaded',
    seeds: 10,
    seconds: 10,
    booked: false,
    day: (seed) => overloadedDay(seed, { people: 40, visits: 60, ...SHORT }),
  },
];

async function measure({ name, seeds, seconds, booked: isBooked, day }: Case): Promise<Row> {
  const solver = await loadSolver();
  await planDay(day(999), { solver, travel: estimatedTravel, shouldStop: () => false, onProgress: () => {} });
  const results = [];
  for (let seed = 1; seed <= seeds; seed++) {
    const input = day(seed);
    const began = performance.now();
    let first = Infinity;
    const tools = {
      solver,
      travel: estimatedTravel,
      shouldStop: cpuLimit(seconds),
      onProgress: () => (first = Math.min(first, performance.now() - began)),
    };
    const { value: result, wall, cpu } = await timed(() => planDay(input, tools));
    if (checkPlan(input, result.plan, estimatedTravel).length > 0) throw new Error(`${name}, seed ${seed}: the plan breaks a rule`);
    const before = costOf(input, currentPlan(input), estimatedTravel);
    const after = costOf(input, result.plan, estimatedTravel);
    results.push({
      input,
      result,
      wall,
      cpu,
      first,
      saved: 1 - after.cost / before.cost,
      drivingSaved: 1 - after.drivingMinutes / before.drivingMinutes,
    });
  }
  const gaps = results.map(({ result }) => result.gapPercent);
  const worst = Math.max(...gaps);
  const percent = (shares: readonly number[]) => `${(100 * quantile(shares, 0.5)).toFixed(1)} %`;
  return {
    case: name,
    'visits (mean)': results.reduce((sum, { input }) => sum + input.visits.length, 0) / seeds,
    proven: `${results.filter(({ result }) => result.proven).length} of ${seeds}`,
    'gap % p50 / max': `${quantile(gaps, 0.5).toFixed(2)} / ${worst.toFixed(2)}${worst > 0 ? ` (seed ${gaps.indexOf(worst) + 1})` : ''}`,
    'saved: cost, driving': isBooked
      ? `${percent(results.map(({ saved }) => saved))}, ${percent(results.map(({ drivingSaved }) => drivingSaved))}`
      : null,
    'first plan ms p50/p90/max': spread(results.map(({ first }) => first)),
    'wall ms p50/p90/max': spread(results.map(({ wall }) => wall)),
    'cpu ms p50/p90/max': spread(results.map(({ cpu }) => cpu)),
    'stopped after cpu s': seconds,
  };
}

const bench: Bench = {
  about: 'day plans over several seeds; a plan is stopped after the processor seconds of its last column, its gap then counts',
  run: async (say) => {
    for (const one of CASES) say(await measure({ ...one, seeds: TOGETHER ? Math.ceil(one.seeds / 4) : one.seeds }));
  },
};

export default bench;

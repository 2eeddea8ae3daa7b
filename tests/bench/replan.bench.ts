// The sick call: one working person out of a proven day, planned again with the visits announced; beside a plan free of that.
import { checkPlan } from '@backsight/scheduling/plan/checkPlan';
import { placementsOf } from '@backsight/scheduling/plan/difference';
import type { Placement, PlanInput, PlanResult, PlanTools } from '@backsight/scheduling/plan/model';
import { planDay } from '@backsight/scheduling/plan/planDay';
import { afterDisruption, planKeepingPromises, REPLANS, replanWeights } from '@backsight/scheduling/plan/replan';
import { estimatedTravel } from '@backsight/scheduling/travel';
import { loadSolver } from '../../apps/api/src/adapters/solver/highs.ts';
import { TOGETHER, cpuLimit, quantile, spread, timed } from './bench.ts';
import type { Bench, Row } from './bench.ts';
import { bookedDay, LONG, SHORT } from './bookedDay.ts';

const CASES = [
  { name: '16 people, 12 visits', seeds: 12, size: { people: 16, visits: 12, ...LONG } },
  { name: '40 people, 30 visits', seeds: 12, size: { people: 40, visits: 30, ...LONG } },
  { name: '40 people, 60 short visits', seeds: 8, size: { people: 40, visits: 60, ...SHORT } },
  { name: '80 people, 61 visits', seeds: 6, size: { people: 80, visits: 61, ...LONG } },
];
const SECONDS = 20;

type Changes = { people: number; starts: number; lost: number };

function changesOf(input: PlanInput, result: PlanResult): Changes {
  const after = placementsOf(result.plan);
  const crew = (placement: Placement | null | undefined) => (placement ? [placement.first, placement.second] : []);
  const changes: Changes = { people: 0, starts: 0, lost: result.leftOut.length };
  for (const { id, current } of input.visits) {
    const now = after.get(id);
    if (!now) continue;
    changes.people += crew(now).filter((one) => !crew(current).includes(one)).length;
    changes.starts += now.start === current?.start ? 0 : 1;
  }
  return changes;
}

async function sickDay(seed: number, size: (typeof CASES)[number]['size'], tools: PlanTools): Promise<PlanInput> {
  const input = bookedDay(seed, size);
  const { plan } = await planDay(input, tools);
  const at = placementsOf(plan);
  const visits = input.visits.map((visit) => ({ ...visit, current: at.get(visit.id) ?? null, announced: at.has(visit.id) }));
  const { first } = plan.routes[seed % plan.routes.length]!;
  return afterDisruption({ ...input, visits }, { out: [{ personId: first, from: 0, until: 1440, why: 'sick' }], closed: [] });
}

async function measure({ name, seeds, size }: (typeof CASES)[number], say: (row: Row) => void): Promise<void> {
  const solver = await loadSolver();
  const days: PlanInput[] = [];
  for (let seed = 1; seed <= seeds; seed++) days.push(await sickDay(seed, size, { solver, travel: estimatedTravel }));
  for (const { key, changes } of REPLANS) {
    const results = [];
    for (const day of days) {
      const input = { ...day, weights: replanWeights(day.weights, changes) };
      const tools = { solver, travel: estimatedTravel, shouldStop: cpuLimit(SECONDS) };
      const { value: result, wall, cpu } = await timed(() => planKeepingPromises(input, tools));
      if (checkPlan(input, result.plan, estimatedTravel).length > 0) throw new Error(`${name}: the plan breaks a rule`);
      results.push({ result, wall, cpu, ...changesOf(input, result) });
    }
    say({
      case: name,
      plan: key,
      proven: `${results.filter(({ result }) => result.proven).length} of ${seeds}`,
      'people changed p50/p90/max': spread(results.map(({ people }) => people)),
      'starts moved p50/p90/max': spread(results.map(({ starts }) => starts)),
      'promises broken, all': results.filter(({ result }) => result.parts.promises > 0).length,
      'visits lost, all': results.reduce((sum, { lost }) => sum + lost, 0),
      'driving min p50': quantile(
        results.map(({ result }) => result.parts.travel),
        0.5,
      ),
      'wall ms p50/p90/max': spread(results.map(({ wall }) => wall)),
      'cpu ms p50/p90/max': spread(results.map(({ cpu }) => cpu)),
    });
  }
}

const bench: Bench = {
  about: 'the three plans after a sick call; people changed counts each new person of each visit',
  run: async (say) => {
    for (const one of CASES) await measure({ ...one, seeds: TOGETHER ? one.seeds / 2 : one.seeds }, say);
  },
};

export default bench;

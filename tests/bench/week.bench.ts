// Five days planned together, some visits free to move between them; and partners that change at midday on overloaded days.
import { addDays } from '@backsight/scheduling/time';
import { checkPlan } from '@backsight/scheduling/plan/checkPlan';
import type { PlanInput, PlanTools } from '@backsight/scheduling/plan/model';
import { changePartners } from '@backsight/scheduling/plan/partners';
import { planDay } from '@backsight/scheduling/plan/planDay';
import { weekInput } from '@backsight/scheduling/plan/week';
import { estimatedTravel } from '@backsight/scheduling/travel';
import { loadSolver } from '../../apps/api/src/adapters/solver/highs.ts';
import { TOGETHER, cpuLimit, timed } from './bench.ts';
import type { Bench, Row } from './bench.ts';
import { bookedDay, DAY, LONG, SHORT } from './bookedDay.ts';
import { overloadedDay } from './overloadedDay.ts';

const SECONDS = 30;

function toolsOf(solver: PlanTools['solver']): PlanTools {
  return { solver, travel: estimatedTravel, shouldStop: cpuLimit(SECONDS) };
}

/** The same people on five days, each with its own visits. */
function weekOf(seed: number, people: number, visits: number): [PlanInput, ...PlanInput[]] {
  const days = [1, 2, 3, 4, 5].map((one) => bookedDay(seed * 10 + one, { people, visits, ...LONG }));
  const shifted = (index: number): PlanInput => {
    const day = addDays(DAY, index);
    const own = days[index]!.visits.map((visit) => ({ ...visit, id: `${index} ${visit.id}`, current: null, promise: visit.promise }));
    const everyDay = days[0]!.people.map((person) => ({
      ...person,
      targetMinutes: 450,
      shifts: person.shifts.map((shift) => ({ ...shift, day })),
    }));
    return { ...days[0]!, day, people: everyDay, visits: own };
  };
  return [shifted(0), ...[1, 2, 3, 4].map(shifted)];
}

async function measure(people: number, visits: number, share: number): Promise<Row> {
  const solver = await loadSolver();
  const days = weekOf(1, people, visits);
  const alone = [];
  for (const day of days) alone.push(await planDay(day, toolsOf(solver)));
  const every = Math.round(1 / share);
  const movable = days.flatMap((day) =>
    day.visits
      .filter((_, at) => at % every === 0)
      .map(({ id, window }) => ({ visitId: id, days: days.map((_, index) => ({ day: index, ...window })) })),
  );
  const input = weekInput(days, movable);
  const { value: result, wall, cpu } = await timed(() => planDay(input, toolsOf(solver)));
  if (checkPlan(input, result.plan, estimatedTravel).length > 0) throw new Error('the plan of the week breaks a rule');
  return {
    case: `week: ${people} people, ${visits} visits a day, ${movable.length} movable`,
    proven: result.proven ? 'yes' : 'no',
    'gap %': result.gapPercent,
    'cost day by day': alone.reduce((sum, { cost }) => sum + cost, 0),
    'cost together': result.cost,
    'left out before': alone.reduce((sum, { leftOut }) => sum + leftOut.length, 0),
    'left out after': result.leftOut.length,
    'wall ms': wall,
    'cpu ms': cpu,
  };
}

async function partners(seed: number): Promise<Row> {
  const solver = await loadSolver();
  const input = overloadedDay(seed, { people: 40, visits: 60, ...SHORT });
  const before = await planDay(input, toolsOf(solver));
  const { value: after, wall, cpu } = await timed(async () => changePartners(input, before.plan, estimatedTravel));
  const placed = after.plan.routes.reduce((sum, { stops }) => sum + stops.length, 0);
  return {
    case: `partners at midday: overloaded 40/60, seed ${seed}`,
    proven: before.proven ? 'yes' : 'no',
    'gap %': before.gapPercent,
    'cost day by day': before.cost,
    'cost together': after.cost,
    'left out before': before.leftOut.length,
    'left out after': input.visits.length - placed,
    'wall ms': wall,
    'cpu ms': cpu,
  };
}

const bench: Bench = {
  about: 'days together against day by day (one proof for all), and what changing partners wins after the day plan',
  run: async (say) => {
    say(await measure(16, 12, 0.25));
    say(await measure(40, 30, 0.2));
    for (const seed of TOGETHER ? [1] : [1, 2, 3]) say(await partners(seed));
  },
};

export default bench;

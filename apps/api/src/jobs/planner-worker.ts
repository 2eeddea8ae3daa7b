// The planner's own thread: the one place where the solver runs, because it blocks whatever thread it is in.
import { parentPort } from 'node:worker_threads';
import { planSteps } from '@backsight/scheduling/planSteps';
import { travelOf } from '@backsight/scheduling/travelModel';
import type { RunAnswer } from '@backsight/usecases/schedule/steps/planTask';
import type { PlanOrder, PlanReport } from '../http/planner.ts';
import { loadSolver } from '../adapters/solver/highs.ts';

const port = parentPort!;
const solver = loadSolver();
const say = (report: PlanReport): void => port.postMessage(report);

async function planAll({ task, stop, stepMs }: PlanOrder): Promise<void> {
  const flag = new Int32Array(stop);
  let [run, until] = [0, Infinity];
  const tools = {
    solver: await solver,
    shouldStop: () => Atomics.load(flag, 0) !== 0 || performance.now() > until,
    onProgress: ({ phase, cost, bound }: Pick<Extract<PlanReport, { kind: 'progress' }>, 'phase' | 'cost' | 'bound'>) =>
      say({ kind: 'progress', run, phase, cost, bound }),
  };
  const answers: RunAnswer[] = [];
  for (const chain of new Set(task.runs.map((one) => one.chain))) {
    const begin = answers.length;
    const travel = travelOf(task.travels[chain] ?? task.travel ?? undefined);
    const steps = task.runs.filter((one) => one.chain === chain);
    const found = await planSteps(steps, { ...tools, travel }, (step) => {
      [run, until] = [begin + step, performance.now() + stepMs];
    });
    answers.push(
      ...found.map((answer) => answer && { result: answer.result, difference: answer.difference, partnersSave: answer.partnersSave }),
    );
  }
  say({ kind: 'done', answers });
}

port.on('message', (order: PlanOrder) => {
  planAll(order).catch((error: unknown) => say({ kind: 'failed', message: error instanceof Error ? error.message : String(error) }));
});

// The planner's own thread: the one place where the solver runs, because it blocks whatever thread it is in.
import { parentPort } from 'node:worker_threads';
import { planSteps } from '@backsight/scheduling/planSteps';
import { travelOf } from '@backsight/scheduling/travelModel';
import type { PlanOrder, PlanReport } from '../http/planner.ts';
import { loadSolver } from '../planner/highs.ts';

const port = parentPort!;
const solver = loadSolver();
const say = (report: PlanReport): void => port.postMessage(report);

async function planAll({ task, stop, stepMs }: PlanOrder): Promise<void> {
  const flag = new Int32Array(stop);
  let [run, until] = [0, Infinity];
  const tools = {
    solver: await solver,
    travel: travelOf(task.travel ?? undefined),
    shouldStop: () => Atomics.load(flag, 0) !== 0 || performance.now() > until,
    onProgress: ({ phase, cost, bound }: Pick<Extract<PlanReport, { kind: 'progress' }>, 'phase' | 'cost' | 'bound'>) =>
      say({ kind: 'progress', run, phase, cost, bound }),
  };
  const answers = await planSteps(task.runs, tools, (step) => {
    [run, until] = [step, performance.now() + stepMs];
  });
  say({ kind: 'done', answers: answers.map((answer) => answer && { result: answer.result, difference: answer.difference }) });
}

port.on('message', (order: PlanOrder) => {
  planAll(order).catch((error: unknown) => say({ kind: 'failed', message: error instanceof Error ? error.message : String(error) }));
});

// The planner's own thread: the one place where the solver runs, because it blocks whatever thread it is in.
import { parentPort } from 'node:worker_threads';
import { planDifference } from '@backsight/scheduling/plan/difference';
import { planKeepingPromises } from '@backsight/scheduling/plan/replan';
import { travelOf } from '@backsight/scheduling/travelModel';
import type { RunAnswer } from '@backsight/usecases/schedule/steps/planTask';
import type { PlanOrder, PlanReport } from '../http/planner.ts';
import { loadSolver } from '../planner/highs.ts';

const port = parentPort!;
const solver = loadSolver();
const say = (report: PlanReport): void => port.postMessage(report);

async function planAll({ task, stop }: PlanOrder): Promise<RunAnswer[]> {
  const flag = new Int32Array(stop);
  const travel = travelOf(task.travel ?? undefined);
  const answers: RunAnswer[] = [];
  for (const [run, { input }] of task.runs.entries()) {
    const result = await planKeepingPromises(input, {
      solver: await solver,
      travel,
      shouldStop: () => Atomics.load(flag, 0) !== 0,
      onProgress: ({ phase, cost, bound }) => say({ kind: 'progress', run, phase, cost, bound }),
    });
    answers.push({ result, difference: planDifference(input, result.plan, travel) });
  }
  return answers;
}

port.on('message', (order: PlanOrder) => {
  planAll(order).then(
    (answers) => say({ kind: 'done', answers }),
    (error: unknown) => say({ kind: 'failed', message: error instanceof Error ? error.message : String(error) }),
  );
});

// Days that are planned one after the other, because visits that find no place on one may join the next.
import { planDifference } from './plan/difference.ts';
import type { PlanDifference, PlanInput, PlanResult, PlanTools, PlanVisit } from './plan/model.ts';
import { planKeepingPromises } from './plan/replan.ts';

/** A visit of an earlier day that may be placed on this one; `urgent`: on this day at the latest. */
export type Joining = { visit: PlanVisit; urgent: boolean };

/** A day, and what joins it of the visits that no step before it placed. Steps of one `chain` belong together. */
export type PlanStep = {
  chain: string;
  input: PlanInput;
  joining: Joining[];
  /** Visits of the day itself that cannot wait for a later one. */
  urgent: string[];
};

export type StepAnswer = { input: PlanInput; result: PlanResult; difference: PlanDifference };

const leftOutOf = ({ result }: StepAnswer): string[] => result.leftOut.map(({ visitId }) => visitId);

/**
 * Plans the step with everything that joins it. Where something urgent finds no place, what can wait for a later day gives way
 * to it: `canWait` are the visits that still have a day ahead.
 */
async function planStep(
  input: PlanInput,
  urgent: ReadonlySet<string>,
  canWait: ReadonlySet<string>,
  tools: PlanTools,
): Promise<StepAnswer> {
  const result = await planKeepingPromises(input, tools);
  const answer = { input, result, difference: planDifference(input, result.plan, tools.travel) };
  if (result.stopped || canWait.size === 0 || !leftOutOf(answer).some((id) => urgent.has(id))) return answer;
  const pressing = { ...input, visits: input.visits.filter(({ id }) => !canWait.has(id)) };
  const second = await planKeepingPromises(pressing, tools);
  const waiting = [...canWait].map((visitId) => ({ visitId, reasons: ['Others have to be placed first.'] }));
  const both = { ...second, leftOut: [...second.leftOut, ...waiting] };
  return { input, result: both, difference: planDifference(input, second.plan, tools.travel) };
}

/** Plans all steps in order. `onStep` hears which one begins. Errors as `planDay`. */
export async function planSteps(steps: readonly PlanStep[], tools: PlanTools, onStep?: (step: number) => void): Promise<StepAnswer[]> {
  const answers: StepAnswer[] = [];
  const open = new Map<string, Set<string>>();
  for (const [at, { chain, input, joining, urgent }] of steps.entries()) {
    onStep?.(at);
    const left = open.get(chain) ?? new Set<string>();
    const joined = joining.filter(({ visit }) => left.has(visit.id));
    const later = new Set(steps.slice(at + 1).flatMap((step) => (step.chain === chain ? step.joining.map(({ visit }) => visit.id) : [])));
    const pressing = new Set([...urgent, ...joined.filter((one) => one.urgent).map(({ visit }) => visit.id)]);
    const asked = { ...input, visits: [...input.visits, ...joined.map(({ visit }) => visit)] };
    const canWait = new Set(asked.visits.map(({ id }) => id).filter((id) => later.has(id) && !pressing.has(id)));
    const answer = await planStep(asked, pressing, canWait, tools);
    answers.push(answer);
    for (const { id } of asked.visits) left.delete(id);
    for (const id of leftOutOf(answer)) left.add(id);
    open.set(chain, left);
  }
  return answers;
}

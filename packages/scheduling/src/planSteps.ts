// Days that are planned one after the other, because visits that find no place on one may join the next.
import { planDifference } from './plan/difference.ts';
import type { PlanDifference, PlanInput, PlanResult, PlanTools, PlanVisit } from './plan/model.ts';
import { planKeepingPromises } from './plan/replan.ts';
import { worthwhile } from './worthwhile.ts';

/** `urgent`: on this day at the latest. */
type Pressing = { urgent: boolean };
/** A visit of an earlier day that may be placed on this one. */
export type Joining = Pressing & { visit: PlanVisit };

/** One day. Steps of one `chain` belong together: what is left out of one may join the later ones that name it. */
export type PlanStep = {
  chain: string;
  input: PlanInput;
  joining: Joining[];
  /** Visits of the day itself that may go to a later one. */
  movable: (Pressing & { id: string })[];
  /** Planned only when something joins it. */
  onlyJoined: boolean;
};

export type StepAnswer = { input: PlanInput; result: PlanResult; difference: PlanDifference };

/** How early something may be given up: visits of the day itself never for others, what is urgent only for those. */
type Rank = 0 | 1 | 2;

/** Plans the day; as long as something is left out for the sake of what may be given up before it, that is given up. */
async function planStep(input: PlanInput, rankOf: (id: string) => Rank, tools: PlanTools): Promise<StepAnswer> {
  const given: string[] = [];
  for (;;) {
    const asked = { ...input, visits: input.visits.filter(({ id }) => !given.includes(id)) };
    const { result, difference } = worthwhile(asked, await planKeepingPromises(asked, tools), tools.travel);
    const ranks = result.leftOut.map(({ visitId }) => rankOf(visitId));
    const least = Math.min(...ranks);
    const last = asked.visits.filter(({ id }) => rankOf(id) > least).sort((a, b) => rankOf(b.id) - rankOf(a.id));
    if (ranks.length === 0 || last.length === 0 || result.stopped) {
      const waiting = given.map((visitId) => ({ visitId, reasons: ['Others had to be placed first.'] }));
      const whole = { ...result, leftOut: [...result.leftOut, ...waiting] };
      const all = given.length === 0 ? difference : planDifference(input, result.plan, tools.travel);
      return { input, result: whole, difference: all };
    }
    given.push(...last.slice(0, ranks.filter((rank) => rank === least).length).map(({ id }) => id));
  }
}

function rankIn({ joining, movable }: PlanStep): (id: string) => Rank {
  const ranks = new Map<string, Rank>([
    ...movable.map(({ id, urgent }) => [id, urgent ? 1 : 2] as const),
    ...joining.map(({ visit, urgent }) => [visit.id, urgent ? 1 : 2] as const),
  ]);
  return (id) => ranks.get(id) ?? 0;
}

/**
 * Plans all steps in order; null for a step that nothing joined and that is planned only then. `onStep` hears which one begins.
 * Errors as `planDay`.
 */
export async function planSteps(
  steps: readonly PlanStep[],
  tools: PlanTools,
  onStep?: (step: number) => void,
): Promise<(StepAnswer | null)[]> {
  const answers: (StepAnswer | null)[] = [];
  const open = new Map<string, Set<string>>();
  for (const [at, step] of steps.entries()) {
    const left = open.get(step.chain) ?? new Set<string>();
    open.set(step.chain, left);
    const joined = step.joining.filter(({ visit }) => left.has(visit.id)).map(({ visit }) => visit);
    if (step.onlyJoined && joined.length === 0) {
      answers.push(null);
      continue;
    }
    onStep?.(at);
    const answer = await planStep({ ...step.input, visits: [...step.input.visits, ...joined] }, rankIn(step), tools);
    answers.push(answer);
    for (const { id } of joined) left.delete(id);
    for (const { visitId } of answer.result.leftOut) left.add(visitId);
  }
  return answers;
}

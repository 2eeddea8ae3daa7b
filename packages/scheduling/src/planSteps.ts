// Days that are planned one after the other: each sees the calendar as the days before leave it, and visits that find no place
// on one may join the next.
import { calendarOf, checkPlan } from './plan/checkPlan.ts';
import { costOf } from './plan/cost.ts';
import { placementsOf, planDifference } from './plan/difference.ts';
import type { PlanDifference, PlanInput, PlanResult, PlanTools, PlanVisit } from './plan/model.ts';
import { changePartners } from './plan/partners.ts';
import { planKeepingPromises } from './plan/replan.ts';
import type { Busy } from './world.ts';
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
  /** Whether partners may change during the day: wherever that is cheaper, only where a visit would be left out, or not at all. */
  changing: 'gladly' | 'rather than leave out' | 'never';
};

/** `partnersSave`: minutes that changing partners save beyond the plan of crews that stay together. */
export type StepAnswer = { input: PlanInput; result: PlanResult; difference: PlanDifference; partnersSave: number };

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
      return { input, result: whole, difference: all, partnersSave: 0 };
    }
    given.push(...last.slice(0, ranks.filter((rank) => rank === least).length).map(({ id }) => id));
  }
}

/** The answer with partners that change during the day, where that is wanted and better. The bound still speaks of crews that stay together. */
function withChanges(answer: StepAnswer, changing: PlanStep['changing'], { travel }: PlanTools): StepAnswer {
  const { input, result } = answer;
  if (changing === 'never' || (changing === 'rather than leave out' && result.leftOut.length === 0)) return answer;
  const { plan, cost, changes } = changePartners(input, result.plan, travel);
  if (changes === 0 || checkPlan(input, plan, travel).length > 0) return answer;
  const placed = placementsOf(plan);
  const leftOut = result.leftOut.filter(({ visitId }) => !placed.has(visitId));
  const partnersSave = costOf(input, result.plan, travel).cost - cost;
  const bound = Math.min(cost, result.bound);
  const gapPercent = result.proven || cost === 0 ? 0 : (100 * (cost - bound)) / cost;
  return {
    input,
    result: { ...result, plan, cost, parts: costOf(input, plan, travel).parts, bound, gapPercent, leftOut },
    difference: planDifference(input, plan, travel),
    partnersSave,
  };
}

function rankIn({ joining, movable }: PlanStep): (id: string) => Rank {
  const ranks = new Map<string, Rank>([
    ...movable.map(({ id, urgent }) => [id, urgent ? 1 : 2] as const),
    ...joining.map(({ visit, urgent }) => [visit.id, urgent ? 1 : 2] as const),
  ]);
  return (id) => ranks.get(id) ?? 0;
}

/** What a chain has come to: visits without a place, and where each visit is that was planned (null: nowhere). */
class Chain {
  readonly left = new Set<string>();
  private readonly planned = new Map<string, Busy | null>();

  /** The step's question with what joins the day, and the calendar as it is by now. */
  question({ input, joining }: PlanStep): { input: PlanInput; joined: PlanVisit[] } {
    const joined = joining.filter(({ visit }) => this.left.has(visit.id)).map(({ visit }) => visit);
    const visits = [...input.visits, ...joined];
    const own = new Set(visits.map(({ id }) => id));
    const around = [...(input.around ?? []).filter(({ id }) => !this.planned.has(id)), ...this.planned.values()]
      .filter((busy) => busy !== null)
      .filter(({ id }) => !own.has(id));
    return { input: { ...input, visits, around }, joined };
  }

  keep({ input, result }: StepAnswer): void {
    const placed = new Map(calendarOf(input, result.plan).map((busy) => [busy.id, busy]));
    for (const { id } of input.visits) {
      this.left.delete(id);
      this.planned.set(id, placed.get(id) ?? null);
    }
    for (const { visitId } of result.leftOut) this.left.add(visitId);
  }
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
  const chains = new Map<string, Chain>();
  for (const [at, step] of steps.entries()) {
    const chain = chains.get(step.chain) ?? new Chain();
    chains.set(step.chain, chain);
    const { input, joined } = chain.question(step);
    if (step.onlyJoined && joined.length === 0) {
      answers.push(null);
      continue;
    }
    onStep?.(at);
    const answer = withChanges(await planStep(input, rankIn(step), tools), step.changing, tools);
    answers.push(answer);
    chain.keep(answer);
  }
  return answers;
}

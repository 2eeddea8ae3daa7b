// Which moves of a plan are worth making: people may be booked with one partner in the morning and another in the afternoon,
// which plans of crews that stay together cannot better in every case. Then some groups, or all, are better left as they are.
import { checkPlan } from './plan/checkPlan.ts';
import { costOf } from './plan/cost.ts';
import { placementsOf, planDifference, withMoves } from './plan/difference.ts';
import type { MoveGroup, Plan, PlanDifference, PlanInput, PlanResult } from './plan/model.ts';
import type { Travel } from './travel.ts';

const planWith = (input: PlanInput, groups: readonly MoveGroup[]): Plan =>
  withMoves(
    input,
    groups.flatMap(({ moves }) => moves),
  );

/** Groups left away one after the other as long as the rest is as good without: nobody changes for nothing. */
function fewer(input: PlanInput, groups: readonly MoveGroup[], cost: (groups: readonly MoveGroup[]) => number): readonly MoveGroup[] {
  const without = groups.map((group) => groups.filter((one) => one !== group));
  const costs = without.map(cost);
  const least = Math.min(...costs);
  return least <= cost(groups) + 1e-6 ? fewer(input, without[costs.indexOf(least)]!, cost) : groups;
}

/** The result with the moves that are worth making, and the difference to the day as it is booked. Every move is kept when fewer would break a rule: somebody is out. */
export function worthwhile(input: PlanInput, result: PlanResult, travel: Travel): { result: PlanResult; difference: PlanDifference } {
  const difference = planDifference(input, result.plan, travel);
  if (difference.groups.length === 0) return { result, difference };
  const cost = (groups: readonly MoveGroup[]): number => costOf(input, planWith(input, groups), travel).cost;
  const kept = fewer(input, difference.groups, cost);
  const chosen = cost([]) < cost(kept) ? [] : kept;
  const plan = planWith(input, chosen);
  if (chosen.length === difference.groups.length || checkPlan(input, plan, travel).length > 0) return { result, difference };
  const better = costOf(input, plan, travel);
  const placed = placementsOf(plan);
  const bound = result.proven ? better.cost : Math.min(better.cost, result.bound);
  const gapPercent = better.cost === 0 ? 0 : (100 * (better.cost - bound)) / better.cost;
  const leftOut = result.leftOut.filter(({ visitId }) => !placed.has(visitId));
  return {
    result: { ...result, plan, cost: better.cost, parts: better.parts, bound, gapPercent, leftOut },
    difference: planDifference(input, plan, travel),
  };
}

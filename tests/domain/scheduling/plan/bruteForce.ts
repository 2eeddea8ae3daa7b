// Every plan of a tiny day, one visit after the other, judged by the rules of booking: the cheapest in which crews stay together.
import { checkPlan } from '@backsight/scheduling/plan/checkPlan';
import { costOf } from '@backsight/scheduling/plan/cost';
import { stretchesOfPerson } from '@backsight/scheduling/plan/members';
import type { Placement, Plan, PlanInput, PlanVisit } from '@backsight/scheduling/plan/model';
import { planFrom } from '@backsight/scheduling/plan/difference';
import { startsOf } from '@backsight/scheduling/plan/starts';
import { estimatedTravel } from '@backsight/scheduling/travel';

function choicesOf(input: PlanInput, visit: PlanVisit): Placement[] {
  const ids = input.people.map(({ id }) => id);
  const crews =
    visit.crewSize === 1
      ? ids.map((first) => ({ first, second: null }))
      : ids.flatMap((first) => ids.filter((id) => id !== first).map((second) => ({ first, second })));
  return startsOf(input, visit).flatMap((start) => crews.map((crew) => ({ ...crew, start })));
}

/** Which stretch of a person's day a start lies in. */
function stretchAt(input: PlanInput, id: string | null, start: number): number {
  const person = input.people.find((one) => one.id === id);
  return person ? stretchesOfPerson(input, person, estimatedTravel).findIndex((one) => one.from <= start && start < one.until) : -1;
}

/** In one stretch a person has one pair (and one order in it) and at most one visit alone, before or after; or only visits alone. */
function staysTogether(input: PlanInput, plan: Plan): boolean {
  const visits = new Map(input.visits.map((visit) => [visit.id, visit]));
  return input.people.every((person) =>
    stretchesOfPerson(input, person, estimatedTravel).every((stretch) => {
      const own = plan.routes
        .filter(({ first, second }) => first === person.id || second === person.id)
        .flatMap((route) =>
          route.stops.map((stop) => ({
            ...stop,
            crew: [route.first, route.second].map((id) => `${id} ${stretchAt(input, id, stop.start)}`).join(),
            alone: visits.get(stop.visitId)!.crewSize === 1,
          })),
        )
        .filter(({ start }) => stretch.from <= start && start < stretch.until)
        .sort((a, b) => a.start - b.start);
      const pairs = own.filter(({ alone }) => !alone);
      if (new Set(pairs.map(({ crew }) => crew)).size > 1) return false;
      const single = own.findIndex(({ alone }) => alone);
      return (
        pairs.length === 0 ||
        pairs.length === own.length ||
        (own.length - pairs.length === 1 && (single === 0 || single === own.length - 1))
      );
    }),
  );
}

/** The least cost of any plan. */
export function leastCost(input: PlanInput): number {
  let least = Infinity;
  const placements = new Map<string, Placement>();
  const go = (at: number): void => {
    const visit = input.visits[at];
    if (!visit) {
      const plan = planFrom(placements);
      const { cost } = costOf(input, plan, estimatedTravel);
      if (cost < least - 1e-9 && staysTogether(input, plan) && checkPlan(input, plan, estimatedTravel).length === 0) least = cost;
      return;
    }
    go(at + 1);
    for (const choice of choicesOf(input, visit)) {
      placements.set(visit.id, choice);
      if (checkPlan(input, planFrom(new Map([[visit.id, choice]])), estimatedTravel).length === 0) go(at + 1);
      placements.delete(visit.id);
    }
  };
  go(0);
  return least;
}

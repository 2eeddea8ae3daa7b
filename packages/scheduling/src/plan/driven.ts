// The driving of a plan, not rounded drive by drive as the planner reckons.
import type { Place } from '../travel.ts';
import type { Plan, PlanInput } from './model.ts';

/** Minutes on the road of all people together, from the base and back: `minutes` is that of one drive, which need not be whole. */
export function minutesDriven({ people, visits }: PlanInput, plan: Plan, minutes: (from: Place, to: Place) => number): number {
  const placeOf = new Map(visits.map(({ id, place }) => [id, place]));
  return people.reduce((sum, { id, base }) => {
    const stops = plan.routes
      .filter(({ first, second }) => first === id || second === id)
      .flatMap((route) => route.stops)
      .sort((a, b) => a.start - b.start);
    const way = stops.length === 0 ? [] : [base, ...stops.map(({ visitId }) => placeOf.get(visitId)!), base];
    return way.slice(1).reduce((total, to, at) => total + minutes(way[at]!, to), sum);
  }, 0);
}

// Who would be late with reports in a plan: asked of the rules of booking, for visits that are not where they are now.
import type { Travel } from '../travel.ts';
import { checkPlan } from './checkPlan.ts';
import type { Plan, PlanInput } from './model.ts';

/** Ids of the crews whose visits would be refused for writing. */
export function lateWriters(input: PlanInput, plan: Plan, travel: Travel): string[] {
  const writes = [...input.visits, ...(input.around ?? [])].some(({ reportMinutes = 0 }) => reportMinutes > 0);
  if (!writes) return [];
  const refused = new Set(
    checkPlan(input, plan, travel)
      .filter(({ code }) => code === 'writing')
      .map(({ visitId }) => visitId),
  );
  const now = new Map(input.visits.map(({ id, current }) => [id, current]));
  const crews = plan.routes.flatMap(({ first, second, stops }) =>
    stops
      .filter(({ visitId }) => refused.has(visitId))
      .filter(({ visitId, start }) => {
        const was = now.get(visitId);
        return was?.first !== first || was.second !== second || was.start !== start;
      })
      .flatMap(() => (second === null ? [first] : [first, second])),
  );
  return [...new Set(crews)];
}

// What a search must look at more strictly: asked of the rules of booking, for visits that are not where they are now.
import type { Travel } from '../travel.ts';
import { checkPlan } from './checkPlan.ts';
import type { Plan, PlanInput } from './model.ts';

/**
 * Where one person has several stretches or days, a search forbids too little at first. Of the people in `writers` the
 * writing, and with `kit` the kit, is looked at in a way that forbids too much.
 */
export type Strict = { writers: ReadonlySet<string>; kit: boolean };

export const NOTHING_STRICT: Strict = { writers: new Set(), kit: false };

const asksNothing = (input: PlanInput): boolean =>
  [...input.visits, ...(input.around ?? [])].every(({ reportMinutes = 0, kit }) => reportMinutes === 0 && kit.length === 0);

/** The strictness with which the plan would not have been made; the given one when booking refuses nothing more of it. */
export function stricter(input: PlanInput, plan: Plan, travel: Travel, strict: Strict): Strict {
  if (asksNothing(input)) return strict;
  const refused = checkPlan(input, plan, travel).filter(({ code }) => code === 'writing' || code === 'kit');
  const now = new Map(input.visits.map(({ id, current }) => [id, current]));
  const moved = plan.routes.flatMap(({ first, second, stops }) =>
    stops
      .filter(({ visitId, start }) => {
        const was = now.get(visitId);
        return was?.first !== first || was.second !== second || was.start !== start;
      })
      .map(({ visitId }) => ({ visitId, crew: second === null ? [first] : [first, second] })),
  );
  const of = (code: string) => moved.filter(({ visitId }) => refused.some((one) => one.visitId === visitId && one.code === code));
  const late = of('writing').flatMap(({ crew }) => crew);
  const kit = strict.kit || of('kit').length > 0;
  if (kit === strict.kit && late.every((id) => strict.writers.has(id))) return strict;
  return { writers: new Set([...strict.writers, ...late]), kit };
}

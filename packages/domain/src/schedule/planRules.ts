// Which days may be planned.
import { accept, refuse, type Outcome } from '../shared/outcome.ts';
import type { PlanKind } from './plans.ts';

const DAY = 86_400_000;

/** Most days of one plan. A what-if looks at weeks of last year. */
const MOST_DAYS: Record<PlanKind, number> = { day_plan: 7, sick_call: 14, weather: 21, what_if: 400 };

/** Days from `from` to `to`, both included; what is past is not planned, except in a what-if. */
export function mayPlan(kind: PlanKind, from: string, to: string, today: string): Outcome<null> {
  if (to < from) return refuse('plan-days-order', {}, 'to');
  if (kind !== 'what_if' && from < today) return refuse('plan-days-past', {}, 'from');
  const days = (Date.parse(to) - Date.parse(from)) / DAY + 1;
  const most = MOST_DAYS[kind];
  return days > most ? refuse('plan-days-many', { most }, 'to') : accept(null);
}

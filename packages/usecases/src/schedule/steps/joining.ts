// Visits closed for weather on an earlier day that may be placed on this one, and those that cannot wait any longer.
import { addDays } from '@backsight/scheduling/time';
import type { PlanStep } from '@backsight/scheduling/planSteps';
import type { PlanVisitRow } from '@backsight/store/schedule/planFacts';
import { isClosed, visitOn, type PlanFacts } from './planInput.ts';

/** Last day on which the report would still be ready for the client to object by; null when nothing presses. */
const lastUsefulDay = ({ objectionOn }: PlanVisitRow, reportDueDays: number): string | null =>
  objectionOn === null ? null : addDays(objectionOn, -reportDueDays);

/** An outside provider has arranged for the very time: such a visit is not moved to another day by a plan. */
export function joiningOn(facts: PlanFacts, day: string, reportDueDays: number): Pick<PlanStep, 'joining' | 'movable' | 'onlyJoined'> {
  const shut = facts.visits.filter((visit) => visit.day <= day && isClosed(facts, visit));
  const last = (visit: PlanVisitRow): string | null => lastUsefulDay(visit, reportDueDays);
  const presses = (visit: PlanVisitRow): boolean => (last(visit) ?? '9999') <= day;
  /** What was late before the weather came is only urgent. */
  const mayWait = (visit: PlanVisitRow): boolean => (last(visit) ?? day) >= day || last(visit)! < visit.day;
  return {
    joining: shut
      .filter((visit) => visit.day < day && !visit.outside && mayWait(visit))
      .map((visit) => ({ visit: visitOn(facts, visit, day), urgent: presses(visit) })),
    movable: shut.filter((visit) => visit.day === day).map((visit) => ({ id: visit.id, urgent: presses(visit) })),
    onlyJoined: !shut.some((visit) => visit.day === day),
  };
}

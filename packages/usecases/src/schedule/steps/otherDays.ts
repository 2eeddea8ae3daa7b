// To which other days of a plan a visit may go: the client was promised several days, and nothing else ties it to its own.
import { addDays } from '@backsight/scheduling/time';
import type { PlanVisit } from '@backsight/scheduling/plan/model';
import type { Elsewhere } from '@backsight/scheduling/plan/week';
import type { PlanVisitRow } from '@backsight/store/schedule/planFacts';
import { visitOn, type PlanFacts } from './planInput.ts';

const MINUTES = 1440;

export type OtherDaysAsk = {
  /** Jobs whose access is agreed with whoever lets the pair in: that is for the day as it is. */
  agreed: ReadonlySet<string>;
  /** Days from the visit until the report must be there. */
  reportDueDays: number;
};

/** Starts that both the day and the promise allow; `index` is that of the day among those of the facts. */
function onDay(facts: PlanFacts, visit: PlanVisitRow, index: number): Elsewhere['days'] {
  const shift = (index - facts.days.indexOf(visit.day)) * MINUTES;
  const { window } = visitOn(facts, visit, facts.days[index]!);
  const from = Math.max(window.from, visit.promisedFrom! - shift);
  const until = Math.min(window.until, visit.promisedUntil! - shift);
  return from <= until ? [{ day: index, from, until }] : [];
}

/**
 * The other days to which the planned visits may go. Without a promised span of days the very day is promised. A visit with an
 * outside provider, with people who come along, or whose access is agreed stays on its day; nobody's report comes too late.
 */
export function otherDays(facts: PlanFacts, planned: readonly PlanVisit[], { agreed, reportDueDays }: OtherDaysAsk): Elsewhere[] {
  const free = new Set(planned.filter(({ locked, underWay }) => !locked && !underWay).map(({ id }) => id));
  return facts.visits
    .filter(({ id, jobId, outside, observers, promisedFrom, promisedUntil }) => {
      const tied = outside || observers.length > 0 || agreed.has(jobId);
      return free.has(id) && !tied && promisedFrom !== null && promisedUntil !== null;
    })
    .map((visit) => {
      const latest = visit.objectionOn === null ? null : addDays(visit.objectionOn, -reportDueDays);
      const days = facts.days.flatMap((day, index) =>
        day === visit.day || (latest !== null && day > latest) ? [] : onDay(facts, visit, index),
      );
      return { visitId: visit.id, days };
    })
    .filter(({ days }) => days.length > 0);
}

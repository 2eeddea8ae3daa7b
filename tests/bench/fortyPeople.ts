// A week of more people than the demo firm has.
import type { Week } from '@backsight/contract/schedule';

export const PEOPLE_SHOWN = 40;

/** The week as it is, its people over and over until there are forty. */
export function forty(week: Week): Week {
  const people = Array.from({ length: PEOPLE_SHOWN }, (_, n) => {
    const like = week.people[n % week.people.length]!;
    const round = Math.floor(n / week.people.length);
    const own = (id: string): string => `${id}${round === 0 ? '' : `-${round}`}`;
    const days = like.days.map((day) => ({
      ...day,
      visits: day.visits.map((visit) => ({ ...visit, id: own(visit.id), withIds: visit.withIds.map(own) })),
      legs: day.legs.map((leg) => ({ ...leg, from: leg.from && own(leg.from), to: leg.to && own(leg.to) })),
    }));
    return { ...like, id: own(like.id), days };
  });
  return { ...week, people };
}

// Times closed for weather, as minutes of one day at one place.
import { addDays, daysBetween } from '@backsight/scheduling/time';
import { wallTime } from '@backsight/domain/schedule/wallClock';
import type { ClosureRow } from '@backsight/store/schedule/closures';

export type ClosedSpan = { start: number; end: number; reason: string };

/** Minutes of `day` during which visits in the town do not take place; `outdoors`: somebody goes onto the roof. */
export function closedMinutes(
  closures: readonly ClosureRow[],
  at: { day: string; town: string; outdoors: boolean; zone: string },
): ClosedSpan[] {
  const dayMinutes = (instant: Date): number => {
    const wall = wallTime(instant, at.zone);
    return daysBetween(at.day, wall.day) * 1440 + wall.minute;
  };
  return closures
    .filter(({ outdoorOnly, towns }) => (!outdoorOnly || at.outdoors) && (towns.length === 0 || towns.includes(at.town)))
    .map(({ startsAt, endsAt, reason }) => ({
      start: Math.max(0, dayMinutes(startsAt)),
      end: Math.min(1440, dayMinutes(endsAt)),
      reason,
    }))
    .filter(({ start, end }) => end > start);
}

/** Last day that a closure touches. */
export const lastDayOf = ({ endsAt }: Pick<ClosureRow, 'endsAt'>, zone: string): string => {
  const end = wallTime(endsAt, zone);
  return end.minute === 0 ? addDays(end.day, -1) : end.day;
};

// Times closed for weather: a part of the county or all of it, every visit or outdoor work alone.
import { daysBetween, sayTime } from './time.ts';
import type { Day, Minute } from './time.ts';
import { townOf } from './travelModel.ts';
import type { StartQuery, World } from './world.ts';

export type ClosedSpan = { start: Minute; end: Minute; reason: string };
type Asked = Pick<StartQuery, 'place' | 'roofWork'>;

/** Minutes of `day` during which such a visit does not take place. */
export function closedSpans(world: Pick<World, 'closures' | 'travel'>, { place, roofWork }: Asked, day: Day): ClosedSpan[] {
  const closures = (world.closures ?? []).filter(({ outdoorOnly }) => !outdoorOnly || roofWork !== undefined);
  if (closures.length === 0) return [];
  const town = townOf(place, world.travel?.towns ?? []);
  return closures
    .filter(({ towns }) => towns.length === 0 || towns.includes(town))
    .map(({ fromDay, fromMinute, untilDay, untilMinute, reason }) => ({
      start: Math.max(0, daysBetween(day, fromDay) * 1440 + fromMinute),
      end: Math.min(1440, daysBetween(day, untilDay) * 1440 + untilMinute),
      reason,
    }))
    .filter(({ start, end }) => end > start);
}

const isOpen = (spans: readonly ClosedSpan[], start: Minute, minutes: Minute): boolean =>
  !spans.some((one) => start < one.end && start + minutes > one.start);

/** Tells of a start whether the weather lets the visit take place; null when nothing is closed that day. */
export function weatherGate(world: World, query: StartQuery, day: Day): ((start: Minute) => boolean) | null {
  const spans = closedSpans(world, query, day);
  return spans.length === 0 ? null : (start) => isOpen(spans, start, query.durationMinutes);
}

/** What is closed on the day, in words; only what the visit would touch when its start is given. */
export const weatherSaid = (world: World, query: StartQuery, day: Day, start?: Minute): string[] =>
  closedSpans(world, query, day)
    .filter((one) => start === undefined || !isOpen([one], start, query.durationMinutes))
    .map(({ start: from, end, reason }) => `Closed for weather from ${sayTime(from)} to ${sayTime(end)}: ${reason}.`);

// What makes a question unanswerable in itself, told in one sentence.
import { sayMinutes, sayTime } from './time.ts';
import { onTheMap } from './travel.ts';
import type { StartQuery } from './world.ts';

const MAX_DURATION = 720;

/** A sentence for a place that is missing, a duration or window that cannot be, or null when the question is sound. */
export function queryProblem(query: StartQuery): string | null {
  const { durationMinutes, earliest, latestEnd } = query;
  if (!onTheMap(query.place)) return 'The property has no place on the map yet.';
  if (!(Number.isInteger(durationMinutes) && durationMinutes > 0 && durationMinutes <= MAX_DURATION)) {
    return `The visit must take between 1 min and ${sayMinutes(MAX_DURATION)}.`;
  }
  if (!(earliest >= 0 && latestEnd <= 1440 && earliest + durationMinutes <= latestEnd)) {
    return `A visit of ${sayMinutes(durationMinutes)} does not fit between ${sayTime(earliest)} and ${sayTime(latestEnd)}.`;
  }
  return null;
}

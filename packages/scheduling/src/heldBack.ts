// Who is left out of the starts of some days because a changed procedure still waits to be read, said for the one who books.
import { sayDay, type Day } from './time.ts';
import type { PersonInput } from './world.ts';

/**
 * One sentence for each person who is not offered on at least one of the days; people in training are never offered, and need no reason.
 * `days` are ISO days in ascending order.
 */
export function heldBack(people: readonly PersonInput[], days: readonly Day[]): string[] {
  const last = days.at(-1);
  if (last === undefined) return [];
  return people
    .filter(({ trainee }) => !trainee)
    .flatMap(({ name, missingAcknowledgements }) =>
      missingAcknowledgements
        .filter(({ afterDay }) => last > afterDay)
        .map(({ revision, afterDay }) => `${name} has not acknowledged ${revision}: not offered after ${sayDay(afterDay)}.`),
    );
}

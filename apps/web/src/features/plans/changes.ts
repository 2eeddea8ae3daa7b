// What a plan changes, counted as people feel it: another time, somebody else, or the same two the other way round.
import { DateTime } from 'luxon';
import type { PlanVariantAnswer } from '@backsight/contract/plans';
import { minutesText } from '../../ui/minutes.ts';

type Move = PlanVariantAnswer['days'][number]['groups'][number]['moves'][number];
export type Changes = { starts: number; people: number; swaps: number };

const crewOf = (spot: Move['before']): string => [spot?.first, spot?.second].sort().join();

/** Visits with another start; with somebody who was not booked; with the same pair of whom the other goes first. One visit can be in the first and one of the others. */
export function changesOf(moves: readonly Pick<Move, 'before' | 'after'>[]): Changes {
  const placed = moves.filter(({ after }) => after !== null);
  const others = placed.filter(({ before, after }) => crewOf(before) !== crewOf(after));
  return {
    starts: placed.filter(({ before, after }) => before?.start !== after!.start || before.day !== after!.day).length,
    people: others.length,
    swaps: placed.filter((move) => !others.includes(move) && move.before?.first !== move.after!.first).length,
  };
}

type Spot = NonNullable<Move['before']>;
/** One visit before and after, in words, and what differs; `after` null: it finds no place. */
export type Difference = { before: string | null; after: string | null; changes: string[] };

const at = ({ day, start }: Spot): string =>
  DateTime.fromISO(day, { zone: 'utc', locale: 'en-US' }).plus({ minutes: start }).toFormat('ccc, LLL d, h:mm a');

/** Who goes instead of whom; who was alone or is alone now; the same two the other way round. */
function peopleChanges(before: Spot, after: Spot, name: (id: string) => string): string[] {
  const [were, are] = [before, after].map(({ first, second }) => [first, second].filter((id) => id !== null)) as [string[], string[]];
  const left = were.filter((id) => !are.includes(id));
  const come = are.filter((id) => !were.includes(id));
  const pairs = come.map((id, n) => (left[n] === undefined ? `${name(id)} comes too` : `${name(id)} instead of ${name(left[n])}`));
  const gone = left.slice(come.length).map((id) => `without ${name(id)}`);
  const swapped = left.length + come.length === 0 && before.first !== after.first ? [`${name(after.first)} goes first`] : [];
  return [...pairs, ...gone, ...swapped];
}

function timeChanges(before: Spot, after: Spot): string[] {
  const minutes = after.start - before.start;
  const moved = minutes === 0 ? [] : [`${minutesText(Math.abs(minutes))} ${minutes > 0 ? 'later' : 'earlier'}`];
  return before.day === after.day ? moved : [`another day${minutes === 0 ? ', same hour' : ''}`];
}

/** What a reviewer compares; `name` gives the name of a person. */
export function differenceOf({ before, after }: Pick<Move, 'before' | 'after'>, name: (id: string) => string): Difference {
  const say = (spot: Spot): string =>
    `${at(spot)}; ${[spot.first, spot.second].flatMap((id) => (id === null ? [] : [name(id)])).join(' and ')}`;
  const changes =
    before && after
      ? [...timeChanges(before, after), ...peopleChanges(before, after, name)]
      : [after ? 'finds a place' : 'finds no place and is taken off'];
  return { before: before && say(before), after: after && say(after), changes };
}

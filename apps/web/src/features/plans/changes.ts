// What a plan changes, counted as people feel it: another time, somebody else, or the same two the other way round.
import type { PlanVariantAnswer } from '@backsight/contract/plans';

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

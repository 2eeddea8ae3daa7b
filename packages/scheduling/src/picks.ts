// The short list of the best crews found so far.
import type { Candidate } from './candidates.ts';
import type { Minute } from './time.ts';
import type { ScoreParts } from './world.ts';

/** Crews kept for each half of a day. */
const CREWS_PER_HALF = 4;

/** A crew at its best start of a half day; `first` goes first and writes. */
export type Pick = { a: Candidate; b: Candidate | null; first: Candidate; start: Minute; score: number; parts: ScoreParts };

/** Positions of the crew in ascending order; -1 for nobody. */
const people = (pick: Pick): [number, number] =>
  pick.b === null ? [pick.a.person, -1] : [Math.min(pick.a.person, pick.b.person), Math.max(pick.a.person, pick.b.person)];

/** Lower score, then earlier, then by the ids of the crew. */
export const byScore = (x: Pick, y: Pick): number =>
  x.score - y.score || x.start - y.start || people(x)[0] - people(y)[0] || people(x)[1] - people(y)[1];

const sameCrew = (x: Pick, y: Pick): boolean => people(x)[0] === people(y)[0] && people(x)[1] === people(y)[1];

/** Score that a crew must not exceed to enter a full list. */
export const worst = (best: readonly Pick[]): number => best[CREWS_PER_HALF - 1]?.score ?? Infinity;

/** Keeps the best crews in order, each crew once. */
export function keep(best: Pick[], pick: Pick): void {
  const twin = best.findIndex((one) => sameCrew(one, pick));
  if (twin >= 0 && byScore(best[twin]!, pick) <= 0) return;
  if (twin >= 0) best.splice(twin, 1);
  best.push(pick);
  best.sort(byScore);
  best.length = Math.min(best.length, CREWS_PER_HALF);
}

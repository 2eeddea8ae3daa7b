// The answer to "when can you come?": ranked starts with their crews, and for every other day the reasons why not.
import { bestCrews } from './crews.ts';
import { reasonsOf } from './explainDay.ts';
import { optionOf } from './options.ts';
import type { Pick } from './picks.ts';
import { queryProblem } from './queryProblem.ts';
import { searchOf } from './searchDay.ts';
import type { SearchDay } from './searchDay.ts';
import { travelAround } from './travel.ts';
import type { BlockedDay, StartOption, StartQuery, World } from './world.ts';
import { indexWorld } from './worldIndex.ts';

export type FoundStarts = { options: StartOption[]; blockedDays: BlockedDay[] };

type Found = { search: SearchDay; pick: Pick };

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Ids of the first and of the second; '' for nobody. */
function crewOf({ search: { index }, pick }: Found): [string, string] {
  const other = pick.first === pick.a ? pick.b : pick.a;
  return [index.people[pick.first.person]!.id, other === null ? '' : index.people[other.person]!.id];
}

/** Lower score first; ties by day, start and ids, so that the same question has the same answer. */
function byRank(x: Found, y: Found): number {
  const found = x.pick.score - y.pick.score || compare(x.search.row.day, y.search.row.day) || x.pick.start - y.pick.start;
  if (found !== 0) return found;
  const [a, b] = [crewOf(x), crewOf(y)];
  return compare(a[0], b[0]) || compare(a[1], b[1]);
}

/**
 * Ranked starts, at most `query.limit`, and at most `query.perDay` of each day. Of each half of a day the best few crews
 * are offered, each at its best start on the grid; scores are minutes of one person's time. A day is blocked only when it has no start at all. Give `index`
 * (made for the same world and at least these days) to save time when asking more than once. Throws RangeError when roof
 * work is asked and a day's UTC offset is missing, or a day is not one of the index.
 */
export function findStarts(world: World, query: StartQuery, index = indexWorld(world, query.days)): FoundStarts {
  const problem = queryProblem(query);
  if (problem !== null) return { options: [], blockedDays: query.days.map((day) => ({ day, reasons: [problem] })) };
  const drive = travelAround(index.travel, query.place, index.places);
  const found: Found[] = [];
  const scores: number[] = [];
  const blockedDays: BlockedDay[] = [];
  for (const day of query.days) {
    const search = searchOf(index, query, day, drive);
    const picks = bestCrews(search, scores[query.limit - 1]);
    noteScores(scores, picks, query);
    for (const pick of picks) found.push({ search, pick });
    if (picks.length === 0) blockedDays.push({ day, reasons: reasonsOf(search) });
  }
  const ranked = fewest(found.sort(byRank), query.perDay).slice(0, Math.max(0, query.limit));
  return { options: ranked.map(({ search, pick }) => optionOf(search, pick)), blockedDays };
}

/** The lowest scores of all days so far, in order, as many as are asked for: a start that scores more is not among the answers. */
function noteScores(scores: number[], picks: readonly Pick[], { limit, perDay }: StartQuery): void {
  for (const { score } of picks.slice(0, perDay)) scores.push(score);
  scores.sort((a, b) => a - b);
  scores.length = Math.min(scores.length, Math.max(0, limit));
}

/** At most `perDay` options of each day, in their order. */
function fewest(options: Found[], perDay: number | undefined): Found[] {
  if (perDay === undefined) return options;
  const taken = new Map<string, number>();
  return options.filter(
    ({
      search: {
        row: { day },
      },
    }) => {
      const before = taken.get(day) ?? 0;
      taken.set(day, before + 1);
      return before < perDay;
    },
  );
}

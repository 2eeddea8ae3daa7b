// The best crews of one day: candidates sorted by their own cost, and a pair loop that stops when no sum can win.
import { candidatesOf, costAt, leastCost, startsOf } from './candidates.ts';
import type { Candidate } from './candidates.ts';
import { byScore, keep, worst } from './picks.ts';
import type { Pick } from './picks.ts';
import { inOrder, mayGoFirst, pairRuleBroken } from './rules.ts';
import type { SearchDay } from './searchDay.ts';
import type { Minute } from './time.ts';
import { WEIGHTS } from './weights.ts';
import type { ScoreParts } from './world.ts';
import { PAIR, rotationCost } from './worldIndex.ts';

const NOON = 720;

type Half = { from: Minute; to: Minute; wish: number };

const halves = ({ query, row }: SearchDay): Half[] => {
  const { half: wished, days } = query.wishes ?? {};
  const otherDay = days !== undefined && !days.includes(row.day) ? WEIGHTS.wishedDay : 0;
  const wish = (half: 'morning' | 'afternoon') => otherDay + (wished !== undefined && wished !== half ? WEIGHTS.wishedHalf : 0);
  return [
    { from: 0, to: NOON - 1, wish: wish('morning') },
    { from: NOON, to: Infinity, wish: wish('afternoon') },
  ];
};

/** First start on the grid that is not before `minute`. */
const onGrid = (minute: Minute, grid: number): Minute => Math.ceil(minute / grid) * grid;

type Timed = { start: Minute; idle: number; overtime: number; first: Candidate };

/** The cheapest start on the grid that suits both in this order, the earliest of equals. */
function bestInOrder(search: SearchDay, half: Half, a: Candidate, b: Candidate | null): Timed | null {
  const { grid, durationMinutes } = search.query;
  const first = startsOf(search, a).asFirst;
  const second = b === null ? null : startsOf(search, b).asSecond;
  const lo = Math.max(half.from, first.lo, second?.lo ?? 0);
  const hi = Math.min(half.to, search.daylightStart, first.hi, second?.hi ?? Infinity);
  let best: Timed | null = null;
  for (let start = onGrid(lo, grid); start <= hi; start += grid) {
    if (search.outside?.(start) === false || search.weather?.(start) === false) continue;
    const one = costAt(a, start, durationMinutes);
    const two = b === null ? { idle: 0, overtime: 0 } : costAt(b, start, durationMinutes);
    const idle = one.idle + two.idle;
    const overtime = one.overtime + two.overtime;
    if (best === null || idle + overtime < best.idle + best.overtime) best = { start, idle, overtime, first: a };
    if (idle + overtime === 0) break;
  }
  return best;
}

type Span = { lo: Minute; hi: Minute };
const within = (inner: Span, outer: Span): boolean => outer.lo <= inner.lo && inner.hi <= outer.hi;

/** The cheapest start of both orders: the usual one first, the other when only then the one who writes has the time. */
function bestStart(search: SearchDay, half: Half, a: Candidate, b: Candidate | null): Timed | null {
  if (b === null) return bestInOrder(search, half, a, null);
  const { people } = search.index;
  const usual = inOrder(people[a.person]!, people[b.person]!)[0].id === people[a.person]!.id;
  const [first, second] = usual ? [a, b] : [b, a];
  const best = bestInOrder(search, half, first, second);
  const [ofFirst, ofSecond] = [startsOf(search, first), startsOf(search, second)];
  if (within(ofSecond.asFirst, ofFirst.asFirst) && within(ofFirst.asSecond, ofSecond.asSecond)) return best;
  if (!mayGoFirst(people[second.person]!)) return best;
  const turned = bestInOrder(search, half, second, first);
  if (best === null || turned === null) return best ?? turned;
  const gain = best.idle + best.overtime - turned.idle - turned.overtime;
  return gain > 0 || (gain === 0 && turned.start < best.start) ? turned : best;
}

/** Candidates who have a start of their own in this half and could be given the kit. */
function candidatesIn(search: SearchDay, half: Half, candidates: readonly Candidate[]): Candidate[] {
  const { index, kit, query, daylightStart } = search;
  return candidates.filter(
    (one) =>
      onGrid(Math.max(half.from, one.lo), query.grid) <= Math.min(half.to, one.hi, daylightStart) &&
      (kit === null || kit.member(index.people[one.person]!.id)),
  );
}

/** The crew at its best start, or null when it has none or cannot come under `limit`. */
function pickFor(search: SearchDay, half: Half, a: Candidate, b: Candidate | null, limit: number): Pick | null {
  const { index } = search;
  const wished = search.query.wishes?.personId;
  const hasWished = wished === undefined || index.people[a.person]!.id === wished || (b !== null && index.people[b.person]!.id === wished);
  const rotation = b === null ? 0 : rotationCost(index, Math.min(a.person, b.person), Math.max(a.person, b.person), search.number);
  const wish = half.wish + (hasWished ? 0 : WEIGHTS.wishedPerson);
  const fixed = a.cost + (b?.cost ?? 0) + rotation + wish;
  if (fixed > limit) return null;
  const at = bestStart(search, half, a, b);
  if (at === null) return null;
  const fairness = index.fairness[a.person]! + (b === null ? 0 : index.fairness[b.person]!);
  const addedDriving: ScoreParts['addedDriving'] = [a.addedDriving, b?.addedDriving ?? 0];
  const parts = { addedDriving, idleGap: at.idle, overtime: at.overtime, fairness, rotation, wish };
  return { a, b, first: at.first, start: at.start, score: fixed + at.idle + at.overtime, parts };
}

function mayPair(search: SearchDay, a: Candidate, b: Candidate): boolean {
  const { index, waived } = search;
  const ignored = (waived.has('crew') ? PAIR.nobodyFirst : 0) | (waived.has('pair-rule') ? PAIR.ruleBroken : 0);
  if (a.person === b.person || (index.pairing[a.person * index.people.length + b.person]! & ~ignored) !== 0) return false;
  if (!waived.has('not-qualified') && a.missing.some((key) => b.missing.includes(key))) return false;
  return search.kit === null || search.kit.crew([index.people[a.person]!.id, index.people[b.person]!.id]);
}

function mayGo(search: SearchDay, one: Candidate): boolean {
  const { index, waived } = search;
  const { id } = index.people[one.person]!;
  if (!waived.has('pair-rule') && pairRuleBroken(index.world.pairRules, id, null)) return false;
  if (!waived.has('not-qualified') && one.missing.length > 0) return false;
  return search.kit === null || search.kit.crew([id]);
}

/** A score above which crews are not wanted: at once, or only when the half has a crew already. */
type Most = { score: number; atOnce: boolean };

const bar = (best: readonly Pick[], { score, atOnce }: Most): number => Math.min(worst(best), atOnce || best.length > 0 ? score : Infinity);

function bestPairs(search: SearchDay, half: Half, candidates: readonly Candidate[], most: Most): Pick[] {
  const best: Pick[] = [];
  for (let u = 0; u < candidates.length; u++) {
    const a = candidates[u]!;
    if (2 * a.cost + half.wish > bar(best, most)) break;
    for (let v = u + 1; v < candidates.length; v++) {
      const b = candidates[v]!;
      if (a.cost + b.cost + half.wish > bar(best, most)) break;
      const pick = mayPair(search, a, b) ? pickFor(search, half, a, b, bar(best, most)) : null;
      if (pick) keep(best, pick);
    }
  }
  return best;
}

function bestAlone(search: SearchDay, half: Half, candidates: readonly Candidate[], most: Most): Pick[] {
  const best: Pick[] = [];
  for (const one of candidates) {
    const pick = mayGo(search, one) ? pickFor(search, half, one, null, bar(best, most)) : null;
    if (pick) keep(best, pick);
  }
  return best;
}

function crewsAmong(search: SearchDay, candidates: readonly Candidate[], most: number): Pick[] {
  const of = search.query.crewSize === 2 ? bestPairs : bestAlone;
  const found: Pick[] = [];
  for (const half of halves(search)) {
    found.push(...of(search, half, candidatesIn(search, half, candidates), { score: most, atOnce: found.length > 0 }));
  }
  return found.sort(byScore);
}

/**
 * The best crews of the day, a few for each half, best first. Those that score above `most` may be missing, but not all of them:
 * a day that has a start never comes back empty.
 */
export function bestCrews(search: SearchDay, most = Infinity): Pick[] {
  if (most < Infinity) {
    const partner = search.query.crewSize === 2 ? leastCost(search) : 0;
    const found = crewsAmong(search, candidatesOf(search, most - partner), most);
    if (found.length > 0) return found;
  }
  return crewsAmong(search, candidatesOf(search), most);
}

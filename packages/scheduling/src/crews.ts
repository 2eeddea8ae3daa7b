// The best crews of one day: candidates sorted by their own cost, and a pair loop that stops when no sum can win.
import { candidatesOf, costAt } from './candidates.ts';
import type { Candidate } from './candidates.ts';
import { byScore, keep, worst } from './picks.ts';
import type { Pick } from './picks.ts';
import { pairRuleBroken } from './rules.ts';
import type { SearchDay } from './searchDay.ts';
import type { Minute } from './time.ts';
import { WEIGHTS } from './weights.ts';
import type { StartQuery } from './world.ts';
import { PAIR, rotationCost } from './worldIndex.ts';

const NOON = 720;

type Half = { from: Minute; to: Minute; wish: number };

const halves = (query: StartQuery): Half[] => {
  const wish = (half: 'morning' | 'afternoon') => (query.wishes?.half !== undefined && query.wishes.half !== half ? WEIGHTS.wishedHalf : 0);
  return [{ from: 0, to: NOON - 1, wish: wish('morning') }, { from: NOON, to: Infinity, wish: wish('afternoon') }];
};

/** The cheapest start on the grid that suits all members, the earliest of equals. */
function bestStart(search: SearchDay, half: Half, crew: readonly Candidate[]): { start: Minute; idle: number; overtime: number } | null {
  const { grid, durationMinutes } = search.query;
  const lo = Math.max(half.from, ...crew.map((one) => one.lo));
  const hi = Math.min(half.to, search.daylightStart, ...crew.map((one) => one.hi));
  let best: { start: Minute; idle: number; overtime: number } | null = null;
  for (let start = Math.ceil(lo / grid) * grid; start <= hi; start += grid) {
    let idle = 0;
    let overtime = 0;
    for (const one of crew) {
      const cost = costAt(one, start, durationMinutes);
      idle += cost.idle;
      overtime += cost.overtime;
    }
    if (best === null || idle + overtime < best.idle + best.overtime) best = { start, idle, overtime };
    if (idle + overtime === 0) break;
  }
  return best;
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
  const at = bestStart(search, half, b === null ? [a] : [a, b]);
  if (at === null) return null;
  const fairness = index.fairness[a.person]! + (b === null ? 0 : index.fairness[b.person]!);
  const parts = { addedDriving: [a.addedDriving, b?.addedDriving ?? 0] as [number, number], idleGap: at.idle, overtime: at.overtime, fairness, rotation, wish };
  return { a, b, start: at.start, score: fixed + at.idle + at.overtime, parts };
}

function mayPair(search: SearchDay, a: Candidate, b: Candidate): boolean {
  const { index, waived } = search;
  const ignored = (waived.has('crew') ? PAIR.nobodyFirst : 0) | (waived.has('pair-rule') ? PAIR.ruleBroken : 0);
  if (a.person === b.person || (index.pairing[a.person * index.people.length + b.person]! & ~ignored) !== 0) return false;
  if (!waived.has('not-qualified') && a.missing.some((key) => b.missing.includes(key))) return false;
  return search.kit === null || search.kit([index.people[a.person]!.id, index.people[b.person]!.id]);
}

function mayGo(search: SearchDay, one: Candidate): boolean {
  const { index, waived } = search;
  const { id } = index.people[one.person]!;
  if (!waived.has('pair-rule') && pairRuleBroken(index.world.pairRules, id, null)) return false;
  if (!waived.has('not-qualified') && one.missing.length > 0) return false;
  return search.kit === null || search.kit([id]);
}

function bestPairs(search: SearchDay, half: Half, candidates: readonly Candidate[]): Pick[] {
  const best: Pick[] = [];
  for (let u = 0; u < candidates.length; u++) {
    const a = candidates[u]!;
    if (2 * a.cost + half.wish > worst(best)) break;
    for (let v = u + 1; v < candidates.length; v++) {
      const b = candidates[v]!;
      if (a.cost + b.cost + half.wish > worst(best)) break;
      const pick = mayPair(search, a, b) ? pickFor(search, half, a, b, worst(best)) : null;
      if (pick) keep(best, pick);
    }
  }
  return best;
}

function bestAlone(search: SearchDay, half: Half, candidates: readonly Candidate[]): Pick[] {
  const best: Pick[] = [];
  for (const one of candidates) {
    const pick = mayGo(search, one) ? pickFor(search, half, one, null, worst(best)) : null;
    if (pick) keep(best, pick);
  }
  return best;
}

/** The best crews of the day, at most `CREWS_PER_HALF` for each half, best first. */
export function bestCrews(search: SearchDay): Pick[] {
  const candidates = candidatesOf(search);
  const of = search.query.crewSize === 2 ? bestPairs : bestAlone;
  return halves(search.query).flatMap((half) => of(search, half, candidates)).sort(byScore);
}

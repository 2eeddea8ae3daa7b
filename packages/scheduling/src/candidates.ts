// The people who could come on one day, each with the free gap used, the starts that fit into it, and his own cost.
import type { Gap } from './gaps.ts';
import { ableOn, askedRules, missingKeys, personRules } from './rules.ts';
import type { Minute } from './time.ts';
import { idleCost, toQuarters, WEIGHTS } from './weights.ts';
import type { SearchDay } from './searchDay.ts';
import type { PersonInput } from './world.ts';
import { roomOn } from './worldIndex.ts';
import type { OpenGap } from './worldIndex.ts';
import { writable } from './writing.ts';
import type { StartSpan } from './writing.ts';

/** The starts that leave time for all writing when this person goes first and writes, and when not. */
type Spans = { asFirst: StartSpan; asSecond: StartSpan };

export type Candidate = {
  /** Position in the index. */
  person: number;
  gap: Gap;
  /** Drive to and from the property. */
  out: Minute;
  back: Minute;
  /** Earliest and latest start for this person, before daylight and the asked hours of the half day. */
  lo: Minute;
  hi: Minute;
  /** Found when first asked for, by `startsOf`. */
  spans: Spans | null;
  addedDriving: number;
  /** Cost whatever the start: added driving and fairness. */
  cost: number;
  /** Keys of `needAny` that the partner would have to bring. */
  missing: readonly string[];
};

/** Driving that a visit in the gap adds, and the person's load. */
const costIn = ({ index, drive }: SearchDay, { gap, person, prevAt, nextAt }: OpenGap): number =>
  drive.to(prevAt) + drive.from(nextAt) - gap.direct + index.fairness[person]!;

/** A visit in this gap, or null when it does not fit. */
function fit(search: SearchDay, open: OpenGap, cost: number): Candidate | null {
  const { query, drive, index, row } = search;
  const { gap, person } = open;
  const out = drive.to(open.prevAt);
  const back = drive.from(open.nextAt);
  const lo = Math.max(gap.from + out, search.earliest);
  const hi = Math.min(gap.until - back, gap.closes, query.latestEnd) - query.durationMinutes;
  if (lo > hi || !comes(search, index.people[person]!, person)) return null;
  const missing = missingKeys(index.people[person]!, query.needAny, row.day);
  return { person, gap, out, back, lo, hi, spans: null, addedDriving: out + back - gap.direct, cost, missing };
}

/** When a candidate may start; most candidates are never asked. */
export const startsOf = (search: SearchDay, one: Candidate): Spans => (one.spans ??= writingSpans(search, one));

function writingSpans(search: SearchDay, one: Candidate): Spans {
  const { index, query, row, waived } = search;
  const report = query.reportMinutes ?? 0;
  const room = waived.has('writing') || (report === 0 && !index.writes) ? undefined : roomOn(index, one.person, row.day);
  if (!room) return { asFirst: one, asSecond: one };
  const { durationMinutes } = query;
  return { asFirst: writable(room, one, durationMinutes, report), asSecond: writable(room, one, durationMinutes, 0) };
}

/** Whether no rule about the person alone, other than the waived ones, keeps him away. */
export function mayCome({ query, row, waived }: SearchDay, person: PersonInput): boolean {
  if (query.only !== undefined && !query.only.includes(person.id)) return false;
  for (const rule of personRules) if (!waived.has(rule.code) && rule.breaks(person, query, row.day)) return false;
  return true;
}

/** As `mayCome`; what does not depend on the question is found once for each person and day. */
function comes(search: SearchDay, person: PersonInput, at: number): boolean {
  const { query, row, waived } = search;
  if (waived.size > 0 || query.only !== undefined) return mayCome(search, person);
  row.able[at] ??= ableOn(person, query, row.day);
  if (!row.able[at]) return false;
  for (const rule of askedRules) if (rule.breaks(person, query, row.day)) return false;
  return true;
}

/** No candidate of the day costs less. */
export function leastCost(search: SearchDay): number {
  let least = Infinity;
  for (const gap of search.row.gaps) least = Math.min(least, costIn(search, gap));
  return least;
}

/** Candidates of the day that cost no more than `most`, cheapest first; a person with two usable gaps appears twice. */
export function candidatesOf(search: SearchDay, most = Infinity): Candidate[] {
  const list: Candidate[] = [];
  for (const gap of search.row.gaps) {
    const cost = costIn(search, gap);
    const candidate = cost > most ? null : fit(search, gap, cost);
    if (candidate) list.push(candidate);
  }
  return list.sort((a, b) => a.cost - b.cost || a.person - b.person || a.lo - b.lo);
}

/** Minutes left free before and after a visit that starts at `start`. */
function idleAt(candidate: Candidate, start: Minute, duration: Minute): number {
  const { gap, out, back } = candidate;
  const homeBy = gap.toBase ? gap.closes : gap.until;
  return idleCost(start - gap.from - out) + idleCost(homeBy - back - start - duration);
}

/** Minutes past the working hours that the visit adds to the drive home. */
function overtimeAt(candidate: Candidate, start: Minute, duration: Minute): Minute {
  const { gap, back } = candidate;
  if (!gap.toBase) return 0;
  return Math.max(0, start + duration + back - gap.closes - gap.overtimeAnyway);
}

/** The parts of a person's cost that depend on the start, never negative. */
export const costAt = (candidate: Candidate, start: Minute, duration: Minute): { idle: number; overtime: number } => ({
  idle: idleAt(candidate, start, duration),
  overtime: toQuarters(WEIGHTS.overtime * overtimeAt(candidate, start, duration)),
});

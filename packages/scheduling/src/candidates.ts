// The people who could come on one day, each with the free gap used, the starts that fit into it, and his own cost.
import type { Gap } from './gaps.ts';
import { missingKeys, personRules } from './rules.ts';
import type { Minute } from './time.ts';
import { idleCost, toQuarters, WEIGHTS } from './weights.ts';
import type { SearchDay } from './searchDay.ts';
import type { PersonInput } from './world.ts';
import { roomOn } from './worldIndex.ts';
import { writable } from './writing.ts';
import type { StartSpan } from './writing.ts';

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
  /** The starts that leave time for all writing when this person goes first and writes, and when not. */
  asFirst: StartSpan;
  asSecond: StartSpan;
  addedDriving: number;
  /** Cost whatever the start: added driving and fairness. */
  cost: number;
  /** Keys of `needAny` that the partner would have to bring. */
  missing: string[];
};

/** A visit in this gap, or null when it does not fit. */
function fit(search: SearchDay, person: number, gap: Gap, missing: string[]): Candidate | null {
  const { query } = search;
  const out = search.drive.to(gap.prev);
  const back = search.drive.from(gap.next);
  const lo = Math.max(gap.from + out, search.earliest);
  const hi = Math.min(gap.until - back, gap.closes, query.latestEnd) - query.durationMinutes;
  if (lo > hi) return null;
  const addedDriving = out + back - gap.direct;
  const spans = writingSpans(search, { person, gap, out, back, lo, hi });
  return { person, gap, out, back, lo, hi, ...spans, addedDriving, cost: addedDriving + search.index.fairness[person]!, missing };
}

type Bare = Pick<Candidate, 'person' | 'gap' | 'out' | 'back' | 'lo' | 'hi'>;

function writingSpans(search: SearchDay, one: Bare): Pick<Candidate, 'asFirst' | 'asSecond'> {
  const { index, query, row, waived } = search;
  const report = query.reportMinutes ?? 0;
  const room = waived.has('writing') || (report === 0 && !index.writes) ? undefined : roomOn(index, one.person, row.day);
  if (!room) return { asFirst: one, asSecond: one };
  const fits = { ...one, duration: query.durationMinutes };
  return { asFirst: writable(room, one, { ...fits, report }), asSecond: writable(room, one, { ...fits, report: 0 }) };
}

/** Whether no rule about the person alone, other than the waived ones, keeps him away. */
export const mayCome = (search: SearchDay, person: PersonInput): boolean =>
  (search.query.only === undefined || search.query.only.includes(person.id)) &&
  personRules.every((rule) => search.waived.has(rule.code) || !rule.breaks(person, search.query, search.row.day));

/** Candidates of the day, cheapest first; a person with two usable gaps appears twice. */
export function candidatesOf(search: SearchDay): Candidate[] {
  const list: Candidate[] = [];
  search.index.people.forEach((person, at) => {
    if (!mayCome(search, person)) return;
    const missing = missingKeys(person, search.query.needAny, search.row.day);
    for (const gap of search.row.gaps[at]!) {
      const candidate = fit(search, at, gap, missing);
      if (candidate) list.push(candidate);
    }
  });
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

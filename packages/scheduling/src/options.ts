// A found crew turned into the answer that people read: who goes first, the parts of the score, marks and a sentence.
import type { Candidate } from './candidates.ts';
import type { Pick } from './picks.ts';
import type { SearchDay } from './searchDay.ts';
import { addDays, sayDay, sayMinutes, sayTime } from './time.ts';
import type { Minute } from './time.ts';
import { leastCertain } from './travelModel.ts';
import { WEIGHTS } from './weights.ts';
import type { PersonInput, ScoreParts, StartOption, StartQuery, Tightest } from './world.ts';

/** Marks a start whose report is ready only after the last day on which it is of use. */
function marksOf(query: StartQuery, day: string, end: Minute): string[] {
  const deadline = query.reportDeadline;
  if (!deadline) return [];
  const readyDay = addDays(day, Math.floor((end + deadline.reportMinutesAfter) / 1440));
  if (readyDay <= deadline.day) return [];
  return [`The report would be ready on ${sayDay(readyDay)}, after the objection deadline of ${sayDay(deadline.day)}.`];
}

function limitsOf(candidate: Candidate, start: Minute, end: Minute): Tightest[] {
  const { gap, out, back } = candidate;
  return [
    { kind: gap.fromBase ? 'working hours' : 'travel', slack: start - gap.from - out },
    { kind: gap.toBase ? 'working hours' : 'travel', slack: gap.until - back - end },
    { kind: 'working hours', slack: gap.closes - end },
  ];
}

function tightestOf(search: SearchDay, pick: Pick, end: Minute): Tightest {
  const crew = pick.b === null ? [pick.a] : [pick.a, pick.b];
  const limits: Tightest[] = crew.flatMap((one) => limitsOf(one, pick.start, end));
  limits.push({ kind: 'asked hours', slack: Math.min(pick.start - search.earliest, search.query.latestEnd - end) });
  if (search.daylightStart !== Infinity) limits.push({ kind: 'daylight', slack: Math.floor(search.daylightStart - pick.start) });
  return limits.reduce((least, one) => (one.slack < least.slack ? one : least));
}

function drivingSaid([first, second]: ScoreParts['addedDriving']): string {
  const total = first + second;
  return total > 0 ? `${sayMinutes(total)} more driving` : 'no more driving';
}

function costsSaid(parts: ScoreParts): string {
  return [
    drivingSaid(parts.addedDriving),
    parts.idleGap > 0 && 'leaves a gap too short for another visit',
    parts.overtime > 0 && `${sayMinutes(parts.overtime / WEIGHTS.overtime)} after working hours`,
    parts.fairness > 0 && `load of the last weeks counted as ${sayMinutes(Math.max(1, Math.round(parts.fairness)))}`,
    parts.rotation > 0 && 'the two went together lately',
    parts.wish > 0 && 'not all wishes met',
  ]
    .filter(Boolean)
    .join('; ');
}

function sentenceOf(day: string, start: Minute, end: Minute, first: PersonInput, second: PersonInput | null, parts: ScoreParts): string {
  const who = second === null ? first.name : `${first.name} first with ${second.name}`;
  return `${sayDay(day)}, ${sayTime(start)} to ${sayTime(end)}, ${who}: ${costsSaid(parts)}.`;
}

function sourceOf({ index, query }: SearchDay, { a, b }: Pick): StartOption['travelSource'] {
  const crew = b === null ? [a] : [a, b];
  const { travel } = index;
  const drives = crew.flatMap(({ gap }) => [[gap.prev, query.place] as const, [query.place, gap.next] as const]);
  return leastCertain(drives.filter(([from, to]) => travel.minutes(from, to) > 0).map(([from, to]) => travel.sourceOf(from, to)));
}

/** The option of a pick, with first and second in their places. */
export function optionOf(search: SearchDay, pick: Pick): StartOption {
  const { people } = search.index;
  const a = people[pick.a.person]!;
  const b = pick.b === null ? null : people[pick.b.person]!;
  const [first, second] = b !== null && pick.first === pick.b ? [b, a] : [a, b];
  const [drivingA, drivingB] = pick.parts.addedDriving;
  const parts: ScoreParts = { ...pick.parts, addedDriving: first === a ? [drivingA, drivingB] : [drivingB, drivingA] };
  const { day } = search.row;
  const end = pick.start + search.query.durationMinutes;
  return {
    day,
    start: pick.start,
    end,
    first: first.id,
    second: second?.id ?? null,
    score: pick.score,
    parts,
    sentence: sentenceOf(day, pick.start, end, first, second, parts),
    marks: marksOf(search.query, day, end),
    tightest: tightestOf(search, pick, end),
    travelSource: sourceOf(search, pick),
  };
}

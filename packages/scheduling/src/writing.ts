// Writing of reports as part of the working hours: done after the visit, or by the end of the next working day.
import { freeGaps } from './gaps.ts';
import type { Commitment, Gap } from './gaps.ts';
import { overtimeLimitOf } from './overtime.ts';
import type { Day, Minute } from './time.ts';
import type { Travel } from './travel.ts';
import type { Busy, PersonInput, World } from './world.ts';

/** One day of a person as far as writing goes; minutes. */
export type WritingDay = {
  day: Day;
  /** Some of the hours are not taken by an absence. Writing that is carried over waits for such a day. */
  works: boolean;
  gaps: readonly Gap[];
  /** Working time without visits, driving and absences. */
  free: Minute;
  /** End of the last visit; -1 without one. */
  lastEnd: Minute;
  /** The part of `free` after the last visit: the only time of the day for its own reports. */
  tail: Minute;
  /** Reports of the day's own visits. */
  own: Minute;
};

/** How writing runs through a day: what comes in from before, what is written, what is passed on. */
export type WritingFlow = WritingDay & {
  carried: Minute;
  written: Minute;
  passed: Minute;
  /** Carried in and not done by the end of this day, which is a working day. */
  late: Minute;
};

/** Working time in a gap beside the drive that happens anyway. */
export const freeIn = (gap: Gap): Minute => Math.max(0, Math.min(gap.until, gap.closes) - gap.from - gap.direct);

const isThere = (visit: Busy, id: string): boolean => visit.personIds.includes(id) || (visit.observerIds?.includes(id) ?? false);

function writingDay(world: World, person: PersonInput, day: Day, visits: readonly Busy[], travel: Travel): WritingDay {
  const shifts = person.shifts.filter((shift) => shift.day === day);
  const away: Commitment[] = person.off.filter((off) => off.day === day).map(({ start, end }) => ({ start, end, place: person.base }));
  const gaps = freeGaps(shifts, person.base, [...visits, ...away], overtimeLimitOf(world, person), travel);
  const lastEnd = visits.reduce((last, one) => Math.max(last, one.end), -1);
  return {
    day,
    works: away.length === 0 ? shifts.length > 0 : freeGaps(shifts, person.base, away, 0, travel).length > 0,
    gaps,
    free: gaps.reduce((sum, gap) => sum + freeIn(gap), 0),
    lastEnd,
    tail: gaps.filter((gap) => gap.from >= lastEnd).reduce((sum, gap) => sum + freeIn(gap), 0),
    own: visits.reduce((sum, one) => sum + (one.personIds[0] === person.id ? (one.reportMinutes ?? 0) : 0), 0),
  };
}

/** The person's days in order: those with hours and those with visits. */
export function writingDays(world: World, person: PersonInput, travel: Travel): WritingDay[] {
  const visits = new Map<Day, Busy[]>(person.shifts.map(({ day }) => [day, []]));
  for (const one of world.busy) {
    if (!isThere(one, person.id)) continue;
    const ofDay = visits.get(one.day);
    if (ofDay) ofDay.push(one);
    else visits.set(one.day, [one]);
  }
  return [...visits.entries()].sort(([a], [b]) => (a < b ? -1 : 1)).map(([day, ofDay]) => writingDay(world, person, day, ofDay, travel));
}

/** What was carried in is written first, at any free time; the day's own reports after its last visit; the rest is passed on. */
export function flowOf(days: readonly WritingDay[]): WritingFlow[] {
  let carried = 0;
  return days.map(({ day, works, gaps, free, lastEnd, tail, own }) => {
    const late = works ? Math.max(0, carried - free) : 0;
    const passed = works ? Math.max(0, own - Math.min(tail, free - carried)) : carried + own;
    const flow = { day, works, gaps, free, lastEnd, tail, own, carried, written: carried + own - passed, passed, late };
    carried = passed;
    return flow;
  });
}

/** Minutes of writing that are overdue at the end of each day, and those that no day known is left for. */
export const overdue = (flow: readonly WritingFlow[]): { day: Day; minutes: Minute }[] => [
  ...flow.map(({ day, late }) => ({ day, minutes: late })),
  ...flow.slice(-1).map(({ day, passed }) => ({ day, minutes: passed })),
];

/** How much a day may pass on without making any report late that is not late already. */
export type WritingRoom = WritingFlow & { most: Minute };

/** The flow with the room of each day, found from the last day back. After the last day known nothing may be passed on. */
export function roomOf(flow: readonly WritingFlow[]): WritingRoom[] {
  let takes = 0;
  return [...flow]
    .reverse()
    .map((day) => {
      const { works, free, own, carried, passed } = day;
      const most = Math.max(takes, passed);
      takes = Math.max(carried, works ? Math.min(free, free - own + most) : takes - own);
      return { ...day, most };
    })
    .reverse();
}

/** Starts, from `lo` to `hi`, at which a visit in a gap leaves time for all writing; empty when `lo` > `hi`. */
export type StartSpan = { lo: Minute; hi: Minute };

type Fit = StartSpan & { gap: Gap; out: Minute; back: Minute };

/**
 * The starts at which the writing still fits when the visit takes `duration` and its report `report` minutes: what was carried in must get done that day, and what the day passes
 * on must not exceed its room. Before the end of the hours a later start moves free time from after the visit to before it.
 */
export function writable(room: WritingRoom, fit: Fit, duration: Minute, report: Minute): StartSpan {
  const { gap, out, back } = fit;
  const over = room.own + report - room.most;
  const needed = room.carried + Math.max(0, over);
  const ends = Math.min(gap.until, gap.closes) - duration - back;
  const others = room.free - freeIn(gap);
  let { lo, hi } = fit;
  if (others + ends - gap.from - out < needed) lo = Math.max(lo, needed - others + gap.from + out, ends + 1);
  if (over > 0) {
    if (gap.from < room.lastEnd) hi = room.tail >= over ? hi : -1;
    else {
      const later = room.gaps.filter((one) => one.from > gap.from).reduce((sum, one) => sum + freeIn(one), 0);
      hi = later >= over ? hi : Math.min(hi, ends + later - over);
    }
  }
  return { lo, hi };
}

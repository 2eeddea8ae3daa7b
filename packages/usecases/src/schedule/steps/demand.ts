// What one visit demands: how long, how many people, which papers and kit; and the question that the search is asked.
import { offsetsOf, wallTime } from '@backsight/domain/schedule/wallClock';
import type { StartQuery } from '@backsight/scheduling/world';
import type { OfficeRow } from '@backsight/store/jobs/catalog';

/** A visit to be placed. `kind` is a key of the kinds of visit. */
export type Demand = {
  kind: string;
  crewSize: 1 | 2;
  minutes: number;
  reportMinutes: number;
  place: { lat: number; lon: number };
  needEach: string[];
  needAny: string[];
  kit: string[];
  roofWork?: { offsetMinutes: number };
  /** Property and people of the job, compared with whom a person may not be sent to. */
  involves: string[];
  /** People of whom no two make up the pair: those who did the inspection that a callback visit looks at again. */
  neverAlone?: string[];
  /** Last day on which the report is of use, and minutes until it is ready. */
  reportDeadline?: { day: string; reportMinutesAfter: number };
};

export type Wishes = { personId?: string | undefined; half?: 'morning' | 'afternoon' | undefined };

const EARLIEST = 480;
const LATEST = 1080;

/** From the earliest opening to the latest closing of the week. */
function openFrame(office: OfficeRow): { earliest: number; latestEnd: number } {
  const open = Object.values(office.hours).filter((hours) => hours !== null);
  if (open.length === 0) return { earliest: EARLIEST, latestEnd: LATEST };
  return { earliest: Math.min(...open.map(([start]) => start)), latestEnd: Math.max(...open.map(([, end]) => end)) };
}

/** The question for the days given; nothing is offered within the next half hour. */
export function queryOf(
  office: OfficeRow,
  demand: Demand,
  ask: { days: string[]; now: Date; limit: number; wishes?: Wishes | undefined },
): StartQuery {
  const soon = wallTime(new Date(ask.now.getTime() + 30 * 60_000), office.zone);
  const wishes = {
    ...(ask.wishes?.personId ? { personId: ask.wishes.personId } : {}),
    ...(ask.wishes?.half ? { half: ask.wishes.half } : {}),
  };
  return {
    place: demand.place,
    durationMinutes: demand.minutes,
    crewSize: demand.crewSize,
    needEach: demand.needEach,
    needAny: demand.needAny,
    kit: demand.kit,
    ...(demand.roofWork ? { roofWork: demand.roofWork } : {}),
    days: ask.days,
    ...openFrame(office),
    grid: 15,
    wishes,
    limit: ask.limit,
    notBefore: soon,
    utcOffsetMinutesByDay: offsetsOf(ask.days, office.zone),
    ...(demand.reportDeadline ? { reportDeadline: demand.reportDeadline } : {}),
    involves: demand.involves,
  };
}

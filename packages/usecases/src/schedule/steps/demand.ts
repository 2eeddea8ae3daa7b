// What one visit demands: how long, how many people, which papers and kit; and the question that the search is asked.
import { offsetsOf, wallTime } from '@backsight/domain/schedule/wallClock';
import type { StartQuery } from '@backsight/scheduling/world';
import type { Provider } from '@backsight/domain/jobs/decide';
import type { OfficeRow } from '@backsight/store/jobs/catalog';
import type { LoadedWorld } from './loadWorld.ts';

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
  /** People who are not sent: those who were at the house for another client, where a lead said no. */
  keepAway?: string[];
  /** Minutes at the end of the visit that are the client's. */
  walkThroughMinutes?: number;
  /** Services that outside providers do, each with those who may. */
  outside?: { service: string; name: string; providers: Provider[] }[];
  /** Last day on which the report is of use, and minutes until it is ready. */
  reportDeadline?: { day: string; reportMinutesAfter: number };
};

export type Wishes = {
  personId?: string | undefined;
  half?: 'morning' | 'afternoon' | undefined;
  /** Days on which somebody who comes too is in the county anyway. */
  days?: readonly string[] | undefined;
};

export type Ask = {
  days: string[];
  now: Date;
  limit: number;
  perDay?: number | undefined;
  only?: readonly string[] | undefined;
  wishes?: Wishes | undefined;
  /** Minutes of the day within which the visit is wanted; the office hours when absent. */
  earliest?: number | undefined;
  latestEnd?: number | undefined;
  /** Where outside providers are, as the world was read. */
  taken?: LoadedWorld['outside'] | undefined;
};

const EARLIEST = 480;
const LATEST = 1080;

/** From the earliest opening to the latest closing of the week. */
export function openFrame(office: OfficeRow): { earliest: number; latestEnd: number } {
  const open = Object.values(office.hours).filter((hours) => hours !== null);
  if (open.length === 0) return { earliest: EARLIEST, latestEnd: LATEST };
  return { earliest: Math.min(...open.map(([start]) => start)), latestEnd: Math.max(...open.map(([, end]) => end)) };
}

/** The hours asked for; the office's own where nothing is asked. */
function frameOf(office: OfficeRow, { earliest, latestEnd }: Ask): { earliest: number; latestEnd: number } {
  const open = openFrame(office);
  return { earliest: earliest ?? open.earliest, latestEnd: latestEnd ?? open.latestEnd };
}

/** Who may do each outside service, and where they are otherwise. */
const outsideOf = ({ outside = [] }: Demand, taken: LoadedWorld['outside']): StartQuery['outside'] =>
  outside.map(({ name, providers }) => ({
    service: name,
    providers: providers.map((one) => ({
      id: one.id,
      name: one.name,
      offset: one.offsetMinutes,
      minutes: one.minutes,
      licensedUntil: one.licenseUntil,
      insuredUntil: one.insuranceUntil,
      busy: taken.filter(({ providerId }) => providerId === one.id),
    })),
  }));

/** The question for the days given; nothing is offered within the next half hour. */
export function queryOf(office: OfficeRow, demand: Demand, ask: Ask): StartQuery {
  const soon = wallTime(new Date(ask.now.getTime() + 30 * 60_000), office.zone);
  const wishes = {
    ...(ask.wishes?.personId ? { personId: ask.wishes.personId } : {}),
    ...(ask.wishes?.half ? { half: ask.wishes.half } : {}),
    ...(ask.wishes?.days ? { days: ask.wishes.days } : {}),
  };
  return {
    place: demand.place,
    durationMinutes: demand.minutes,
    reportMinutes: demand.reportMinutes,
    outside: outsideOf(demand, ask.taken ?? []) ?? [],
    crewSize: demand.crewSize,
    needEach: demand.needEach,
    needAny: demand.needAny,
    kit: demand.kit,
    ...(demand.roofWork ? { roofWork: demand.roofWork } : {}),
    days: ask.days,
    ...frameOf(office, ask),
    ...(ask.perDay === undefined ? {} : { perDay: ask.perDay }),
    ...(ask.only === undefined ? {} : { only: ask.only }),
    grid: 15,
    wishes,
    limit: ask.limit,
    notBefore: soon,
    utcOffsetMinutesByDay: offsetsOf(ask.days, office.zone),
    ...(demand.reportDeadline ? { reportDeadline: demand.reportDeadline } : {}),
    involves: demand.involves,
  };
}
